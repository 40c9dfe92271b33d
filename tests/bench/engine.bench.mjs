import { Workbook } from '@kerfbook/workbook';
import { bareOf, chain, diningTable, median } from './books.mjs';

/**
 * One edit through our engine (`Workbook.apply`: reading the entry, the document, the inverse, the
 * list of changes, the checks) divided by the same edit on bare HyperFormula with the same
 * settings, functions and formulas. Edits alternate between the two in one process.
 */

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

const table = diningTable();
const length = Workbook.open(table).find('top_length');
if (length === undefined) throw new Error('the template has no top_length');

console.log(`${''.padEnd(22)}   edits  bare ch.  our ch.   ours ms  bare ms    ratio  by pair`);
compare('dining table', table, length, (i) => 72 + (i % 48), 1000, 500);
const top = { sheet: 's1', row: 0, column: 0 };
compare('5,000 formulas', chain(5_000), top, (i) => 84 + i / 4, 40, 5);
compare('49,990 formulas', chain(49_990), top, (i) => 84 + i / 4, 20, 5);
