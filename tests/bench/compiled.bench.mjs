import { spawnSync } from 'node:child_process';
import { CompiledDocument, Workbook } from '@kerfbook/workbook';
import { bareOf, chain, diningTable, median } from './books.mjs';

/**
 * What the compiled evaluator is worth: one edit that many formulas hang on, with the list of what
 * changed, in an open workbook of ours, in the compiled one and in bare HyperFormula; and how often a
 * second a result of the dining table can be asked for with another input. Medians of 30.
 */

const ROUNDS = 30;
const WARM_UP = 10;

/** @param {(i: number) => void} work */
function medianOf(work, rounds = ROUNDS) {
  const times = [];
  for (let i = 0; i < rounds + WARM_UP; i += 1) {
    const began = performance.now();
    work(i);
    if (i >= WARM_UP) times.push(performance.now() - began);
  }
  return median(times);
}

const ms = (/** @type {number} */ time) => time.toFixed(3).padStart(10);

/** @param {import('@kerfbook/workbook').BookDocument} document */
function everyCell(document) {
  return document.sheets.flatMap(({ id, rows, columns }) =>
    rows.flatMap((_, row) => columns.map((__, column) => ({ sheet: id, row, column }))),
  );
}

/**
 * @param {string} label
 * @param {import('@kerfbook/workbook').BookDocument} document
 * @param {{ sheet: string, row: number, column: number }} at
 */
function compare(label, document, at) {
  const entry = (/** @type {number} */ i) => 72 + (i % 48) / 4;
  const began = performance.now();
  const compiled = CompiledDocument.of(document);
  const building = performance.now() - began;
  const part = compiled.part([at], everyCell(document));
  let changed = 0;
  const ours = medianOf((i) => {
    changed = part.follow([entry(i)]).length;
  });
  const book = Workbook.open(document);
  const live = medianOf((i) => {
    const text = String(entry(i));
    const { sheet, row, column } = at;
    const result = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    if (!result.ok) throw new Error(result.says);
  });
  const bare = bareOf(document);
  const sheet = bare.getSheetId(document.sheets.find(({ id }) => id === at.sheet)?.name ?? '') ?? 0;
  const alone = medianOf((i) => {
    bare.setCellContents({ sheet, row: at.row, col: at.column }, entry(i));
  });
  console.log(
    `${label.padEnd(18)}${String(changed).padStart(8)}${ms(ours)}${ms(live)}${ms(alone)}${(alone / ours).toFixed(1).padStart(8)}${building.toFixed(0).padStart(10)}`,
  );
}

/** Sets one input and reads one result of the dining table, again and again. */
function evaluations() {
  const document = diningTable();
  const compiled = CompiledDocument.of(document);
  const [input, result] = [compiled.named('top_length'), compiled.named('price')];
  if (input === undefined || result === undefined) throw new Error('the template lacks a name');
  const entry = (/** @type {number} */ i) => 72 + (i % 48) / 4;
  const EACH = 100;
  const part = compiled.part([input], [result]);
  const ours = medianOf((i) => {
    for (let k = 0; k < EACH; k += 1) part.run([entry(i * EACH + k)]);
  });
  const bare = bareOf(document);
  const idOf = (/** @type {string} */ id) =>
    bare.getSheetId(document.sheets.find((sheet) => sheet.id === id)?.name ?? '') ?? 0;
  const [from, to] = [idOf(input.sheet), idOf(result.sheet)];
  const alone = medianOf((i) => {
    for (let k = 0; k < EACH; k += 1) {
      const value = entry(i * EACH + k);
      bare.setCellContents({ sheet: from, row: input.row, col: input.column }, value);
      bare.getCellValue({ sheet: to, row: result.row, col: result.column });
    }
  });
  const perSecond = (/** @type {number} */ time) => Math.round((EACH * 1000) / time);
  console.log(
    `\nThe dining table's price for another length, times a second: ${perSecond(ours)} compiled, ${perSecond(alone)} bare set and read; ${(alone / ours).toFixed(1)} times as often.`,
  );
}

const top = { sheet: 's1', row: 0, column: 0 };
const table = diningTable();
const length = Workbook.open(table).find('top_length');
if (length === undefined) throw new Error('the template has no top_length');

console.log(`${''.padEnd(18)} changed  compiled      live      bare   times  building   (ms)`);
compare('dining table', table, length);
for (const formulas of [500, 5_000, 49_990]) compare(`${formulas} formulas`, chain(formulas), top);
evaluations();

const office = spawnSync('soffice', ['--version'], { encoding: 'utf8' });
console.log(
  office.error === undefined
    ? `\n${office.stdout.trim()} is there, and no benchmark of ours asks it yet.`
    : '\nLibreOffice is not installed: its recalculation is not measured.',
);
