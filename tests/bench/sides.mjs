import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * The same workbook on three sides: open in ours, compiled, and in bare HyperFormula, which is HyperFormula
 * with our functions registered and nothing else of ours. Each is loaded in a process of its own: what our
 * engine mends in HyperFormula would be mended in the bare one too.
 */

/**
 * @typedef {import('./books.mjs').At} At
 *
 * One input and some results.
 * @typedef {object} Asked
 * @property {(value: number) => number} edit gives the input a value; how many cells differ after it
 * @property {(value: number) => unknown[]} ask the same, and what the results are then
 *
 * @typedef {object} Side
 * @property {(input: At, results: readonly At[]) => Asked} from
 * @property {((sheet: string, row: number) => void)=} insert a row before another
 * @property {((sheet: string, row: number) => void)=} remove a row
 *
 * How a side opens a workbook: from its text as saved, or from the same without anything of ours, as JSON.
 * @typedef {(text: string, contents: string) => Side} Open
 */

/** @returns {Promise<Open>} */
async function live() {
  const { loadText, Workbook } = await import('@kerfbook/workbook');
  return (text) => {
    const loaded = loadText(text);
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    /** @param {import('@kerfbook/workbook').Edit} edit */
    const apply = (edit) => {
      const result = book.apply(edit);
      if (!result.ok) throw new Error(result.says);
      return result.changed.length;
    };
    let rows = 0;
    return {
      from({ sheet, row, column }, results) {
        const edit = (/** @type {number} */ value) =>
          apply({ do: 'enter', sheet, cells: [{ row, column, text: String(value) }] });
        return {
          edit,
          ask(value) {
            edit(value);
            return results.map((at) => plain(book.value(at)));
          },
        };
      },
      insert(sheet, at) {
        rows += 1;
        apply({ do: 'insertRows', sheet, at, rows: [{ id: `new${rows}` }] });
      },
      remove: (sheet, at) => void apply({ do: 'deleteRows', sheet, at, count: 1 }),
    };
  };
}

/** @param {import('@kerfbook/workbook').CellValue} value */
const plain = (value) => (value.kind === 'number' ? value.number : value.kind);

/** @returns {Promise<Open>} */
async function compiled() {
  const { loadText } = await import('@kerfbook/workbook');
  const { CompiledDocument } = await import('@kerfbook/workbook/sweep');
  return (text) => {
    const loaded = loadText(text);
    if (!loaded.ok) throw new Error(loaded.says);
    const { document } = loaded;
    const book = CompiledDocument.of(document);
    const all = document.sheets.flatMap(({ id, rows, columns }) =>
      rows.flatMap((_, row) => columns.map((__, column) => ({ sheet: id, row, column }))),
    );
    return {
      from(input, results) {
        const everywhere = book.slice([input], all);
        const slice = book.slice([input], results);
        return {
          edit: (value) => everywhere.follow([value]).length,
          ask: (value) => slice.run([value]).map(plain),
        };
      },
    };
  };
}

/** @returns {Promise<Open>} */
async function bare() {
  const folder = join(import.meta.dirname, '../../packages/workbook');
  // Our functions are built on the engine's own copy.
  const require = createRequire(join(folder, 'package.json'));
  const { HyperFormula } = await import(
    require
      .resolve('hyperformula')
      .replace('/commonjs/', '/es/')
      .replace(/index\.js$/, 'index.mjs')
  );
  const ours = pathToFileURL(join(folder, 'dist/engine/functions.js')).href;
  const { registerOurs } = await import(ours);
  registerOurs(HyperFormula);
  const config = pathToFileURL(join(folder, 'dist/engine/config.js')).href;
  const { engineConfig } = await import(config);
  const settings = engineConfig('us', {});
  return (_, contents) => {
    /** @type {import('./books.mjs').Contents} */
    const { sheets, names, ids } = JSON.parse(contents);
    const book = HyperFormula.buildFromSheets(sheets, settings, names);
    const numbers = new Map(ids.map((id, i) => [id, book.getSheetId(Object.keys(sheets)[i])]));
    const place = (/** @type {At} */ { sheet, row, column }) => ({
      sheet: numbers.get(sheet),
      row,
      col: column,
    });
    return {
      from(input, results) {
        const at = place(input);
        const places = results.map(place);
        return {
          edit: (value) => book.setCellContents(at, value).length,
          ask(value) {
            book.setCellContents(at, value);
            return places.map((one) => book.getCellValue(one));
          },
        };
      },
      insert: (sheet, row) => void book.addRows(numbers.get(sheet), [row, 1]),
      remove: (sheet, row) => void book.removeRows(numbers.get(sheet), [row, 1]),
    };
  };
}

/** @type {Record<string, () => Promise<Open>>} */
export const SIDES = { live, compiled, bare };
