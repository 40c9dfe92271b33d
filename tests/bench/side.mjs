import { readFileSync } from 'node:fs';
import { planner } from '@kerfbook/functions';
import { percentile } from './probe.mjs';
import { SIDES } from './sides.mjs';

/**
 * Measures one side with one workbook and prints the figures as JSON: `side.mjs JOB`, with
 * `--expose-gc`. Times are ms, medians of so many rounds.
 */

/**
 * @typedef {import('./books.mjs').At} At
 * @typedef {object} Job
 * @property {string} side
 * @property {string} text path of the workbook as saved
 * @property {string} contents path of the same without anything of ours
 * @property {number} rounds
 * @property {At} input that all formulas hang on
 * @property {At[]} results
 * @property {At=} one a result to be read alone
 * @property {At=} few an input that few formulas hang on
 * @property {number=} insert before which row one is inserted
 *
 * @typedef {{ time: number, solving: number }} Timed `time` is without what solving buying plans took
 *
 * @typedef {object} Figures
 * @property {Timed} open
 * @property {number} memory in use after opening that was not before, MB
 * @property {number} resident the same of the whole process, MB
 * @property {Timed & { changed: number }} edit
 * @property {Timed} ask the input set and all results read
 * @property {Timed=} one the same with one result
 * @property {(Timed & { changed: number })=} few
 * @property {Timed=} insert
 * @property {unknown[]} values what the results are in the end
 */

/** @type {Job} */
const job = JSON.parse(process.argv[2] ?? '');
const text = readFileSync(job.text, 'utf8');
const contents = readFileSync(job.contents, 'utf8');

let solving = 0;
/** @template {unknown[]} A @template R @param {(...args: A) => R} work @returns {(...args: A) => R} */
const counted =
  (work) =>
  (...args) => {
    const began = performance.now();
    try {
      return work(...args);
    } finally {
      solving += performance.now() - began;
    }
  };
planner.planLengths = counted(planner.planLengths);
planner.pickBoards = counted(planner.pickBoards);
planner.planPieces = counted(planner.planPieces);

/** What is quick is repeated until the machine knows it. */
const WARM_UP = { rounds: 300, ms: 1_500, least: 3 };

/**
 * @param {(i: number) => void} work
 * @param {(i: number) => void} [after] what is not measured
 * @returns {Timed}
 */
function timed(work, after = () => {}) {
  let i = 0;
  const once = () => {
    solving = 0;
    const began = performance.now();
    work(i);
    const whole = performance.now() - began;
    const plans = solving;
    after(i);
    i += 1;
    return { time: whole - plans, solving: plans };
  };
  const began = performance.now();
  while (i < WARM_UP.rounds && (i < WARM_UP.least || performance.now() - began < WARM_UP.ms)) {
    once();
  }
  const all = Array.from({ length: job.rounds }, once);
  return {
    time: percentile(
      all.map(({ time }) => time),
      0.5,
    ),
    solving: percentile(
      all.map((one) => one.solving),
      0.5,
    ),
  };
}

const MB = 1e6;
/** @returns {[used: number, resident: number]} */
function memory() {
  if (globalThis.gc === undefined) throw new Error('run it with --expose-gc');
  for (let i = 0; i < 3; i += 1) globalThis.gc();
  const { heapUsed, external, rss } = process.memoryUsage();
  return [(heapUsed + external) / MB, rss / MB];
}

const open = await (SIDES[job.side] ?? fail(`There is no side "${job.side}".`))();
const before = memory();
const side = open(text, contents);
const after = memory();

/** Another value each time, so that every round is work. */
let entries = 0;
const entry = () => {
  entries += 1;
  return 72 + (entries % 97) / 4;
};
let changed = 0;
/** @param {import('./sides.mjs').Asked} asked */
const edits = (asked) => ({
  ...timed(() => {
    changed = asked.edit(entry());
  }),
  changed,
});

const asked = side.from(job.input, job.results);
const edit = edits(asked);
const ask = timed(() => void asked.ask(entry()));
const alone = job.one === undefined ? undefined : side.from(job.input, [job.one]);
const one = alone === undefined ? {} : { one: timed(() => void alone.ask(entry())) };
const few = job.few === undefined ? {} : { few: edits(side.from(job.few, job.results)) };
const { insert, remove } = side;
const sheet = job.input.sheet;
const row = job.insert;
const inserted =
  row === undefined || insert === undefined || remove === undefined
    ? {}
    : {
        insert: timed(
          () => insert(sheet, row),
          () => remove(sheet, row),
        ),
      };
const values = asked.ask(80);
const opened = timed(() => void open(text, contents));

/** @type {Figures} */
const figures = {
  open: opened,
  memory: after[0] - before[0],
  resident: after[1] - before[1],
  edit,
  ask,
  ...one,
  ...few,
  ...inserted,
  values,
};
console.log(JSON.stringify(figures));

/** @param {string} says @returns {never} */
function fail(says) {
  throw new Error(says);
}
