import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOUR } from '../calendar/moments.ts';
import type { Shop } from '../calendar/shop-days.ts';
import { operation } from '../testing/job-book.ts';
import { criticalPath } from './critical-path.ts';
import { Circle } from './network.ts';
import type { Operation } from './operation.ts';

/** Works by day and by night, so that hours of work are hours of the clock, as in a book. */
const ALWAYS: Shop = {
  hoursADay: 24,
  begins: 0,
  week: Array.from({ length: 7 }, () => true),
  off: [],
};
const FROM = 46_000;

const hoursUntil = (seconds: number): number => seconds / HOUR - FROM * 24;

/** The longest path to the end of each operation, by walking every path there is. */
function longest(operations: readonly Operation[]): ReadonlyMap<string, number> {
  const byId = new Map(operations.map((one) => [one.id, one]));
  const walk = (id: string): readonly number[] => {
    const one = byId.get(id);
    if (one === undefined) return [];
    const own = one.handsOn + one.waiting;
    return one.after.length === 0
      ? [own]
      : one.after.flatMap((before) => walk(before).map((length) => length + own));
  };
  return new Map(operations.map(({ id }) => [id, Math.max(...walk(id))]));
}

const networks = fc
  .array(
    fc.record({
      hands: fc.integer({ min: 0, max: 9 }),
      waiting: fc.integer({ min: 0, max: 3 }),
      after: fc.array(fc.nat(), { maxLength: 3 }),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((rows) =>
    rows.map(({ hands, waiting, after }, i) =>
      operation(`o${i}`, hands, {
        waiting,
        after: i === 0 ? [] : [...new Set(after.map((one) => `o${one % i}`))],
      }),
    ),
  );

describe('the critical path', () => {
  it('is the longest of all paths, in random networks', () => {
    fc.assert(
      fc.property(networks, (operations) => {
        const found = criticalPath(operations, ALWAYS, FROM);
        const ends = longest(operations);
        const end = Math.max(...ends.values());
        expect(hoursUntil(found.end)).toBe(end);
        for (const { id, earliest, slack, critical } of found.operations) {
          const own = operations.find((one) => one.id === id) as Operation;
          const takes = own.handsOn + own.waiting;
          expect(hoursUntil(earliest)).toBe((ends.get(id) ?? 0) - takes);
          // Slack by its meaning: how much longer the operation may take, and the end is the same.
          const longer = (hours: number): number =>
            Math.max(
              ...longest(
                operations.map((one) =>
                  one.id === id ? { ...one, handsOn: one.handsOn + hours } : one,
                ),
              ).values(),
            );
          expect(longer(slack)).toBe(end);
          expect(longer(slack + 1)).toBe(end + 1);
          expect(critical).toBe(slack === 0);
        }
      }),
      { seed: 20, numRuns: 300 },
    );
  });

  it('is that of a network in a textbook', () => {
    // The Reliable Construction Co. project of F. S. Hillier and G. J. Lieberman, Introduction to Operations Research
    // (durations in weeks; critical path A-B-C-E-F-J-L-N, 44 weeks, and the slacks): values from memory.
    const network: readonly [id: string, takes: number, after: string][] = [
      ['A', 2, ''],
      ['B', 4, 'A'],
      ['C', 10, 'B'],
      ['D', 6, 'C'],
      ['E', 4, 'C'],
      ['F', 5, 'E'],
      ['G', 7, 'D'],
      ['H', 9, 'EG'],
      ['I', 7, 'C'],
      ['J', 8, 'FI'],
      ['K', 4, 'J'],
      ['L', 5, 'J'],
      ['M', 2, 'H'],
      ['N', 6, 'KL'],
    ];
    const operations = network.map(([id, takes, after]) =>
      operation(id, takes, { after: [...after] }),
    );
    const found = criticalPath(operations, ALWAYS, FROM);
    expect(hoursUntil(found.end)).toBe(44);
    const critical = found.operations.filter((one) => one.critical).map(({ id }) => id);
    expect(critical.join('')).toBe('ABCEFJLN');
    const slack = Object.fromEntries(found.operations.map((one) => [one.id, one.slack]));
    expect(slack).toMatchObject({ D: 4, G: 4, H: 4, I: 2, K: 1, M: 4 });
  });

  it('has no end where operations wait for each other', () => {
    const circle = [operation('a', 1, { after: ['b'] }), operation('b', 1, { after: ['a'] })];
    expect(() => criticalPath(circle, ALWAYS, FROM)).toThrow(Circle);
  });
});
