import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bendingStrength,
  sagLasting,
  sagOverhang,
  stressOverhang,
  stressPoint,
  stressUniform,
} from './beams.ts';
import { sheetStiffness } from './sheets.ts';
import { stiffness } from './species.ts';
import { sagPoint, sagUniform, spanForSag } from './strength.ts';
import { expectFault } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/**
 * A beam by thousands of short pieces, which knows no formula: from the moment at each place to turn and to
 * deflection, with the turn and height at the left end that its supports ask for.
 */
function deflection(
  length: number,
  bending: number,
  moment: (x: number) => number,
  turnAtLeft: number,
): readonly number[] {
  const pieces = 4000;
  const step = length / pieces;
  let [turn, height] = [turnAtLeft, 0];
  return Array.from({ length: pieces }, (_, i) => {
    const curvature = moment((i + 0.5) * step) / bending;
    height += (turn + (curvature * step) / 2) * step;
    turn += curvature * step;
    return height;
  });
}

const BENDING = stiffness('white oak') * ((1.5 * 3.5 ** 3) / 12);

describe('a span that is fixed at both ends', () => {
  it('sags as the pieces of it do', () => {
    const spread = (x: number): number => (2 * (65 * x - x ** 2)) / 2 - (2 * 65 ** 2) / 12;
    const heights = deflection(65, BENDING, spread, 0);
    expect(-(heights[1999] ?? 0)).toBeCloseTo(sagUniform(65, 2, 1.5, 3.5, 'white oak', 'fixed'), 5);
    // It comes back to the height and is where it began: the moments at the ends are right.
    expect(Math.abs(heights.at(-1) ?? 1)).toBeLessThan(1e-5);
    const point = (x: number): number => (150 / 2) * Math.min(x, 65 - x) - (150 * 65) / 8;
    expect(-(deflection(65, BENDING, point, 0)[1999] ?? 0)).toBeCloseTo(
      sagPoint(65, 150, 1.5, 3.5, 'white oak', 'fixed'),
      5,
    );
  });

  // Wood Handbook table 9-1: k_b 1/384 against 5/384, 1/192 against 1/48
  it('sags a fifth under a spread load and a quarter under one in the middle', () => {
    const [rest, fixed] = [undefined, 'fixed'].map((ends) => sagUniform(65, 2, 1, 4, 'teak', ends));
    expect((rest ?? 0) / (fixed ?? 1)).toBeCloseTo(5, 12);
    const [lying, held] = ['resting', 'Fixed'].map((ends) => sagPoint(65, 99, 1, 4, 'teak', ends));
    expect((lying ?? 0) / (held ?? 1)).toBeCloseTo(4, 12);
    expectFault(() => sagPoint(65, 99, 1, 4, 'teak', 'glued'), 'unknown', 'ends');
  });
});

describe('SAG_OVERHANG', () => {
  // Wood Handbook table 9-1: k_b 1/3 for a load at the free end, 1/8 for one spread
  it('gives the printed forms where it is clamped', () => {
    expect(sagOverhang(12, 100, 1.5, 3.5, 'white oak')).toBeCloseTo(
      (100 * 12 ** 3) / (3 * BENDING),
      12,
    );
    expect(sagOverhang(12, 0, 1.5, 3.5, 'white oak', 0, 9)).toBeCloseTo(
      (9 * 12 ** 4) / (8 * BENDING),
      12,
    );
  });

  it('agrees with the pieces of a part on two supports that stands out past one', () => {
    fc.assert(
      fc.property(
        size(6, 20),
        size(10, 60),
        size(10, 200),
        size(0, 5),
        (out, back, load, spread) => {
          const [end, atSupport] = [back + out, load * out + (spread * out ** 2) / 2];
          const moment = (x: number): number =>
            x < back
              ? (-atSupport * x) / back
              : -(load * (end - x) + (spread * (end - x) ** 2) / 2);
          // The turn at the left end that brings the part back to the height of the second support.
          const turn = (atSupport * back) / (6 * BENDING);
          const tip = deflection(end, BENDING, moment, turn).at(-1) ?? 0;
          const sag = sagOverhang(out, load, 1.5, 3.5, 'white oak', back, spread);
          expect(-tip / sag).toBeCloseTo(1, 3);
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('bending stress', () => {
  // textbook worked by hand: 1-1/2 x 3-1/2, 65 in, 150 lbf in the middle: 6 x 150 x 65 / 4 / (1.5 x 12.25)
  it('is moment over section', () => {
    expect(stressPoint(65, 150, 1.5, 3.5)).toBeCloseTo((6 * ((150 * 65) / 4)) / 18.375, 9);
    expect(stressUniform(65, 2, 1.5, 3.5)).toBeCloseTo((6 * ((2 * 65 ** 2) / 8)) / 18.375, 9);
    expect(stressOverhang(12, 100, 24, 1, 5)).toBeCloseTo((6 * (1200 + 360)) / 24, 9);
  });

  // ASTM D143, as the handbook's tables are made: 2 x 2 in over 28 in, load in the middle; the load that
  // breaks it gives the modulus of rupture back, 1.5 P L / (b h²)
  it('gives the strength back when a bending test is worked backwards', () => {
    const load = (bendingStrength('white oak') * 2 * 2 ** 2) / (1.5 * 28);
    expect(stressPoint(28, load, 2, 2)).toBeCloseTo(bendingStrength('white oak'), 6);
  });

  it('is no greater anywhere along the part', () => {
    fc.assert(
      fc.property(size(10, 80), size(0.1, 5), size(0, 1), (span, load, at) => {
        const x = at * span;
        const resting = Math.abs((load * (span * x - x ** 2)) / 2);
        const fixed = Math.abs((load * (span * x - x ** 2)) / 2 - (load * span ** 2) / 12);
        const most = (ends: string) => (stressUniform(span, load, 1, 2, ends) * 4) / 6;
        expect(resting).toBeLessThanOrEqual(most('resting') + 1e-9);
        expect(fixed).toBeLessThanOrEqual(most('fixed') + 1e-9);
      }),
    );
    expectFault(() => stressPoint(65, 150, 1.5, 1e-6), 'range', 'depth');
  });
});

describe('SAG_LASTING', () => {
  // American Wood Council on NDS 3.5.2, read: 1.5 seasoned, 2.0 unseasoned; the whole may reach 3 times
  it('takes the code’s factors, or a number', () => {
    expect(sagLasting(0.1)).toBeCloseTo(0.15, 12);
    expect(sagLasting(0.1, 'green wood')).toBeCloseTo(0.2, 12);
    expect(sagLasting(0.1, 3)).toBeCloseTo(0.3, 12);
    expect(sagLasting(0.1, 'mdf')).toBeGreaterThan(sagLasting(0.1, 'plywood'));
    expectFault(() => sagLasting(0.1, 0.5), 'range', 'material');
    expectFault(() => sagLasting(0.1, 'stone'), 'unknown', 'material');
  });
});

describe('a stiffness in place of a wood', () => {
  it('is the same as the wood that has it', () => {
    const one = sagUniform(65, 2, 1.5, 3.5, stiffness('white oak'));
    expect(one).toBe(sagUniform(65, 2, 1.5, 3.5, 'white oak'));
    expectFault(() => sagUniform(65, 2, 1.5, 3.5, 0), 'range', 'species');
    expect(sagUniform(32, 3, 11, 0.75, sheetStiffness('MDF'))).toBeGreaterThan(
      sagUniform(32, 3, 11, 0.75, sheetStiffness('birch plywood')),
    );
  });

  // Architectural Woodwork Standards (2009), 4.4.14.10, read: lengths at which a shelf sags L/144, by
  // stiffness, thickness and load in lb/ft², rounded down to inches there (45.98 to 46)
  it.each([
    [950_000, 0.75, 40, 40],
    [950_000, 0.75, 50, 37],
    [950_000, 1, 40, 53],
    [950_000, 1, 50, 49],
    [1_800_000, 0.75, 40, 49],
    [1_800_000, 0.75, 50, 46],
    [1_800_000, 1, 40, 66],
    [1_800_000, 1, 50, 61],
    [1_820_000, 0.75, 40, 49],
    [1_820_000, 0.75, 50, 46],
    [1_820_000, 1, 40, 66],
    [1_820_000, 1, 50, 61],
  ])('%d psi, %d in, %d lb/ft²: %d in', (modulus, thick, load, printed) => {
    const span = spanForSag((load / 144) * 12, 12, thick, modulus, 1 / 144);
    expect(span).toBeGreaterThan(printed - 0.05);
    expect(span).toBeLessThan(printed + 1);
  });
});
