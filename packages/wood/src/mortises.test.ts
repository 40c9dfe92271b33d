import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tenonCount, tenonLength, tenonsApart, tenonThickness, tenonWidth } from './mortises.ts';
import { expectFault } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

// A woodworking school's handout after Moxon, read: tenon 1/3 of the stock, mortise 3 to 5 times its width
// deep, tenon 1/8 in shorter, 2/3 of the rail wide, no wider than 6 times its thickness.
describe('proportions', () => {
  it('a tenon is a third of its part, to a step', () => {
    expect(tenonThickness(0.75)).toBe(0.25);
    expect(tenonThickness(0.875, 1 / 16)).toBe(5 / 16);
    expect(tenonThickness(20 / 25.4, 1 / 25.4) * 25.4).toBeCloseTo(7, 9);
    expectFault(() => tenonThickness(0.25, 0.25), 'range', 'bit_step');
    // found at random: a step of next to nothing made the count of steps endless
    expectFault(() => tenonThickness(1, 5e-324), 'range', 'bit_step');
  });

  // construction textbook, read: 1/3 to 1/4 of the framing thickness
  it('stays between a quarter and a third, a step aside', () => {
    fc.assert(
      fc.property(size(0.5, 4), (stock) => {
        const thick = tenonThickness(stock, 1 / 16);
        expect(thick).toBeLessThanOrEqual(stock / 3 + 1 / 32 + 1e-9);
        expect(thick).toBeGreaterThanOrEqual(stock / 4 - 1 / 32 - 1e-9);
      }),
    );
  });

  it('a mortise is 3 to 5 times as deep as wide, with wood beyond it', () => {
    fc.assert(
      fc.property(size(0.2, 0.6), size(2, 4), size(0, 0.2), (thick, into, leave) => {
        const deep = tenonLength(thick, into, leave) + 1 / 8;
        expect(deep / thick).toBeLessThanOrEqual(5 + 1e-9);
        expect(deep / thick).toBeGreaterThanOrEqual(3 - 1e-9);
        expect(deep).toBeLessThanOrEqual(into - leave + 1e-9);
      }),
    );
    expect(tenonLength(0.375, 2.5)).toBeCloseTo(1.75, 12);
    expect(tenonLength(0.375, 2)).toBeCloseTo(1.625, 12);
    expectFault(() => tenonLength(0.5, 1.5), 'range', 'into');
  });

  // Noyes, Handwork in Wood, read: in a grooved frame half the rail less the groove
  it('a tenon takes two thirds of its rail, or half of it less the groove', () => {
    expect(tenonWidth(3)).toBe(2);
    expect(tenonWidth(3, 0.375)).toBe(1.125);
    expectFault(() => tenonWidth(1, 0.5), 'range', 'groove_depth');
  });

  it('no tenon is wider than 6 times its thickness', () => {
    expect([2.25, 2.26, 4.5, 6].map((width) => tenonCount(width, 0.375))).toEqual([1, 2, 2, 3]);
    // found at random: a width of nothing bounded the thickness by nothing
    expectFault(() => tenonCount(5e-324, 0), 'range', 'tenon_thickness');
  });
});

/** Least distance of two boxes by points all over them. */
function distanceByPoints(leg: number, a: readonly number[], b: readonly number[]): number {
  const [lengthA = 0, thickA = 0, fromA = 0] = a;
  const [lengthB = 0, thickB = 0, fromB = 0] = b;
  const steps = 24;
  let least = Number.POSITIVE_INFINITY;
  const cells = Array.from({ length: steps + 1 }, (_, i) => i / steps);
  for (const p of cells)
    for (const q of cells)
      for (const r of cells)
        for (const s of cells) {
          // a comes in along x and lies fromA from the face y = 0; b comes in along y
          const x = leg - lengthA * p;
          const y = fromA + thickA * q;
          const u = fromB + thickB * r;
          const v = leg - lengthB * s;
          least = Math.min(least, Math.hypot(x - u, y - v));
        }
  return least;
}

describe('TENONS_APART', () => {
  // drawn: leg 2-1/2, tenons 1 long and 3/8 thick, 3/4 from the face; the corners are 3/8 apart both ways
  it('is the distance of the nearest corners', () => {
    expect(tenonsApart(2.5, 1, 0.375, 0.75)).toBeCloseTo(Math.hypot(0.375, 0.375), 12);
    expect(tenonsApart(2.5, 1.5, 0.375, 0.75)).toBe(0);
    // one of them short: it stops before the other
    expect(tenonsApart(2.5, 1.5, 0.375, 0.75, 1)).toBeCloseTo(0.375, 12);
  });

  it('agrees with the least distance of points all over both', () => {
    fc.assert(
      fc.property(
        fc.tuple(size(0.5, 2.2), size(0.2, 0.6), size(0.2, 1)),
        fc.tuple(size(0.5, 2.2), size(0.2, 0.6), size(0.2, 1)),
        (a, b) => {
          const apart = tenonsApart(2.5, a[0], a[1], a[2], b[0], b[1], b[2]);
          const byPoints = distanceByPoints(2.5, a, b);
          // Points lie at most a grid's step from the nearest ones.
          if (apart > 0) expect(Math.abs(byPoints - apart)).toBeLessThan(0.01);
          else expect(byPoints).toBeLessThan(0.15);
        },
      ),
      { numRuns: 8 },
    );
  });

  it('refuses a tenon that comes out of the leg', () => {
    expectFault(() => tenonsApart(2.5, 2.6, 0.375, 0.75), 'range', 'tenon_length');
    expectFault(() => tenonsApart(2.5, 1, 0.375, 2.2), 'range', 'tenon_thickness');
  });
});
