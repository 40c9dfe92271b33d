/**
 * Times edits inside the page, where no message to the page and back is counted: from the moment
 * Enter is handled to the end of the first frame in which every cell that is waited for shows its
 * new text.
 */

/**
 * A cell that is waited for.
 * @typedef {{ cell: string, text: string }} Awaited `cell` is a selector
 */

/** @param {import('playwright-core').Page} page */
export async function installProbe(page) {
  await page.evaluate(() => {
    /** @param {Awaited} cell */
    const shows = ({ cell, text }) =>
      (document.querySelector(cell)?.textContent ?? '').trim().startsWith(text);
    /** @param {readonly Awaited[]} cells @param {number} began @param {(ms: number) => void} done */
    const watch = (cells, began, done) => {
      const look = () => {
        if (performance.now() - began > 5000) return done(Number.NaN);
        if (!cells.every(shows)) return requestAnimationFrame(look);
        // The frame's callbacks have seen the new text; the next task runs after it is painted.
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done(performance.now() - began);
        port2.postMessage(undefined);
        return undefined;
      };
      requestAnimationFrame(look);
    };
    const probe = {
      /** @type {Promise<number> | undefined} */
      time: undefined,
      /** @param {readonly Awaited[]} cells */
      arm(cells) {
        probe.time = new Promise((done) => {
          const onEnter = (/** @type {KeyboardEvent} */ event) => {
            if (event.key !== 'Enter') return;
            removeEventListener('keydown', onEnter, true);
            watch(cells, performance.now(), done);
          };
          addEventListener('keydown', onEnter, true);
        });
      },
    };
    Object.assign(window, { kerfbookProbe: probe });
  });
}

/**
 * Types into the cell that has the focus and times the Enter that commits it.
 * @param {import('playwright-core').Page} page
 * @param {string} entry
 * @param {readonly Awaited[]} cells
 * @returns {Promise<number>} milliseconds
 */
export async function timeEdit(page, entry, cells) {
  await page.keyboard.type(entry);
  await page.evaluate((waited) => {
    /** @type {{ kerfbookProbe: { arm(cells: readonly Awaited[]): void } }} */ (
      /** @type {unknown} */ (window)
    ).kerfbookProbe.arm(waited);
    return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  }, cells);
  await page.keyboard.press('Enter');
  const ms = await page.evaluate(
    () =>
      /** @type {{ kerfbookProbe: { time: Promise<number> } }} */ (/** @type {unknown} */ (window))
        .kerfbookProbe.time,
  );
  if (Number.isNaN(ms)) {
    const shown = await textsOf(page);
    const missed = cells
      .filter(({ cell, text }) => !(shown.get(cell) ?? '').startsWith(text))
      .map(({ cell, text }) => `${cell} shows "${shown.get(cell)}", not "${text}"`);
    throw new Error(
      `after "${entry}" the cells never showed what was expected: ${missed.join('; ')}`,
    );
  }
  return ms;
}

/**
 * A cell by its row, counted from 0, and its column as the page tells it to a screen reader.
 * @param {number | string} row @param {number | string} column
 */
export const cellSelector = (row, column) =>
  `.ag-row[row-id="${row}"] .ag-cell[aria-colindex="${column}"]`;

/**
 * What every rendered cell shows now, by its selector.
 * @param {import('playwright-core').Page} page
 * @returns {Promise<Map<string, string>>}
 */
export async function textsOf(page) {
  const found = await page.evaluate(() =>
    [...document.querySelectorAll('.ag-row .ag-cell')].map((cell) => ({
      row: cell.closest('[row-id]')?.getAttribute('row-id') ?? '',
      column: cell.getAttribute('aria-colindex') ?? '',
      text: (cell.textContent ?? '').trim(),
    })),
  );
  return new Map(found.map(({ row, column, text }) => [cellSelector(row, column), text]));
}

/** @param {readonly number[]} times @param {number} share 0 to 1 */
export function percentile(times, share) {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}
