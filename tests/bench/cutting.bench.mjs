import { readFileSync } from 'node:fs';
import { planLengths } from '@kerfbook/cutting';

/**
 * Public cutting-stock instances with proven optima: boards, bound and time, beside first fit with the
 * longest piece first; and how long a plan of a table's size takes, as a cell asks for it.
 */

/** @typedef {{ name: string, capacity: number, items: number[], optimum: number, firstFitDecreasing: number }} Instance */

const file = new URL('../../packages/cutting/src/testing/instances.json', import.meta.url);
/** @type {{ instances: Instance[] }} */
const { instances } = JSON.parse(readFileSync(file, 'utf8'));

/** @param {readonly number[]} items @param {number} capacity */
function firstFit(items, capacity) {
  /** @type {number[]} */
  const rooms = [];
  for (const item of [...items].sort((a, b) => b - a)) {
    const at = rooms.findIndex((room) => room >= item);
    if (at < 0) rooms.push(capacity - item);
    else rooms[at] = (rooms[at] ?? 0) - item;
  }
  return rooms.length;
}

console.log('instance               optimum  plan  bound   gap      ms   first fit');
for (const { name, capacity, items, optimum, firstFitDecreasing } of instances) {
  const request = {
    parts: items.map((length) => ({ length, count: 1 })),
    stock: [{ length: capacity, price: 1 }],
  };
  const began = performance.now();
  const { cost, bound } = planLengths(request);
  const took = performance.now() - began;
  const simple = firstFit(items, capacity);
  if (simple !== firstFitDecreasing) throw new Error(`${name}: first fit gives ${simple}`);
  const gap = (((cost - bound) / cost) * 100).toFixed(1);
  console.log(
    `${name.padEnd(22)} ${String(optimum).padStart(7)} ${String(cost).padStart(5)} ${bound.toFixed(0).padStart(6)} ${gap.padStart(4)} % ${took.toFixed(0).padStart(7)} ${String(simple).padStart(11)}`,
  );
}

const INCH = 25.4;
let seed = 7;
const next = () => {
  seed = (seed * 16_807) % 2_147_483_647;
  return seed / 2_147_483_647;
};

/** @param {number} count */
const jobs = (count) =>
  Array.from({ length: count }, () => ({
    parts: Array.from({ length: 12 }, () => ({
      length: (Math.round((6 + next() * 60) * 16) / 16) * INCH,
      count: 5,
    })),
    stock: [
      { length: 72 * INCH, price: 6.98 },
      { length: 96 * INCH, price: 8.98 },
      { length: 120 * INCH, price: 11.48 },
      { length: 144 * INCH, price: 13.98 },
    ],
    kerf: INCH / 8,
    effort: /** @type {const} */ ('cell'),
  }));

for (const job of jobs(20)) planLengths(job);
/** @type {number[]} */
const times = [];
/** @type {number[]} */
const gaps = [];
for (const job of jobs(100)) {
  const began = performance.now();
  const { cost, bound } = planLengths(job);
  times.push(performance.now() - began);
  gaps.push(((cost - bound) / cost) * 100);
}
/** @param {number[]} all @param {number} share */
const at = (all, share) =>
  [...all].sort((a, b) => a - b)[Math.floor(share * (all.length - 1))] ?? 0;
console.log(
  `\n60 parts of 12 lengths from 4 stock lengths, in a cell: p50 ${at(times, 0.5).toFixed(1)} ms, p95 ${at(times, 0.95).toFixed(1)} ms (target 5)`,
);
console.log(
  `above the proven bound: p50 ${at(gaps, 0.5).toFixed(2)} %, most ${at(gaps, 1).toFixed(2)} %`,
);
