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
import { longBook } from './long-book.mjs';
import { percentile } from './probe.mjs';

/**
 * A workbook of 50,000 formulas in the built app: how long typing keeps the page from doing anything
 * else, once into a cell that few formulas use and once into one that all of them use; how many frames
 * a second a sheet is scrolled with, beside a bare grid with as many cells in as much room; and how
 * much compressed script the page asks for before the grid is there. A sheet holds 10,000 rows at most, so
 * that many are scrolled.
 */

const SHEETS = 5;
const ROWS = 10_000;
/** Each side is scrolled so often in turn, so that a slow moment of the machine falls on both. */
const SCROLLS = 7;
const VIEWPORT = { width: 1400, height: 800 };

/** On each sheet an input a row and a formula beside it; all of them use the first cell too. */
const book = () =>
  longBook({
    title: 'Fifty thousand',
    sheets: Array.from({ length: SHEETS }, (_, i) => `Sheet ${i + 1}`),
    rows: ROWS,
    line: (row) => [row, row === 1 ? undefined : `=[c1.r${row}]*2+[s1!c1.$r1]`, undefined],
  });

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
    const viewport = document.querySelector('.ag-grid-viewport');
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

/** What a grid draws: rows, cells in each, their sizes and its room, px. @param {import('playwright-core').Page} page */
async function drawnBy(page) {
  return page.evaluate(() => {
    const rows = [...document.querySelectorAll('.ag-row')];
    const [first] = rows;
    const box = document.querySelector('.ag-root-wrapper')?.getBoundingClientRect();
    if (box === undefined || first === undefined) throw new Error('there is no grid');
    const cells = [...first.querySelectorAll('.ag-cell')];
    const across = cells.reduce((sum, cell) => sum + cell.getBoundingClientRect().width, 0);
    return {
      rows: rows.length,
      cells: cells.length,
      columnWidth: across / cells.length,
      rowHeight: first.getBoundingClientRect().height,
      box: { width: box.width, height: box.height },
    };
  });
}

/**
 * Scrolls the app's grid beside a bare one of as many cells a row, lines as high and as much room.
 * @param {import('playwright-core').Browser} browser @param {import('playwright-core').Page} page
 */
async function compareScrolling(browser, page) {
  const own = await drawnBy(page);
  const bare = await openBareGrid(browser, {
    viewport: VIEWPORT,
    rows: ROWS,
    columns: own.cells,
    rowHeight: own.rowHeight,
    columnWidth: own.columnWidth,
    box: own.box,
  });
  /** @type {{ own: Awaited<ReturnType<typeof scrolled>>[], bare: Awaited<ReturnType<typeof scrolled>>[] }} */
  const runs = { own: [], bare: [] };
  for (let i = 0; i < SCROLLS; i += 1) {
    runs.own.push(await scrolled(page));
    runs.bare.push(await scrolled(bare));
  }
  const [ours, theirs] = [await drawnBy(page), await drawnBy(bare)];
  const median = (/** @type {readonly { rate: number }[]} */ all) =>
    percentile(
      all.map(({ rate }) => rate),
      0.5,
    );
  const longest = (/** @type {readonly { longest: number }[]} */ all) =>
    Math.max(...all.map((run) => run.longest)).toFixed(0);
  console.log(
    `scrolling ${ROWS} rows, 400 px a frame, median of ${SCROLLS} (the bare grid beside it)`,
  );
  console.log(
    `  frames a second ${median(runs.own).toFixed(0)} (${median(runs.bare).toFixed(0)}), target 55; ${(median(runs.own) / median(runs.bare)).toFixed(2)} of the bare grid`,
  );
  console.log(`  longest frame, ms ${longest(runs.own)} (${longest(runs.bare)})`);
  console.log(
    `  drawn: ${ours.rows} rows of ${ours.cells} cells (${theirs.rows} of ${theirs.cells})`,
  );
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

    await page.getByRole('button', { name: 'Menu', exact: true }).click();
    await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
    await page.getByLabel('Workbook file').setInputFiles(path);
    await page.locator('.top-title', { hasText: 'Fifty thousand' }).waitFor({ timeout: 120_000 });
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

    await compareScrolling(app.browser, page);
  } finally {
    await app.close();
    await rm(folder, { recursive: true });
  }
}

await main();
