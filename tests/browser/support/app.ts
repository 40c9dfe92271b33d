import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { openBuiltApp } from '../../scripts/chromium.mjs';

/** The app as it is built, served and opened the way a maker gets it. */
export interface App {
  readonly browser: Browser;
  readonly address: string;
  /** A page in a profile of its own: nothing is left of another test. */
  open(options?: BrowserContextOptions): Promise<Page>;
  close(): Promise<void>;
}

/** Serves the built app and starts a browser; once for each test file. */
export async function startApp(): Promise<App> {
  const { browser, address, close } = await openBuiltApp();
  return {
    browser,
    address,
    close,
    async open(options = {}) {
      const context = await browser.newContext({
        viewport: { width: 1440, height: 900 },
        ...options,
      });
      // Another browser may be at work beside this one.
      context.setDefaultTimeout(60_000);
      const page = await context.newPage();
      await page.goto(address);
      return page;
    },
  };
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
