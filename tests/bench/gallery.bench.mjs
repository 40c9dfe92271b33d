import { openBuiltApp } from '../scripts/chromium.mjs';
import { longBook } from './long-book.mjs';
import { percentile } from './probe.mjs';

/**
 * The list of workbooks with 500 of the maker's own in the built app, each a dining table with all its cells: how long
 * it takes from the press to the last card in it, from a letter typed to what is found, and from the press on a workbook
 * of 2,000 cells to the grid with its result in it, beside how long the app takes to show the dining table on its first
 * load in the same browser.
 */

const MANY = 500;
const TIMES = 5;
/** 400 rows of five cells, of which four are formulas: the last one adds all. */
const LONG = longBook({
  title: 'Long list',
  sheets: ['List'],
  rows: 400,
  line: (row) => [
    row,
    `=[s1!c1.r${row}]*2`,
    `=[s1!c2.r${row}]+1`,
    `=[s1!c3.r${row}]/3`,
    `=SUM([s1!c1.r1]:[s1!c1.r${row}])`,
  ],
});
const VIEWPORT = { width: 1440, height: 900 };

/** Keeps the open workbook as so many others, as if they had been saved. @param {import('playwright-core').Page} page */
async function keepMany(page) {
  return page.evaluate(
    ([many, long]) =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open('kerfbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const work = opening.result.transaction('books', 'readwrite');
          const store = work.objectStore('books');
          const all = store.getAll();
          all.onsuccess = () => {
            const [one] = all.result;
            for (let i = 0; i < many; i += 1) {
              const updated =
                typeof one.updated === 'number' ? one.updated - i * 60_000 : one.updated;
              store.put({ ...one, id: `many-${i}`, title: `Table ${i + 1}`, updated });
            }
            store.put({ ...one, id: 'long-list', title: 'Long list', text: long });
          };
          work.oncomplete = () => resolve(all.result[0]?.text?.length);
          work.onerror = () => reject(work.error);
        };
      }),
    /** @type {const} */ ([MANY, LONG]),
  );
}

/** @param {string} label @param {readonly number[]} times @param {number} beside */
function row(label, times, beside) {
  const middle = percentile(times, 0.5);
  console.log(
    `${label.padEnd(52)}${middle.toFixed(0).padStart(7)} ms  ${(middle / beside).toFixed(2)} of the first load`,
  );
}

async function main() {
  const app = await openBuiltApp();
  try {
    /** @type {number[]} */
    const loads = [];
    for (let i = 0; i < TIMES; i += 1) {
      const context = await app.browser.newContext({ viewport: VIEWPORT });
      const fresh = await context.newPage();
      const began = performance.now();
      await fresh.goto(app.address);
      await fresh.locator('.ag-row .ag-cell').first().waitFor();
      loads.push(performance.now() - began);
      await context.close();
    }
    const load = percentile(loads, 0.5);
    const page = await (await app.browser.newContext({ viewport: VIEWPORT })).newPage();
    page.setDefaultTimeout(120_000);
    await page.goto(app.address);
    await page.locator('.ag-row .ag-cell').first().waitFor();
    // The first change makes the workbook one's own, and keeps it.
    await page.locator('.go-to input').fill('top_length');
    await page.locator('.go-to input').press('Enter');
    await page.locator('.ag-cell:focus').waitFor();
    await page.keyboard.type('90');
    await page.keyboard.press('Enter');
    await page.locator('.saved-state[data-kind="saved"]').waitFor();
    const letters = await keepMany(page);
    await page.reload();
    await page.locator('.ag-row .ag-cell').first().waitFor();
    /** @type {number[]} */
    const opens = [];
    /** @type {number[]} */
    const finds = [];
    for (let i = 0; i < TIMES; i += 1) {
      await page.getByRole('button', { name: 'Menu', exact: true }).click();
      const began = performance.now();
      await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
      await page.waitForFunction(
        (many) => document.querySelectorAll('.book-row').length > many,
        MANY,
      );
      opens.push(performance.now() - began);
      const typed = performance.now();
      await page.locator('.gallery-find input').fill('table 77');
      await page.waitForFunction(() => document.querySelectorAll('.book-row').length < 40);
      finds.push(performance.now() - typed);
      await page.getByRole('button', { name: 'Close', exact: true }).click();
      await page.getByRole('dialog', { name: 'Workbooks' }).waitFor({ state: 'hidden' });
    }
    /** @type {number[]} */
    const longs = [];
    for (let i = 0; i < TIMES; i += 1) {
      await page.reload();
      await page.locator('.ag-row .ag-cell').first().waitFor();
      await page.getByRole('button', { name: 'Menu', exact: true }).click();
      await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
      await page.locator('.gallery-find input').fill('long list');
      const pressed = performance.now();
      await page.getByRole('button', { name: 'Open: Long list', exact: true }).click();
      // The tenth row's fifth cell adds 1 to 10.
      await page.locator('.ag-row[row-index="9"] .cell-words', { hasText: /^55$/ }).waitFor();
      longs.push(performance.now() - pressed);
      await page.getByRole('button', { name: 'Menu', exact: true }).click();
      await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
      await page.locator('.gallery-find input').fill('table 77');
      await page.getByRole('button', { name: 'Open: Table 77', exact: true }).click();
      await page.getByRole('dialog', { name: 'Workbooks' }).waitFor({ state: 'hidden' });
    }
    console.log(`${MANY} workbooks of ${letters} letters each, median of ${TIMES}`);
    row('first load, to the dining table', loads, load);
    row('the list, from the press to the last card', opens, load);
    row('finding one of them by two words', finds, load);
    row('opening one of 2,000 cells, 1,600 of them formulas', longs, load);
  } finally {
    await app.close();
  }
}

await main();
