import { openBuiltApp } from '../scripts/chromium.mjs';
import { percentile } from './probe.mjs';

/**
 * The list of workbooks with 500 of the maker's own in the built app, each a dining table with all its cells: how long
 * it takes from the press to the last card in it, and from a letter typed to what is found, beside how long the app
 * takes to show the dining table on its first load in the same browser.
 */

const MANY = 500;
const TIMES = 5;
const VIEWPORT = { width: 1440, height: 900 };

/** Keeps the open workbook as so many others, as if they had been saved. @param {import('playwright-core').Page} page */
async function keepMany(page) {
  return page.evaluate(
    (many) =>
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
          };
          work.oncomplete = () => resolve(all.result[0]?.text?.length);
          work.onerror = () => reject(work.error);
        };
      }),
    MANY,
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
    console.log(`${MANY} workbooks of ${letters} letters each, median of ${TIMES}`);
    row('first load, to the dining table', loads, load);
    row('the list, from the press to the last card', opens, load);
    row('finding one of them by two words', finds, load);
  } finally {
    await app.close();
  }
}

await main();
