import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serve } from '@kerfbook/grid/scripts/serve.mjs';
import { chromium } from 'playwright-core';
import { ensureBrowser, NotReady } from '../../apps/cli/scripts/ensure.mjs';

/** Where the built app lies. */
export const BUILT = fileURLToPath(new URL('../../apps/grid/dist', import.meta.url));

/** Chromium without a window. Its sandbox is left out only where Chromium itself refuses it: as root. */
export async function launchChromium() {
  return chromium.launch({
    executablePath: await ensureBrowser(),
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  });
}

/**
 * The built app, served and with a browser beside it.
 * @throws {NotReady} when the app is not built
 */
export async function openBuiltApp() {
  if (!existsSync(join(BUILT, 'index.html'))) {
    throw new NotReady('The app is not built; run "npm run build" first.');
  }
  const server = await serve({ folder: BUILT, port: 0 });
  const browser = await launchChromium();
  return {
    browser,
    address: server.address,
    async close() {
      await browser.close();
      await server.close();
    },
  };
}
