import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from './outline.ts';
import { tipLoad } from './strength.ts';
import { expectFault } from './testdata/faults.ts';
import { tipLoadDrawers, tipShare, tipShareWorst } from './tipping.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const eighths = (most: number) => fc.integer({ min: 0, max: most * 8 }).map((n) => n / 8);
const xs = (points: readonly Point[]): number[] => points.map(([x]) => x);
const ys = (points: readonly Point[]): number[] => points.map(([, y]) => y);

describe('TIP_SHARE', () => {
  it('is 1 under the load that TIP_LOAD gives', () => {
    const load = tipLoad(150, 12, 30);
    expect(tipShare(150, 30, load, 12)).toBeCloseTo(1, 12);
    expect(tipShare(150, 30, load / 2, 12)).toBeCloseTo(0.5, 12);
  });

  // textbook statics: a block of weight W and half width b tips under a push P at height h = W b / P
  it('tips a block under the textbook push', () => {
    expect(tipShare(200, 10, 0, 0, 50, 40)).toBe(1);
    expect(tipShare(200, 10, 0, 0, 25, 40)).toBe(0.5);
  });

  it('counts a load inside the feet as holding', () => {
    expect(tipShare(100, 10, 100, -10, 50, 40)).toBe(1);
  });

  it('refuses a middle of the weight that is not inside the feet', () => {
    expectFault(() => tipShare(100, 0, 50, 5), 'range', 'feet_to_middle');
    expectFault(() => tipShare(0, 10, 50, 5), 'range', 'weight');
    expectFault(() => tipShare(100, 10, -50, 5), 'range', 'load');
  });
});

/** Whether a point lies on the side of a line on which another point is, or on the line. */
const besides = (p: Point, q: Point, [ax, ay]: Point, [bx, by]: Point): boolean => {
  const side = ([x, y]: Point): number => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  // Three feet in one line are no triangle.
  return side(q) !== 0 && side(p) * side(q) >= 0;
};

/** Whether a point lies between some feet: in a triangle of three of them, which knows nothing of moments. */
function inside(p: Point, feet: readonly Point[]): boolean {
  return feet.some((a, i) =>
    feet.some(
      (b, j) =>
        j > i &&
        feet.some(
          (c, k) => k > j && besides(p, a, b, c) && besides(p, b, c, a) && besides(p, c, a, b),
        ),
    ),
  );
}

/** Least load by halving: it stands while the resultant of weight and load falls between the feet. */
function leastLoad(weight: number, middle: Point, feet: readonly Point[], top: readonly Point[]) {
  const stands = (load: number, [x, y]: Point): boolean => {
    const all = weight + load;
    return inside(
      [(weight * middle[0] + load * x) / all, (weight * middle[1] + load * y) / all],
      feet,
    );
  };
  return Math.min(
    ...top.map((point) => {
      let [low, high] = [0, 1e6];
      if (stands(high, point)) return high;
      for (let i = 0; i < 80; i += 1) {
        const load = (low + high) / 2;
        if (stands(load, point)) low = load;
        else high = load;
      }
      return high;
    }),
  );
}

const CORNERS: readonly Point[] = [
  [0, 0],
  [84, 0],
  [84, 42],
  [0, 42],
];

describe('TIP_SHARE_WORST', () => {
  it('is the worse of the two sides of a table on four legs', () => {
    fc.assert(
      fc.property(size(1, 30), size(1, 18), (ends, sides) => {
        const feet: readonly Point[] = [
          [ends, sides],
          [84 - ends, sides],
          [84 - ends, 42 - sides],
          [ends, 42 - sides],
        ];
        const share = tipShareWorst(120, xs(feet), ys(feet), xs(CORNERS), ys(CORNERS), 100);
        const least = Math.min(tipLoad(120, ends, 42 - ends), tipLoad(120, sides, 21 - sides));
        expect(100 / share).toBeCloseTo(least, 6);
      }),
    );
  });

  // textbook: three feet on a circle of radius r stand r/2 from the middle to each side
  it('tips a round top on three legs between two of them', () => {
    const around = (count: number, radius: number): readonly Point[] =>
      Array.from({ length: count }, (_, i) => [
        radius * Math.cos((2 * Math.PI * i) / count),
        radius * Math.sin((2 * Math.PI * i) / count),
      ]);
    const [feet, top] = [around(3, 12), around(360, 18)];
    const share = tipShareWorst(40, xs(feet), ys(feet), xs(top), ys(top), 20);
    expect(20 / share).toBeCloseTo((40 * 6) / (18 - 6), 6);
  });

  it('agrees with a resultant that leaves the feet, for feet and tops of any form', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(eighths(60), eighths(40)), { minLength: 3, maxLength: 6 }),
        size(20, 300),
        (feet, weight) => {
          // A foot at each corner of a small square keeps the middle of the weight between them.
          const all: readonly Point[] = [[25, 15], [35, 15], [35, 25], [25, 25], ...feet];
          const top: readonly Point[] = [
            [-10, -8],
            [70, -8],
            [70, 48],
            [-10, 48],
          ];
          const share = tipShareWorst(weight, xs(all), ys(all), xs(top), ys(top), 80);
          const least = leastLoad(weight, [30, 20], all, top);
          expect(80 / share / least).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is nothing where nothing overhangs, and counts a push', () => {
    const share = (push?: number, height?: number) =>
      tipShareWorst(120, xs(CORNERS), ys(CORNERS), xs(CORNERS), ys(CORNERS), 100, push, height);
    expect(share()).toBe(0);
    // The load stands right above the feet of the side it is pushed over: it neither tips nor holds.
    expect(share(50, 30)).toBeCloseTo((50 * 30) / (120 * 21), 12);
  });

  it('refuses what stands on two feet, and a middle that is not between them', () => {
    const tall = [xs(CORNERS), ys(CORNERS)] as const;
    expectFault(() => tipShareWorst(9, [0, 5], [0, 5], ...tall, 1), 'range', 'feet_x');
    expectFault(() => tipShareWorst(9, [0, 5, 5], [0, 5], ...tall, 1), 'range', 'feet_y');
    expectFault(() => tipShareWorst(9, [0, 5, undefined], [0, 5, 9], ...tall, 1), 'kind', 'feet_x');
    expectFault(() => tipShareWorst(9, [0, 5, 0], [0, 0, 5], ...tall, 1), 'range', 'middle_x');
  });
});

describe('TIP_LOAD_DRAWERS', () => {
  // moments about the front feet by hand: (120 x 10 + 20 x (9 - 14)) / 14
  it('balances the case against drawers and load', () => {
    expect(tipLoadDrawers(120, 20, 20, 18, 14)).toBeCloseTo((120 * 10 - 20 * 5) / 14, 12);
  });

  it('agrees with the balance of many small pieces', () => {
    fc.assert(
      fc.property(size(30, 200), size(10, 90), size(2, 16), size(0, 6), (shut, open, out, back) => {
        const pieces = 200;
        let moment = 0;
        for (let i = 0; i < pieces; i += 1) {
          const at = (i + 0.5) / pieces;
          moment += (shut / pieces) * (at * 20 - back) + (open / pieces) * (at * 18 - out - back);
        }
        const load = tipLoadDrawers(shut, 20, open, 18, out, back);
        expect(load).toBeCloseTo(Math.max(0, moment) / (out + back), 6);
      }),
    );
  });

  it('is nothing where full drawers tip it by themselves', () => {
    expect(tipLoadDrawers(40, 16, 90, 15, 14)).toBe(0);
  });
});
