import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';

/** Workbooks that benchmarks measure, and bare HyperFormula with our functions and nothing else of ours. */

const folder = join(import.meta.dirname, '../../packages/workbook');
// The engine's own copy: the registry of functions is one for the process, ours included.
const require = createRequire(join(folder, 'package.json'));
const { HyperFormula } = await import(
  require
    .resolve('hyperformula')
    .replace('/commonjs/', '/es/')
    .replace(/index\.js$/, 'index.mjs')
);

const SETTINGS = {
  licenseKey: 'gpl-v3',
  maxRows: 10_000,
  maxColumns: 702,
  parseDateTime: () => undefined,
  useArrayArithmetic: true,
  evaluateNullToZero: true,
  precisionRounding: 14,
  undoLimit: 0,
  ignoreWhiteSpace: 'any',
  accentSensitive: true,
  context: { units: 'us' },
};

/** @param {import('@kerfbook/workbook').BookDocument} document */
export function bareOf(document) {
  const book = Workbook.open(document);
  const sheets = Object.fromEntries(
    document.sheets.map((sheet) => [
      sheet.name,
      sheet.rows.map((_, row) =>
        sheet.columns.map((__, column) => {
          const cell = book.cell({ sheet: sheet.id, row, column });
          if (cell.formula !== undefined) return cell.formula.replaceAll('FALSE', 'FALSE()');
          if (cell.value.kind === 'number') return cell.value.number;
          return cell.value.kind === 'text' ? `'${cell.value.text}` : null;
        }),
      ),
    ]),
  );
  // The checks' formulas are part of every edit; they stand on a sheet of their own here too.
  sheets['#checks'] = document.checks.map(({ formula }) => [formula]);
  const names = book.names().map(({ name, at }) => {
    const address = book.addressOf(at).replace(/^([A-Z]+)(\d+)$/, '$$$1$$$2');
    return { name, expression: `=${book.sheet(at.sheet)?.name}!${address}` };
  });
  return HyperFormula.buildFromSheets(sheets, SETTINGS, names);
}

/**
 * Five formulas a row, all resting on one input: a chain, IF, a sum of ten, products, a rounding.
 * @param {number} formulas
 */
export function chain(formulas) {
  const rows = Array.from({ length: formulas / 5 }, (_, i) => {
    const before = i % 50 === 0 ? '[$c1.$r1]' : `[c2.r${i + 1}]`;
    const row = `r${i + 2}`;
    const first = `r${Math.max(2, i - 7)}`;
    return {
      id: row,
      cells: {
        c1: { value: i },
        c2: { formula: `=${before}+[$c1.$r1]*0.5` },
        c3: { formula: `=IF([c2.${row}]>10,[c2.${row}]*2,[c2.${row}])` },
        c4: { formula: `=SUM([c2.${first}]:[c2.${row}])` },
        c5: { formula: `=[c3.${row}]*1.5+[$c1.$r1]` },
        c6: { formula: `=ROUND([c5.${row}]/3,2)` },
      },
    };
  });
  const loaded = loadText(
    JSON.stringify({
      kerfbook: 2,
      title: 'A chain for measuring',
      units: 'us',
      sheets: [
        {
          id: 's1',
          name: 'Chain',
          columns: [1, 2, 3, 4, 5, 6].map((n) => ({ id: `c${n}` })),
          rows: [{ id: 'r1', cells: { c1: { value: 84 } } }, ...rows],
        },
      ],
      checks: [],
      tables: [],
    }),
  );
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** The dining table that ships. */
export function diningTable() {
  const file = join(import.meta.dirname, '../../templates/dining-table.json');
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

export const median = (/** @type {number[]} */ times) =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
