import { describe, expect, it } from 'vitest';
import type { Blank } from './blank.ts';
import { USUAL_FACETING } from './faceting.ts';
import { measured } from './measure.ts';
import { loopOf, type Outline, type Pair } from './outline.ts';
import { type Shaped, shaped } from './shape.ts';

const made = (blank: Blank, tolerance = 0.05, most = 4000): Shaped => {
  const answer = shaped({ blank, faceting: { tolerance, most } });
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer;
};

const OVAL: Outline = { kind: 'oval', length: 1800, width: 1000 };
const SUPER: Outline = { kind: 'superellipse', length: 1800, width: 1000, exponent: 2.5 };

/** Outlines with their areas and the lengths around them, by school formulas. */
const OUTLINES: readonly (readonly [
  name: string,
  outline: Outline,
  area: number,
  around: number | undefined,
])[] = [
  ['a disc', { kind: 'disc', diameter: 900 }, Math.PI * 450 ** 2, Math.PI * 900],
  ['a small disc', { kind: 'disc', diameter: 6 }, Math.PI * 9, Math.PI * 6],
  ['an oval', OVAL, Math.PI * 900 * 500, sampledAround(OVAL)],
  ['a superellipse', SUPER, sampledArea(900, 500, 2.5), undefined],
  [
    'rounded corners',
    { kind: 'rounded', length: 800, width: 500, radius: 60 },
    800 * 500 - (4 - Math.PI) * 60 ** 2,
    2 * (680 + 380) + 2 * Math.PI * 60,
  ],
  [
    'round ends',
    { kind: 'rounded', length: 800, width: 500, radius: 250 },
    300 * 500 + Math.PI * 250 ** 2,
    600 + Math.PI * 500,
  ],
  [
    'a hexagon by its flats',
    { kind: 'polygon', sides: 6, across: 100, measured: 'flats' },
    (Math.sqrt(3) / 2) * 100 ** 2,
    (6 * 100) / Math.sqrt(3),
  ],
  [
    'a triangle by its corners',
    { kind: 'polygon', sides: 3, across: 100, measured: 'corners' },
    (3 * Math.sqrt(3) * 50 ** 2) / 4,
    3 * Math.sqrt(3) * 50,
  ],
];

/** Length of an oval's edge by very many chords. */
function sampledAround(outline: Extract<Outline, { kind: 'oval' }>): number {
  const [a, b] = [outline.length / 2, outline.width / 2];
  const count = 200_000;
  const at = (index: number): Pair => {
    const turn = (2 * Math.PI * index) / count;
    return [a * Math.cos(turn), b * Math.sin(turn)];
  };
  let sum = 0;
  for (let index = 0; index < count; index++) {
    const [[x, y], [u, v]] = [at(index), at(index + 1)];
    sum += Math.hypot(u - x, v - y);
  }
  return sum;
}

/** Area of a superellipse by strips, narrow where its edge is steep. */
function sampledArea(a: number, b: number, exponent: number): number {
  const count = 200_000;
  let sum = 0;
  for (let index = 0; index < count; index++) {
    const turn = (Math.PI / 2) * ((index + 0.5) / count);
    const x = Math.sin(turn);
    sum += (1 - x ** exponent) ** (1 / exponent) * Math.cos(turn);
  }
  return ((4 * a * b * Math.PI) / 2 / count) * sum;
}

describe('a blank', () => {
  it('that is a box is exact', () => {
    const { solid, exact } = made({ kind: 'box', length: 700, width: 60, thickness: 40 });
    expect(measured(solid)).toEqual({
      volume: 1_680_000,
      area: 144_800,
      centroid: [350, 30, 20],
      bounds: { low: [0, 0, 0], high: [700, 60, 40] },
    });
    expect(exact).toEqual({ volume: 1_680_000, area: 144_800, centroid: [350, 30, 20] });
  });

  it.each(OUTLINES)(
    'with the outline of %s has its exact size beside',
    (_, outline, area, around) => {
      const { exact } = made({ kind: 'prism', outline, through: 25 });
      expect(exact!.volume / (area * 25)).toBeCloseTo(1, 8);
      if (around === undefined) expect(exact!.area).toBeUndefined();
      else expect(exact!.area! / (2 * area + around * 25)).toBeCloseTo(1, 8);
    },
  );

  it.each(OUTLINES)(
    'with the outline of %s is within the tolerance of it',
    (_, outline, area, around) => {
      const { solid, exact } = made({ kind: 'prism', outline, through: 25 });
      const { volume, centroid } = measured(solid);
      const edge = around ?? 2 * 2800;
      // Chords of a curve take off two thirds of their distance from it, all around.
      expect(volume).toBeLessThan(area * 25 * (1 + 1e-12));
      expect(volume).toBeGreaterThan((area - (2 / 3) * 0.05 * 1.05 * edge) * 25);
      for (const axis of [0, 1, 2] as const)
        expect(centroid[axis]).toBeCloseTo(exact!.centroid[axis], 6);
    },
  );

  it.each(OUTLINES)(
    'with the outline of %s is as long and as wide as it is said to be',
    (_, outline) => {
      const { bounds } = measured(made({ kind: 'prism', outline, through: 25 }).solid);
      expect(bounds.low).toEqual([0, 0, 0]);
      if (outline.kind === 'disc')
        expect(bounds.high).toEqual([outline.diameter, outline.diameter, 25]);
      if ('length' in outline) expect(bounds.high).toEqual([outline.length, outline.width, 25]);
    },
  );

  it('may go along the length, as a rod', () => {
    const rod = made({
      kind: 'prism',
      outline: { kind: 'disc', diameter: 30 },
      through: 400,
      along: 'length',
    });
    expect(measured(rod.solid).bounds.high).toEqual([400, 30, 30]);
    expect(rod.exact!.centroid).toEqual([200, 15, 15]);
    expect(measured(rod.solid).centroid[0]).toBeCloseTo(200, 9);
  });
});

describe('chords', () => {
  const away = (
    outline: Outline,
    exponent: number,
    a: number,
    b: number,
    tolerance: number,
  ): number => {
    const { points } = loopOf(outline, { tolerance, most: 4000 });
    let most = 0;
    points.forEach(([x, y], index) => {
      const [u, v] = points[(index + 1) % points.length]!;
      for (let share = 0.1; share < 1; share += 0.1) {
        const [p, q] = [(x + (u - x) * share - a) / a, (y + (v - y) * share - b) / b];
        const radius = (Math.abs(p) ** exponent + Math.abs(q) ** exponent) ** (1 / exponent);
        // Along the gradient, which for such shallow gaps is the distance.
        const [s, t] = [
          Math.abs(p / radius) ** (exponent - 1),
          Math.abs(q / radius) ** (exponent - 1),
        ];
        most = Math.max(most, (1 - radius) / Math.hypot(s / a, t / b));
      }
    });
    return most;
  };

  it.each([
    ['disc', { kind: 'disc', diameter: 900 }, 2, 450, 450],
    ['oval', OVAL, 2, 900, 500],
    ['narrow oval', { kind: 'oval', length: 1000, width: 50 }, 2, 500, 25],
    ['superellipse', SUPER, 2.5, 900, 500],
    ['nearly a rectangle', { ...SUPER, exponent: 8 }, 8, 900, 500],
  ] as const)(
    'of a curve lie no further from it than the tolerance: %s',
    (_, outline, exponent, a, b) => {
      for (const tolerance of [0.5, 0.05]) {
        const most = away(outline, exponent, a, b, tolerance);
        expect(most).toBeLessThan(tolerance * 1.05);
        expect(most).toBeGreaterThan(tolerance / 3);
      }
    },
  );

  it('are no more than asked for', () => {
    const outline = { kind: 'disc', diameter: 3000 } as const;
    expect(loopOf(outline, USUAL_FACETING).points).toHaveLength(240);
    expect(loopOf(outline, { tolerance: 0.05, most: 40 }).points).toHaveLength(40);
  });
});
