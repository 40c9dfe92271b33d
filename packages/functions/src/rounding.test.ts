import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { round, roundSlowly, snap } from './rounding.ts';

const figures = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  // Halves, and a hair beside them.
  fc
    .tuple(
      fc.integer({ min: -2_000_000, max: 2_000_000 }),
      fc.integer({ min: -3, max: 3 }),
      fc.nat(9),
    )
    .map(([whole, off, places]) => (whole + 0.5) / 10 ** places + off * 2 ** -40),
  fc.tuple(fc.integer(), fc.nat(12)).map(([whole, places]) => whole / 10 ** places),
  fc.constantFrom(0, -0, 0.5, -0.5, 1.5, 1.005, 2.675, 0.3 / 0.1, 1e15, 1e22, 5e-324),
);

describe('rounding to places', () => {
  it('is the same by the short way and by the long one', () => {
    fc.assert(
      fc.property(
        figures,
        fc.oneof(fc.integer({ min: -5, max: 30 }), fc.double({ min: 0, max: 9, noNaN: true })),
        (value, places) => {
          expect(Object.is(round(value, places), roundSlowly(value, places))).toBe(true);
        },
      ),
      { numRuns: 20_000 },
    );
  });

  it('leaves whole numbers as their digits are', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), (whole) => {
        expect(snap(whole)).toBe(Number(whole.toPrecision(15)) + 0);
      }),
      { numRuns: 5_000 },
    );
  });
});
