import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { planLengths, planSheets } from '@kerfbook/cutting';
import { provePlan } from '@kerfbook/cutting/proof';
import { percentile } from './probe.mjs';

/**
 * Public instances with proven optima: bins, gap and time of a plan in a cell and of a proof, beside
 * first-fit decreasing. Then what a cell of a sheet takes: 60 parts of 12 lengths, 4 stock lengths.
 */

const data = join(import.meta.dirname, '../../packages/cutting/src/testdata/instances.json');
/** @type {{ instances: { name: string, capacity: number, optimum: number, sizes: string }[] }} */
const { instances } = JSON.parse(readFileSync(data, 'utf8'));

/** @typedef {import('@kerfbook/cutting').LengthsJob} LengthsJob */

/** @param {LengthsJob} job */
function firstFitDecreasing({ parts, stock }) {
  const room = stock[0]?.length ?? 0;
  const lengths = parts.flatMap(({ length, count }) => new Array(count).fill(length));
  /** @type {number[]} */
  const left = [];
  for (const length of lengths.sort((a, b) => b - a)) {
    const at = left.findIndex((one) => one >= length);
    if (at < 0) left.push(room - length);
    else left[at] = (left[at] ?? 0) - length;
  }
  return left.length;
}

/** @param {number} number @param {number} width @param {number} [digits] */
const cell = (number, width, digits = 0) => number.toFixed(digits).padStart(width);

async function publicInstances() {
  console.log(
    `${'public instance'.padEnd(24)}  best   ffd  |  cell  bound       ms  | proof  bound       ms`,
  );
  let [reached, proven] = [0, 0];
  for (const { name, capacity, optimum, sizes } of instances) {
    const parts = sizes.split(' ').map((entry) => {
      const [size = '', count = '1'] = entry.split('x');
      return { key: size, length: Number(size), count: Number(count) };
    });
    /** @type {LengthsJob} */
    const job = { parts, stock: [{ length: capacity, price: 1 }] };
    let began = performance.now();
    const quick = planLengths(job);
    const quickTime = performance.now() - began;
    began = performance.now();
    const proof = await provePlan(job);
    const proofTime = performance.now() - began;
    if (proof.cost === optimum) reached += 1;
    if (proof.proven) proven += 1;
    console.log(
      `${name.slice(0, 24).padEnd(24)}${cell(optimum, 6)}${cell(firstFitDecreasing(job), 6)}  |${cell(quick.cost, 6)}${cell(quick.bound, 7)}${cell(quickTime, 9, 1)}  |${cell(proof.cost, 6)}${cell(proof.bound, 7)}${cell(proofTime, 9, 1)}`,
    );
  }
  console.log(`${reached} of ${instances.length} at the optimum, ${proven} proven`);
}

const JOBS = 600;
const WARM_UP = 200;

/** Numbers from 0 to 1, the same each time. */
function numbers() {
  let state = 1;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}

/** @param {() => number} random @param {number} grid parts of an inch */
function tableJob(random, grid) {
  const counts = new Array(12).fill(1);
  for (let i = 12; i < 60; i += 1) counts[Math.floor(random() * 12)] += 1;
  const parts = counts.map((count, i) => ({
    key: `part ${i + 1}`,
    length: Math.round((6 + random() * 50) * grid) / grid,
    count,
  }));
  const stock = [72, 96, 120, 144].map((length) => ({
    length,
    price: Math.round(length * (0.08 + random() * 0.03) * 100) / 100,
  }));
  return { parts, stock, kerf: 0.125, endTrim: 0.5 };
}

/** @param {string} label @param {number} grid */
function cellTimes(label, grid) {
  const random = numbers();
  /** @type {number[]} */
  const times = [];
  let [gap, worst, proven] = [0, 0, 0];
  for (let i = 0; i < JOBS + WARM_UP; i += 1) {
    const job = tableJob(random, grid);
    const began = performance.now();
    const plan = planLengths(job);
    const time = performance.now() - began;
    if (i < WARM_UP) continue;
    times.push(time);
    gap += plan.gap / plan.cost / JOBS;
    worst = Math.max(worst, plan.gap / plan.cost);
    if (plan.proven) proven += 1;
  }
  console.log(
    `${label.padEnd(24)}${cell(percentile(times, 0.5), 8, 2)}${cell(percentile(times, 0.95), 8, 2)}${cell(Math.max(...times), 8, 2)}${cell(gap * 100, 11, 2)}${cell(worst * 100, 9, 2)}${cell((proven / JOBS) * 100, 10, 1)}`,
  );
}

function longList() {
  const parts = Array.from({ length: 10_000 }, (_, i) => ({
    key: `${i}`,
    length: 5 + ((i * 7919) % 10_007) / 150,
    count: 1,
  }));
  const began = performance.now();
  const plan = planLengths({ parts, stock: [{ length: 96, price: 8 }], kerf: 0.125 });
  const time = performance.now() - began;
  console.log(
    `10,000 parts of 10,000 lengths: ${time.toFixed(0)} ms, gap ${((plan.gap / plan.cost) * 100).toFixed(2)} %`,
  );
}

/** Made-up cabinets: rectangles that turn or not, from sheets of one size and of three. */
function sheets() {
  const sizes = [
    { length: 96, width: 48, price: 60 },
    { length: 60, width: 60, price: 52 },
    { length: 48, width: 48, price: 34 },
  ];
  for (const kinds of [1, 3]) {
    const random = numbers();
    /** @type {number[]} */
    const times = [];
    let [gap, waste, proven] = [0, 0, 0];
    for (let i = 0; i < 40; i += 1) {
      const parts = Array.from({ length: 8 + Math.floor(random() * 40) }, (_, n) => ({
        key: `part ${n + 1}`,
        length: Math.round((6 + random() * 40) * 8) / 8,
        width: Math.round((4 + random() * 20) * 8) / 8,
        count: 1,
        mayTurn: n % 2 === 0,
      }));
      const began = performance.now();
      const job = { parts, sheets: sizes.slice(0, kinds), kerf: 0.125, edgeTrim: 0.25 };
      const plan = planSheets(job);
      times.push(performance.now() - began);
      gap += plan.gap / plan.cost / 40;
      waste += plan.waste / 40;
      if (plan.proven) proven += 1;
    }
    console.log(
      `sheets of ${kinds} size${kinds > 1 ? 's' : ''}, 40 jobs of 8 to 47 parts: p50 ${percentile(times, 0.5).toFixed(0)} ms, p95 ${percentile(times, 0.95).toFixed(0)} ms, mean gap ${(gap * 100).toFixed(1)} %, waste ${(waste * 100).toFixed(1)} %, ${proven} proven`,
    );
  }
}

await publicInstances();
console.log(
  `\n${'60 parts, 12 lengths, 4'.padEnd(24)}  p50 ms  p95 ms  max ms  mean gap %  worst %  proven %`,
);
cellTimes('in sixteenths', 16);
cellTimes('in sixty-fourths', 64);
cellTimes('in 1/1000', 1000);
console.log('');
longList();
sheets();
