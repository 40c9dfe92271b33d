import { triangular } from '@kerfbook/studies';
import { describe, expect, it } from 'vitest';
import { type Shop, USUAL_SHOP } from '../calendar/shop-days.ts';
import type { Operation } from '../plan/operation.ts';
import { scheduleJobs } from '../plan/schedule.ts';
import { operation } from '../testing/job-book.ts';
import { isUncertain, type Likelihood, likelihood } from './likelihood.ts';

const FROM = 46_356;
/** An hour a day, every day: days are hours of work. */
const HOUR_A_DAY: Shop = {
  hoursADay: 1,
  begins: 8,
  week: USUAL_SHOP.week.map(() => true),
  off: [],
};

const likely = (operations: readonly Operation[], shop = HOUR_A_DAY, seed = 7, draws = 20_000) =>
  likelihood(scheduleJobs([{ name: '', operations }], shop, FROM), {
    seed,
    draws,
  })[0] as Likelihood;

/** Another generator (a multiply-with-carry of G. Marsaglia, from memory), for what is simulated here anew. */
function otherRandom(seed: number): () => number {
  let [z, w] = [seed, 362_436_069];
  return () => {
    z = (36_969 * (z & 65_535) + (z >>> 16)) >>> 0;
    w = (18_000 * (w & 65_535) + (w >>> 16)) >>> 0;
    return (((z << 16) + (w & 65_535)) >>> 0) / 2 ** 32;
  };
}

/** A triangular number as the sum of its geometry: a point under the triangle, found by throwing away those above it. */
function thrown(random: () => number, least: number, mode: number, most: number): number {
  for (;;) {
    const x = least + (most - least) * random();
    const high = x < mode ? (x - least) / (mode - least) : (most - x) / (most - mode);
    if (random() <= high) return x;
  }
}

/** Of the days on which it was done, the one by which a share of them is. */
const dayBy = (days: readonly number[], share: number): number =>
  days.toSorted((a, b) => a - b)[Math.ceil(share * days.length) - 1] ?? 0;

describe('one operation', () => {
  // With an hour a day, work of x hours is done on day ceil(x): by day d as likely as x <= d, which the triangular
  // distribution has in closed form (NIST/SEMATECH e-Handbook of Statistical Methods; from memory).
  const [least, mode, most] = [10, 16, 40];
  const cumulative = (x: number): number =>
    x <= mode
      ? (x - least) ** 2 / ((most - least) * (mode - least))
      : 1 - (most - x) ** 2 / ((most - least) * (most - mode));
  const inverse = (share: number): number => {
    let [low, high] = [least, most];
    for (let i = 0; i < 60; i += 1) {
      const half = (low + high) / 2;
      if (cumulative(half) < share) low = half;
      else high = half;
    }
    return low;
  };

  it('is done by each day as often as the closed form says', () => {
    const found = likely([operation('a', mode, { least, most })]);
    // Of 20,000 tries no share is further off than 0.0157 but once in 10,000 (Dvoretzky, Kiefer, Wolfowitz: the bound
    // 2 exp(-2 n e²)); the seed is fixed.
    for (const { day, by } of found.days) {
      expect(Math.abs(by - cumulative(Math.min(day - FROM + 1, most)))).toBeLessThan(0.0157);
    }
    expect(found.byPromise).toBe(found.days.find(({ day }) => day === FROM + mode - 1)?.by);
    for (const [day, share] of [
      [found.p10, 0.1],
      [found.p50, 0.5],
      [found.p90, 0.9],
    ] as const) {
      expect(Math.abs(day - (FROM + Math.ceil(inverse(share)) - 1))).toBeLessThanOrEqual(1);
    }
  });

  it('turns a share into hours as the closed form does', () => {
    for (let share = 0; share < 1; share += 1 / 64) {
      const hours = triangular({ low: least, likely: mode, high: most }, share);
      expect(cumulative(hours)).toBeCloseTo(share, 10);
    }
    expect(triangular({ low: 4, likely: 4, high: 4 }, 0.3)).toBe(4);
    expect(triangular({ low: 4, likely: 4, high: 8 }, 0)).toBe(4);
    expect(triangular({ low: 4, likely: 8, high: 8 }, 0.25)).toBeCloseTo(6, 12);
  });
});

describe('several operations', () => {
  it('are done when another simulation, with other random numbers, says they are', () => {
    // One after the other in a shop with six hours a day from Monday to Friday, from a Monday (day 46356).
    const rows: readonly [number, number, number][] = [
      [2, 4, 9],
      [6, 8, 20],
      [1, 3, 4],
      [5, 10, 18],
    ];
    const operations = rows.map(([least, mode, most], i) =>
      operation(`o${i}`, mode, { least, most, after: i === 0 ? [] : [`o${i - 1}`] }),
    );
    const found = likely(operations, USUAL_SHOP);
    const random = otherRandom(12_345);
    const days = Array.from({ length: 20_000 }, () => {
      const hours = rows.reduce((sum, [a, b, c]) => sum + thrown(random, a, b, c), 0);
      const worked = Math.ceil(hours / 6) - 1;
      return FROM + worked + 2 * Math.floor(worked / 5);
    });
    expect([found.p10, found.p50, found.p90]).toEqual(
      [0.1, 0.5, 0.9].map((one) => dayBy(days, one)),
    );
    for (const { day, by } of found.days) {
      const share = days.filter((one) => one <= day).length / days.length;
      // Both are off by at most 0.0157, but once in 10,000.
      expect(Math.abs(by - share)).toBeLessThan(0.0314);
    }
  });

  it('that two people do at once are done when the later one is', () => {
    const operations = [
      operation('a', 10, { least: 5, most: 30 }),
      operation('b', 12, { least: 8, most: 20, who: ['Helper'] }),
    ];
    const found = likely(operations);
    const random = otherRandom(54_321);
    const days = Array.from(
      { length: 20_000 },
      () => FROM + Math.ceil(Math.max(thrown(random, 5, 10, 30), thrown(random, 8, 12, 20))) - 1,
    );
    for (const { day, by } of found.days) {
      const share = days.filter((one) => one <= day).length / days.length;
      expect(Math.abs(by - share)).toBeLessThan(0.0314);
    }
  });

  it('come to the same with the same seed, and to one day where nothing is uncertain', () => {
    const uncertain = [operation('a', 10, { least: 5, most: 30 })];
    expect(likely(uncertain)).toEqual(likely(uncertain));
    expect(likely(uncertain).days).not.toEqual(likely(uncertain, HOUR_A_DAY, 8).days);
    const certain = [operation('a', 10)];
    expect(likely(certain)).toMatchObject({ p10: FROM + 9, p90: FROM + 9, byPromise: 1 });
    const isSo = (operations: readonly Operation[]) =>
      isUncertain(scheduleJobs([{ name: '', operations }], HOUR_A_DAY, FROM));
    expect([isSo(uncertain), isSo(certain)]).toEqual([true, false]);
  });

  it('refuses a number of draws that is none', () => {
    expect(() => likely([], HOUR_A_DAY, 1, 0)).toThrow(RangeError);
    expect(() => likely([], HOUR_A_DAY, 1, 1.5)).toThrow(RangeError);
  });
});
