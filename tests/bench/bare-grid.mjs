import { join } from 'node:path';

const script = join(
  import.meta.dirname,
  '../../node_modules/ag-grid-community/dist/ag-grid-community.min.js',
);

/**
 * A page with the grid alone: as many rows and columns as the sheet it is compared with, plain
 * values, the grid's own editor and its own painting. `box` gives it the room, px, that another grid
 * has; `rowHeight` and `columnWidth`, px, its lines, the grid's own where they are left out.
 * @param {import('playwright-core').Browser} browser
 * @param {{ viewport: { width: number, height: number }, rows: number, columns: number,
 *   rowHeight?: number, columnWidth?: number, box?: { width: number, height: number } }} size
 */
export async function openBareGrid(
  browser,
  { viewport, rows, columns, rowHeight, columnWidth = 120, box },
) {
  const page = await browser.newPage({ viewport });
  const { width, height } = { width: 'auto', height: 780, ...box };
  const across = width === 'auto' ? width : `${width}px`;
  await page.setContent(
    `<!doctype html><div id="grid" style="width: ${across}; height: ${height}px"></div>`,
  );
  await page.addScriptTag({ path: script });
  await page.evaluate(
    ({ rows, columns, rowHeight, columnWidth }) => {
      const host = /** @type {HTMLElement} */ (document.querySelector('#grid'));
      const { agGrid } = /** @type {{ agGrid: typeof import('ag-grid-community') }} */ (
        /** @type {unknown} */ (window)
      );
      const fields = Array.from({ length: columns }, (_, i) => `c${i}`);
      agGrid.createGrid(host, {
        columnDefs: fields.map((field) => ({ field, editable: true, width: columnWidth })),
        ...(rowHeight === undefined ? {} : { rowHeight }),
        rowData: Array.from({ length: rows }, (_, row) =>
          Object.fromEntries(fields.map((field) => [field, `${row}`])),
        ),
      });
    },
    { rows, columns, rowHeight, columnWidth },
  );
  await page.locator('.ag-cell').first().waitFor();
  return page;
}
