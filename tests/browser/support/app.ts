import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { ensureBrowser } from '../../../apps/cli/scripts/ensure.mjs';

/** The app as it is built, served and opened the way a maker gets it. */
export interface App {
  readonly browser: Browser;
  readonly address: string;
  /** A page in a profile of its own: nothing is left of another test. */
  open(options?: BrowserContextOptions): Promise<Page>;
  close(): Promise<void>;
}

const BUILT = join(import.meta.dirname, '../../../apps/grid/dist');

/** Chromium without a window. The sandbox is left out only where Chromium itself refuses it: as root. */
export async function launch(): Promise<Browser> {
  const asRoot = process.getuid?.() === 0;
  return chromium.launch({
    executablePath: await ensureBrowser(),
    args: asRoot ? ['--no-sandbox'] : [],
  });
}

/** Serves the built app and starts a browser; once for each test file. */
export async function startApp(): Promise<App> {
  if (!existsSync(join(BUILT, 'index.html'))) {
    throw new Error('apps/grid is not built; run "npx turbo run build" first.');
  }
  const server = await serve({ folder: BUILT, port: 0 });
  const browser = await launch();
  return {
    browser,
    address: server.address,
    async open(options = {}) {
      const context = await browser.newContext({
        viewport: { width: 1440, height: 900 },
        ...options,
      });
      // Another browser may be at work beside this one.
      context.setDefaultTimeout(60_000);
      const page = await context.newPage();
      await page.goto(server.address);
      return page;
    },
    async close() {
      await browser.close();
      await server.close();
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
