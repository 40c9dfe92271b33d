import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { startSweepThread } from '@kerfbook/cli';
import {
  axisOf,
  HereAsker,
  knownCell,
  outcomes,
  runTable,
  SharedAsker,
  setsOf,
  spread,
  uncertainOf,
} from '@kerfbook/studies';
import { loadText, Workbook } from '@kerfbook/workbook';

/**
 * Studies over the dining table: 40 lengths by 25 widths, with and without the buying plan in what is asked for, in one
 * thread and in as many as there are processors, beside typing each set into the open workbook; and what a million
 * evaluations and a long spread leave in memory. How often a second the table is asked on each side: speed.bench.mjs.
 */

const file = new URL('../../templates/dining-table.json', import.meta.url);
const loaded = loadText(readFileSync(file, 'utf8'));
if (!loaded.ok) throw new Error(loaded.says);
const book = Workbook.open(loaded.document);
const axes = [axisOf(book, 'top_length', '60..99/1'), axisOf(book, 'top_width', '36..48/1/2')];
const sets = setsOf(axes);

/** @param {() => Promise<unknown>} work */
async function seconds(work) {
  const began = performance.now();
  await work();
  return (performance.now() - began) / 1000;
}

/** How long the same sets take typed one by one; a part of them, as it would take long. */
function typed(/** @type {string} */ result, /** @type {number} */ count) {
  const open = Workbook.open(loaded.ok ? loaded.document : book.document());
  const at = knownCell(open, result).at;
  const began = performance.now();
  for (const [length, width] of sets.slice(0, count)) {
    for (const [i, { cell }] of axes.entries()) {
      const { sheet, row, column } = cell.at;
      const text = `${[length, width][i]} in`;
      open.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    }
    open.value(at);
  }
  return (performance.now() - began) / 1000 / count;
}

/** What the formulas of one result take, warm, without the checks, of which some rest on a buying plan. @param {string} title @param {string} result */
async function alone(title, result) {
  const question = {
    inputs: axes.map(({ cell }) => cell.at),
    results: [knownCell(book, result).at],
    sets,
  };
  const here = new HereAsker(book.document());
  const first = await seconds(() => here.ask(question));
  const again = await seconds(() => here.ask(question));
  here.destroy();
  console.log(
    `${title.padEnd(28)} ${sets.length} sets  one thread ${first.toFixed(3)} s, again ${again.toFixed(3)} s`,
  );
}

/** @param {string} title @param {string} result @param {number} byHand */
async function measured(title, result, byHand) {
  const results = [knownCell(book, result)];
  const here = new HereAsker(book.document());
  await outcomes(book, here, {
    inputs: axes.map(({ cell }) => cell),
    results,
    sets: sets.slice(0, 8),
  });
  const one = await seconds(() => runTable(book, here, axes, results));
  here.destroy();
  const threads = Array.from({ length: availableParallelism() }, startSweepThread);
  for (const { sweeper } of threads) sweeper.open(book.document());
  const shared = new SharedAsker(threads.map(({ sweeper }) => sweeper));
  await runTable(book, shared, [axisOf(book, 'top_length', '60..70/1')], results);
  const all = await seconds(() => runTable(book, shared, axes, results));
  await Promise.all(threads.map((thread) => thread.end()));
  const each = typed(result, byHand) * sets.length;
  console.log(
    `${title.padEnd(28)} ${sets.length} sets  typed ${each.toFixed(2)} s (${byHand} of them)  one thread ${one.toFixed(2)} s (×${(each / one).toFixed(1)})  ${threads.length} threads ${all.toFixed(2)} s (×${(each / all).toFixed(1)})`,
  );
}

await alone('hours alone', 'hours_total');
await alone('price alone, with its plan', 'price');
await measured('hours and every check', 'hours_total', 60);
await measured('price and every check', 'price', 30);

const inputs = [uncertainOf(book, 'hours_base', '7, 9, 14')];
const asker = new HereAsker(book.document());
const memory = () => {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 1e6;
};
const from = memory();
const price = { inputs: inputs.map(({ cell }) => cell.at), results: [knownCell(book, 'price').at] };
const PART = 100_000;
let held = from;
const runs = await seconds(async () => {
  for (let part = 0; part < 10; part += 1) {
    const many = Array.from({ length: PART }, (_, i) => [7 + ((part * PART + i) % 7_000) / 1_000]);
    await asker.ask({ ...price, sets: many });
    held = Math.max(held, memory());
  }
});
console.log(
  `${(10 * PART).toLocaleString('en-US')} evaluations of the price   ${runs.toFixed(1)} s; heap ${from.toFixed(0)} MB before, ${held.toFixed(0)} MB at most after a tenth of them`,
);
const draws = 200_000;
const took = await seconds(() =>
  spread(book, asker, { inputs, results: [knownCell(book, 'price')], seed: 1, draws }),
);
console.log(
  `spread of ${draws.toLocaleString('en-US')} tries   ${took.toFixed(1)} s, ${Math.round(draws / took).toLocaleString('en-US')} a second; it keeps every try: heap ${memory().toFixed(0)} MB after`,
);
asker.destroy();
