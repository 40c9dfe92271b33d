import { Renewal, saveText, Workbook } from '@kerfbook/workbook';
import { diningTable, documentOf } from './books.mjs';
import { percentile } from './probe.mjs';

/**
 * What it costs to put two workbooks together that differ in 500 cells, a quarter of them changed by both, beside loading
 * and opening the dining table in the same run: the merge alone, all that a maker is shown of it, and what one
 * choice does. No target but that a maker who opens the dialog waits for a few openings of a workbook.
 */

const ROUNDS = Number(process.env.KERFBOOK_ROUNDS ?? '10');
const CELLS = 500;

const text = diningTable();
const base = documentOf(text);

/**
 * The dining table with a sheet more, whose cells say something else.
 * @param {(row: number) => number | undefined} value of the first column; the base's own where there is none
 */
function withNumbers(value) {
  const rows = Array.from({ length: CELLS }, (_, row) => ({
    id: `n${row}`,
    cells: {
      c1: { value: value(row) ?? row, role: /** @type {const} */ ('input') },
      c2: { formula: `=[numbers!c1.n${row}]*2` },
    },
  }));
  const sheet = { id: 'numbers', name: 'Numbers', columns: [{ id: 'c1' }, { id: 'c2' }], rows };
  return documentOf(saveText({ ...base, sheets: [...base.sheets, sheet] }));
}

const common = withNumbers(() => undefined);
const mine = withNumbers((row) => (row % 4 < 2 ? row + 1_000 : undefined));
const theirs = withNumbers((row) => (row % 4 === 1 ? undefined : row + 2_000));

/** @template T @param {() => T} does @returns {{ took: number, last: T }} the median of so many rounds, ms */
function timed(does) {
  const took = [];
  let last = does();
  for (let i = 0; i < ROUNDS; i += 1) {
    const start = performance.now();
    last = does();
    took.push(performance.now() - start);
  }
  return { took: percentile(took, 0.5), last };
}

function renewal() {
  const made = Renewal.of(common, theirs, mine);
  if (!made.ok) throw new Error(made.says);
  return made.renewal;
}

const opening = timed(() => Workbook.open(documentOf(text)));
const shown = timed(renewal);
const { met, taken } = shown.last;
if (met.length !== CELLS / 4 || taken.length !== CELLS / 2) {
  throw new Error(`${met.length} places met and ${taken.length} changes were taken.`);
}
const choices = new Map(met.map(({ key }, i) => [key, i % 2 ? 'mine' : 'theirs']));
const merged = timed(() => {
  const done = shown.last.settle(/** @type {import('@kerfbook/workbook').Choices} */ (choices));
  if (!done.ok) throw new Error(done.says);
  return done;
});
const weighed = timed(() =>
  shown.last.weigh(/** @type {import('@kerfbook/workbook').Choices} */ (choices), met[0]),
);

/** @param {string} what @param {number} took */
const tell = (what, took) =>
  console.log(
    `${what.padEnd(44)} ${took.toFixed(1).padStart(8)} ms  ${(took / opening.took).toFixed(2).padStart(6)} ×`,
  );
console.log(`Two workbooks that differ in ${CELLS} cells; median of ${ROUNDS} rounds`);
tell('loading and opening the dining table', opening.took);
tell(`merging, ${met.length} places settled`, merged.took);
tell('all that is shown of it', shown.took);
tell('what one choice does', weighed.took);
