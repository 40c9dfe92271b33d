import { describe, expect, it } from 'vitest';
import {
  round,
  roundDown,
  roundDownSlowly,
  roundSlowly,
  roundUp,
  roundUpSlowly,
  snap,
} from './rounding.ts';

/** Numbers between 0 and 1, the same every time. */
function* chances(): Generator<number> {
  let seed = 11;
  for (;;) {
    seed = (seed * 48_271) % 2_147_483_647;
    yield seed / 2_147_483_647;
  }
}

/** Numbers of all sizes, halves, what lies a hair beside them, and sums of money. */
function* figures(): Generator<number> {
  yield* [0, -0, 0.5, -0.5, 1.5, 1.005, 2.675, 0.3 / 0.1, 1e15, 1e22, 1e300, 5e-324];
  const all = chances();
  const next = (): number => all.next().value ?? 0;
  for (let i = 0; i < 3_000; i += 1) {
    const whole = Math.round((next() - 0.5) * 10 ** Math.floor(next() * 9));
    const places = Math.floor(next() * 10);
    yield (whole + 0.5) / 10 ** places + Math.round(next() * 6 - 3) * 2 ** -40;
    yield whole / 10 ** places;
    yield (next() - 0.5) * 10 ** Math.floor(next() * 40 - 12);
  }
}

describe('rounding to places', () => {
  it.each([
    ['to the nearest', round, roundSlowly],
    ['up', roundUp, roundUpSlowly],
    ['down', roundDown, roundDownSlowly],
  ])('is the same by the short way and by the long one: %s', (_, short, long) => {
    for (const value of figures()) {
      for (const places of [-3, -1, 0, 1, 2, 2.7, 4, 9, 15, 22, 23, 30]) {
        const [got, wanted] = [short(value, places), long(value, places)];
        if (!Object.is(got, wanted)) expect([value, places, got]).toEqual([value, places, wanted]);
      }
    }
  });

  it('leaves whole numbers as their digits are', () => {
    for (const value of figures()) {
      const whole = Math.round(value);
      if (Number.isFinite(whole)) expect(snap(whole)).toBe(Number(whole.toPrecision(15)) + 0);
    }
  });
});
