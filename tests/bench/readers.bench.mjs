import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { readersPage, readersScript } from '@kerfbook/guide';
import { loadText } from '@kerfbook/workbook';
import { BUILT, launchChromium } from '../scripts/chromium.mjs';
import { compressedSize, firstScripts } from '../scripts/first-load.mjs';
import { percentile } from './probe.mjs';

/**
 * The page for readers of the dining table: what it weighs beside the app's first load (target: 250 kB), how long
 * until it is drawn and until it follows a size, from this machine and at 1.5 Mbit/s (targets: drawn within 0.5 s and
 * 2.5 s), the frames while an input is pulled with the processor slowed four times, and the cutting plan after it is let go
 * (target: 0.5 s).
 */

const ROOT = join(import.meta.dirname, '../..');
const PULLS = 40;
const SLOWER = 4;
/** Bytes a second of 1.5 Mbit/s, and a round trip as phones have it on the road. */
const SLOW = { downloadThroughput: 1_500_000 / 8, uploadThroughput: 750_000 / 8, latency: 40 };

function makePage() {
  const loaded = loadText(readFileSync(join(ROOT, 'templates/dining-table.json'), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  const { document: plain } = loaded;
  const guide = { ...plain.guide, inputs: ['top_length', 'top_width', 'table_height', 'species'] };
  const document = { ...plain, guide };
  const program = readFileSync(join(ROOT, 'packages/guide/dist/readers/program.json'), 'utf8');
  const made = readersPage({
    document,
    script: (readers) => readersScript(program, readers),
    sign: (text) => createHash('sha256').update(text).digest('hex'),
  });
  if (!made.ok) throw new Error(made.says);
  return made.page;
}

/** @param {number} bytes */
const kB = (bytes) => `${(bytes / 1000).toFixed(0)} kB`;
/** @param {number} time */
const ms = (time) => `${time.toFixed(time < 10 ? 1 : 0)} ms`;

/**
 * @param {import('playwright-core').Browser} browser @param {string} address
 * @param {typeof SLOW | undefined} line
 */
async function opened(browser, address, line) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  if (line !== undefined) {
    await session.send('Network.enable');
    await session.send('Network.emulateNetworkConditions', { offline: false, ...line });
  }
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (document.documentElement?.dataset.ready === undefined) return;
      performance.mark('ready');
      observer.disconnect();
    }).observe(document, { subtree: true, attributes: true, childList: true });
  });
  await page.goto(address);
  await page.locator('html[data-ready]').waitFor({ state: 'attached' });
  await page.waitForTimeout(300);
  const times = await page.evaluate(() => ({
    drawn: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
    ready: performance.getEntriesByName('ready')[0]?.startTime ?? Number.NaN,
  }));
  return { context, page, session, times };
}

const page = makePage();
const packed = gzipSync(page, { level: 9 });
const server = createServer((_, response) => {
  response.setHeader('content-type', 'text/html; charset=utf-8');
  response.setHeader('content-encoding', 'gzip');
  response.end(packed);
});
await new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(undefined)));
const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
const address = `http://127.0.0.1:${port}/`;
const browser = await launchChromium();

console.log(
  `page            ${kB(packed.length)} gzip, ${kB(brotliCompressSync(page).length)} brotli (target 250 kB compressed)`,
);
try {
  console.log(
    `app, scripts    ${kB(compressedSize(BUILT, firstScripts(BUILT)))} gzip before the first sheet`,
  );
} catch {
  console.log('app             not built');
}
for (const [name, line] of /** @type {const} */ ([
  ['this machine', undefined],
  ['1.5 Mbit/s', SLOW],
])) {
  const drawn = [];
  const ready = [];
  for (let i = 0; i < 5; i += 1) {
    const { context, times } = await opened(browser, address, line);
    drawn.push(times.drawn);
    ready.push(times.ready);
    await context.close();
  }
  console.log(
    `${name.padEnd(15)} drawn after ${ms(percentile(drawn, 0.5))}, follows a size after ${ms(percentile(ready, 0.5))}`,
  );
}
const { page: pulled, session } = await opened(browser, address, undefined);
for (const slower of [1, SLOWER]) {
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  const { frames, plan } = await pulled.evaluate(async (count) => {
    const slider = document.querySelector('.guide-slider');
    if (!(slider instanceof HTMLInputElement)) throw new Error('there is no slider');
    /** @type {number[]} */
    const taken = [];
    for (let i = 0; i < count; i += 1) {
      slider.value = String(72 + (i % 24));
      const before = performance.now();
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      // The frame in which it is drawn, and what of it is done after that.
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 0)));
      taken.push(performance.now() - before);
    }
    const was = document.documentElement.dataset.settled;
    const before = performance.now();
    slider.dispatchEvent(new Event('change', { bubbles: true }));
    while (document.documentElement.dataset.settled === was) {
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
    return { frames: taken, plan: performance.now() - before };
  }, PULLS);
  const rest = frames.slice(5);
  console.log(
    `pulled, ${slower}× slower  a step is drawn within ${ms(percentile(rest, 0.5))} (median), ${ms(percentile(rest, 0.95))} (19 of 20); cutting plan ${ms(plan)} after letting go (target 500 ms)`,
  );
}
await browser.close();
server.close();
