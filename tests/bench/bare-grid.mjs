import { join } from 'node:path';

const script = join(
  import.meta.dirname,
  '../../node_modules/ag-grid-community/dist/ag-grid-community.min.js',
);

/**
 * A page with the grid alone: as many rows and columns as the sheet it is compared with, plain
 * values, the grid's own editor and its own painting.
 * @param {import('playwright-core').Browser} browser
 * @param {{ viewport: { width: number, height: number }, rows: number, columns: number }} size
 */
export async function openBareGrid(browser, { viewport, rows, columns }) {
  const page = await browser.newPage({ viewport });
  await page.setContent('<!doctype html><div id="grid" style="height: 780px"></div>');
  await page.addScriptTag({ path: script });
  await page.evaluate(
    ({ rows, columns }) => {
      const host = /** @type {HTMLElement} */ (document.querySelector('#grid'));
      const { agGrid } = /** @type {{ agGrid: typeof import('ag-grid-community') }} */ (
        /** @type {unknown} */ (window)
      );
      const fields = Array.from({ length: columns }, (_, i) => `c${i}`);
      agGrid.createGrid(host, {
        columnDefs: fields.map((field) => ({ field, editable: true, width: 120 })),
        rowData: Array.from({ length: rows }, (_, row) =>
          Object.fromEntries(fields.map((field) => [field, `${row}`])),
        ),
      });
    },
    { rows, columns },
  );
  await page.locator('.ag-cell').first().waitFor();
  return page;
}
