import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openBuiltApp } from './chromium.mjs';

/** Takes the README's picture: the app as it opens, on the dining table. */

const target = fileURLToPath(new URL('../browser/pictures/dining-table.png', import.meta.url));

const app = await openBuiltApp();
try {
  const page = await app.browser.newPage({
    viewport: { width: 1440, height: 900 },
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  await page.goto(app.address);
  await page.locator('.ag-cell').first().waitFor();
  await page.locator('.drawing svg').first().waitFor();
  await page.evaluate(() => document.fonts.ready);
  // What comes in late, the drawing and the checks, is there when nothing is asked for any more.
  await page.waitForLoadState('networkidle');
  mkdirSync(dirname(target), { recursive: true });
  await page.screenshot({ path: target });
  console.log(target);
} finally {
  await app.close();
}
