import { describe, expect, it } from 'vitest';
import { ceilSettled, floorSettled, settle } from './exact.ts';

/** The same by writing out and reading back each time. */
const written = (value: number): number => Number(value.toPrecision(12));

/** Whole numbers, what lies a hair beside them, and what does not. */
function* figures(): Generator<number> {
  let seed = 7;
  const next = (): number => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
  yield* [0, -0, 1, -1, 42 / (7 / 3), 0.3 / 0.1, 1e12, 1e15, 1e300, -1e-300, 2 ** 53];
  for (let i = 0; i < 20_000; i += 1) {
    const whole = Math.round((next() - 0.5) * 10 ** Math.floor(next() * 14));
    yield whole;
    yield whole + (next() - 0.5) * 10 ** -Math.floor(next() * 16);
    yield whole * (1 + (next() - 0.5) * 1e-11);
    yield (next() - 0.5) * 10 ** Math.floor(next() * 20 - 8);
  }
}

describe('settling', () => {
  it('comes to what writing out and reading back comes to', () => {
    for (const value of figures()) {
      const of = `of ${value}`;
      expect([of, settle(value)]).toEqual([of, written(value)]);
      expect([of, ceilSettled(value)]).toEqual([of, Math.ceil(written(value))]);
      expect([of, floorSettled(value)]).toEqual([of, Math.floor(written(value))]);
    }
  });
});
