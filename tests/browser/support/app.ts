import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { openBuiltApp } from '../../scripts/chromium.mjs';

/** The app as it is built, served and opened the way a maker gets it. */
export interface App {
  readonly browser: Browser;
  readonly address: string;
  /**
   * A page in a profile of its own: nothing is left of another test. The app is kept for offline there only
   * with `serviceWorkers: 'allow'`.
   */
  open(options?: BrowserContextOptions): Promise<Page>;
  close(): Promise<void>;
}

/** The window of a maker at a desk, px. */
export const SCREEN = { width: 1440, height: 900 };

/** So high that every row a template fills is drawn, however many lines its notes take, and free rows under them. */
export const HIGH = { width: 1440, height: 1900 };

type Built = Awaited<ReturnType<typeof openBuiltApp>>;

/** The built app that all test files of this process share, and how many of its uses are not closed yet. */
let shared: Promise<Built> | undefined;
let uses = 0;

/** What is shared, begun anew where there is none or its browser is gone. */
async function builtApp(): Promise<Built> {
  const now = await shared;
  if (now?.browser.isConnected() === true) return now;
  await now?.close();
  shared = openBuiltApp();
  // What cannot be started is tried anew by the next file, and not told to it as it was told to this one.
  shared.catch(() => {
    shared = undefined;
  });
  return shared;
}

/**
 * Serves the built app and starts a browser, once for all test files that run in this process: it ends with it.
 * Each page has a profile of its own, and closing takes away every one that a file left open.
 */
export async function startApp(): Promise<App> {
  const { browser, address } = await builtApp();
  uses += 1;
  const opened = new Set<BrowserContext>();
  return {
    browser,
    address,
    async open(options = {}) {
      const context = await browser.newContext({
        viewport: SCREEN,
        ...options,
      });
      opened.add(context);
      if (options.serviceWorkers === undefined) await withoutWorker(context);
      // Another browser may be at work beside this one.
      context.setDefaultTimeout(60_000);
      const page = await context.newPage();
      await page.goto(address);
      return page;
    },
    async close() {
      uses -= 1;
      const left = uses === 0 ? browser.contexts() : opened;
      await Promise.all([...left].map((context) => context.close()));
    },
  };
}

/**
 * Has a browser refuse the app's service worker. Keeping the app for offline asks for all of it once more, which
 * takes a quarter of the processor time that opening the app takes: it is for tests that are about it.
 */
export async function withoutWorker(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    if (!('serviceWorker' in navigator)) return;
    navigator.serviceWorker.register = () => Promise.reject(new Error('There is no worker here.'));
  });
}

/** Everything a page complained of so far: errors on its console and errors nobody caught. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return complaints;
}
