import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';

/** Workbooks that benchmarks measure, and what another program is given of them. */

/** The text of the dining table that ships. */
export const diningTable = () =>
  readFileSync(join(import.meta.dirname, '../../templates/dining-table.json'), 'utf8');

/**
 * The dining table with formulas more, which buy and cut its parts.
 * @param {string} text
 */
export function withBuying(text) {
  const book = JSON.parse(text);
  const args = [
    '[s5!c5.r4]:[c5.r9]',
    '[s5!c2.r4]:[c2.r9]',
    '[s9!c5.r4]:[c5.r7]',
    '[s9!c6.r4]:[c6.r7]',
    'IN(1/8)',
    'IN(1/2)',
  ].join(',');
  const rows = ['BUY_COST', 'BUY_BOUND', 'BUY_WASTE'].map((name, i) => ({
    id: `r${i + 1}`,
    cells: { c1: { formula: `=${name}(${args})` } },
  }));
  book.sheets.push({ id: 'buying', name: 'Buying', columns: [{ id: 'c1' }], rows });
  return JSON.stringify(book);
}

/**
 * A workbook whose buying plans are made: where a formula asks for one, its value stands.
 * @param {string} text
 */
export function withPlansMade(text) {
  const book = Workbook.open(documentOf(text));
  const kept = JSON.parse(text);
  for (const { id, rows, columns } of kept.sheets) {
    for (const [row, line] of rows.entries()) {
      for (const [name, cell] of Object.entries(line.cells ?? {})) {
        if (!/\b(?:PLAN|BUY|RACK|SHEETS)_/.test(cell.formula ?? '')) continue;
        const column = columns.findIndex((/** @type {{ id: string }} */ one) => one.id === name);
        const value = book.value({ sheet: id, row, column });
        if (value.kind !== 'number') throw new Error(`${cell.formula} is no number`);
        const { formula: _, ...rest } = cell;
        line.cells[name] = { ...rest, value: value.number };
      }
    }
  }
  return JSON.stringify(kept);
}

/** @param {string} text @throws an Error where it cannot be opened */
export function documentOf(text) {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/**
 * A cell, by its row and column counted from 0.
 * @typedef {{ sheet: string, row: number, column: number }} At
 *
 * A workbook without anything of ours: entries and formulas with addresses, row by row.
 * @typedef {object} Contents
 * @property {Record<string, (string | number | boolean | null)[][]>} sheets by name; text begins with '
 * @property {{ name: string, expression: string }[]} names
 * @property {string[]} ids of the sheets, in their order
 * @property {At[]} formulas cells that have one
 */

/**
 * @param {string} text
 * @returns {Contents}
 */
export function contentsOf(text) {
  const document = documentOf(text);
  const book = Workbook.open(document);
  /** @type {At[]} */
  const formulas = [];
  /** @type {Contents['sheets']} */
  const sheets = Object.fromEntries(
    document.sheets.map((sheet) => [
      sheet.name,
      sheet.rows.map((_, row) =>
        sheet.columns.map((__, column) => {
          const at = { sheet: sheet.id, row, column };
          const { formula, value } = book.cell(at);
          if (formula !== undefined) {
            formulas.push(at);
            return formula.replaceAll('FALSE', 'FALSE()');
          }
          if (value.kind === 'number') return value.number;
          return value.kind === 'text' ? `'${value.text}` : null;
        }),
      ),
    ]),
  );
  // The checks' formulas are part of every edit; they stand on a sheet of their own here too.
  if (document.checks.length > 0) {
    sheets['#checks'] = document.checks.map(({ formula }) => [formula]);
  }
  const names = book.names().map(({ name, at }) => {
    const address = book.addressOf(at).replace(/^([A-Z]+)(\d+)$/, '$$$1$$$2');
    return { name, expression: `=${book.sheet(at.sheet)?.name}!${address}` };
  });
  return { sheets, names, ids: document.sheets.map(({ id }) => id), formulas };
}

/** @param {string} text @param {string} name */
export function placeOf(text, name) {
  const at = Workbook.open(documentOf(text)).find(name);
  if (at === undefined) throw new Error(`the workbook has no ${name}`);
  return at;
}
