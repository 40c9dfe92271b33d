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
 * thread and in as many as there are processors, beside typing each set into the open workbook; and what a long spread
 * leaves in memory.
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

await measured('hours and every check', 'hours_total', 60);
await measured('price, with the buying plan', 'price', 30);

const inputs = [uncertainOf(book, 'hours_base', '7, 9, 14')];
const asker = new HereAsker(book.document());
const memory = () => {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 1e6;
};
const asked = { inputs, results: [knownCell(book, 'price')], seed: 1 };
await spread(book, asker, { ...asked, draws: 20_000 });
const before = memory();
const draws = 200_000;
const took = await seconds(() => spread(book, asker, { ...asked, draws }));
console.log(
  `spread of ${draws.toLocaleString('en-US')} tries   ${took.toFixed(1)} s, ${Math.round(draws / took).toLocaleString('en-US')} a second; heap ${before.toFixed(0)} MB before, ${memory().toFixed(0)} MB after`,
);
asker.destroy();
