import { writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { BUILT, openBuiltApp } from '../scripts/chromium.mjs';
import {
  compressedSize,
  MOST_SCRIPT,
  NOTE_GRID,
  scriptsBeforeGrid,
} from '../scripts/first-load.mjs';
import { openBareGrid } from './bare-grid.mjs';
import { percentile } from './probe.mjs';

/**
 * A workbook of 50,000 formulas in the built app: how long typing keeps the page from doing anything
 * else, once into a cell that few formulas use and once into one that all of them use; how many frames
 * a second a sheet of 10,000 rows is scrolled with; and how much compressed script the page asks for
 * before the grid is there.
 */

const SHEETS = 10;
const ROWS = 5_000;
const VIEWPORT = { width: 1400, height: 800 };

/** A sheet of lines `input, = input before times two, = total so far`; the first cell is used by all. */
function book() {
  const sheets = Array.from({ length: SHEETS }, (_, s) => ({
    id: `s${s + 1}`,
    name: `Sheet ${s + 1}`,
    columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }],
    rows: Array.from({ length: ROWS }, (__, r) => ({
      id: `r${r + 1}`,
      cells: {
        c1: { value: r + 1 },
        ...(r === 0 ? {} : { c2: { formula: `=[c1.r${r + 1}]*2+[s1!c1.$r1]` } }),
      },
    })),
  }));
  return JSON.stringify({
    kerfbook: 1,
    title: 'Fifty thousand',
    units: 'us',
    sheets,
    checks: [],
    tables: [],
  });
}

/** @param {string} label @param {readonly number[]} times @param {string} [target] */
function row(label, times, target = '') {
  const cell = (/** @type {number} */ ms) => ms.toFixed(0).padStart(7);
  console.log(
    `${label.padEnd(44)}${cell(percentile(times, 0.5))}${cell(percentile(times, 0.95))}${cell(Math.max(...times))}  ${target}`,
  );
}

/** Frames a second while a grid is scrolled from its first row on. @param {import('playwright-core').Page} page */
async function scrolled(page) {
  await page.bringToFront();
  return page.evaluate(async () => {
    const viewport = document.querySelector('.ag-body-viewport, .ag-grid-viewport');
    if (viewport === null) throw new Error('there is no grid to scroll');
    viewport.scrollTop = 0;
    /** @type {number[]} */
    const gaps = [];
    let last = performance.now();
    for (let i = 0; i < 240; i += 1) {
      viewport.scrollTop += 400;
      await new Promise((resolve) => requestAnimationFrame(resolve));
      const now = performance.now();
      gaps.push(now - last);
      last = now;
    }
    const all = gaps.reduce((sum, gap) => sum + gap, 0);
    return { rate: (gaps.length * 1000) / all, longest: Math.max(...gaps) };
  });
}

async function main() {
  const folder = await mkdtemp(join(tmpdir(), 'kerfbook-bench-'));
  const path = join(folder, 'large.kerfbook.json');
  writeFileSync(path, book());
  const app = await openBuiltApp();
  try {
    const page = await app.browser.newPage({ viewport: VIEWPORT });
    await page.addInitScript(NOTE_GRID);
    await page.goto(app.address);
    const scripts = await scriptsBeforeGrid(page);
    const bytes = compressedSize(
      BUILT,
      scripts.map(({ file }) => file),
    );
    const sent = scripts.reduce((sum, one) => sum + one.sent, 0);
    const kB = (/** @type {number} */ all) => (all / 1000).toFixed(0);
    console.log(
      `script before the grid is there: ${kB(bytes)} kB compressed with gzip (target ${kB(MOST_SCRIPT)}), ${kB(sent)} kB as it is sent`,
    );

    await page.getByRole('button', { name: 'Workbooks' }).click();
    await page.getByLabel('Workbook file').setInputFiles(path);
    await page.locator('.book-title', { hasText: 'Fifty thousand' }).waitFor({ timeout: 120_000 });
    await page.waitForTimeout(2_000);
    await page.evaluate(() => {
      const longest = { ms: 0 };
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) longest.ms = Math.max(longest.ms, entry.duration);
      }).observe({ entryTypes: ['longtask'] });
      Object.assign(window, { longest });
    });
    const cell = (/** @type {number} */ at) =>
      page.locator(`.ag-row[row-id="${at}"] [aria-colindex="2"]`);
    /** @param {number} at @param {number} times */
    const typing = async (at, times) => {
      const tasks = [];
      for (let i = 0; i < times; i += 1) {
        await cell(at).click();
        await page.evaluate(() => {
          /** @type {{ longest: { ms: number } }} */ (/** @type {unknown} */ (window)).longest.ms =
            0;
        });
        await page.keyboard.type(String(100 + i));
        await page.keyboard.press('Enter');
        await page.waitForTimeout(1_200);
        tasks.push(
          await page.evaluate(
            () =>
              /** @type {{ longest: { ms: number } }} */ (/** @type {unknown} */ (window)).longest
                .ms,
          ),
        );
      }
      return tasks;
    };
    console.log('longest task while typing, ms (0: none over 50)     p50    p95    max');
    row('into a cell that one formula uses', await typing(10, 10), 'target 50');
    row('into a cell that 50,000 formulas use', await typing(0, 6), 'target 50');

    const bare = await openBareGrid(app.browser, { viewport: VIEWPORT, rows: ROWS, columns: 8 });
    const [own, other] = [await scrolled(page), await scrolled(bare)];
    console.log(
      `scrolling ${ROWS} rows, 400 px a frame: ${own.rate.toFixed(0)} frames a second (target 55), longest frame ${own.longest.toFixed(0)} ms; the bare grid ${other.rate.toFixed(0)}, ${other.longest.toFixed(0)} ms: ${(own.rate / other.rate).toFixed(2)} of it`,
    );
  } finally {
    await app.close();
    await rm(folder, { recursive: true });
  }
}

await main();
