import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';

/**
 * One edit through our engine (`Workbook.apply`: reading the entry, the document, the inverse, the
 * list of changes, the checks) divided by the same edit on bare HyperFormula with the same
 * settings, functions and formulas. Edits alternate between the two in one process.
 */

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

const median = (/** @type {number[]} */ times) =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;

/** @param {import('@kerfbook/workbook').BookDocument} document */
function bareOf(document) {
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
 * @param {string} label
 * @param {import('@kerfbook/workbook').BookDocument} document
 * @param {{ sheet: string, row: number, column: number }} at
 * @param {(i: number) => number} entry
 * @param {number} rounds
 * @param {number} warmUp
 */
function compare(label, document, at, entry, rounds, warmUp) {
  const ours = Workbook.open(document);
  const bare = bareOf(document);
  const sheet = bare.getSheetId(document.sheets.find(({ id }) => id === at.sheet)?.name ?? '') ?? 0;
  /** @type {{ ours: number[], bare: number[] }} */
  const times = { ours: [], bare: [] };
  let changed = [0, 0];
  for (let i = 0; i < rounds + warmUp; i += 1) {
    const value = entry(i);
    let began = performance.now();
    const listed = bare.setCellContents({ sheet, row: at.row, col: at.column }, value);
    const bareTime = performance.now() - began;
    began = performance.now();
    const result = ours.apply({
      do: 'enter',
      sheet: at.sheet,
      cells: [{ row: at.row, column: at.column, text: String(value) }],
    });
    const oursTime = performance.now() - began;
    if (!result.ok) throw new Error(result.says);
    changed = [listed.length, result.changed.length];
    // The first edits warm the machine up.
    if (i < warmUp) continue;
    times.bare.push(bareTime);
    times.ours.push(oursTime);
  }
  const [a, b] = [median(times.ours), median(times.bare)];
  const pairs = median(times.ours.map((time, i) => time / (times.bare[i] ?? 1)));
  const cells = [rounds, ...changed].map((n) => String(n).padStart(8)).join('');
  console.log(
    `${label.padEnd(22)}${cells}${a.toFixed(2).padStart(10)}${b.toFixed(2).padStart(10)}${(a / b).toFixed(3).padStart(9)}${pairs.toFixed(3).padStart(9)}`,
  );
}

/**
 * Five formulas a row, all resting on one input: a chain, IF, a sum of ten, products, a rounding.
 * @param {number} formulas
 */
function chain(formulas) {
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

const table = loadText(
  readFileSync(join(import.meta.dirname, '../../templates/dining-table.json'), 'utf8'),
);
if (!table.ok) throw new Error(table.says);
const length = Workbook.open(table.document).find('top_length');
if (length === undefined) throw new Error('the template has no top_length');

console.log(`${''.padEnd(22)}   edits  bare ch.  our ch.   ours ms  bare ms    ratio  by pair`);
compare('dining table', table.document, length, (i) => 72 + (i % 48), 1000, 500);
const top = { sheet: 's1', row: 0, column: 0 };
compare('5,000 formulas', chain(5_000), top, (i) => 84 + i / 4, 40, 5);
compare('49,990 formulas', chain(49_990), top, (i) => 84 + i / 4, 20, 5);
