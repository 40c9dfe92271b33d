import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxSolid } from './box.ts';
import type { Cut } from './cuts.ts';
import { leaningBy, placed } from './place.ts';
import { type Section, sectionOf } from './section.ts';
import { shaped } from './shape.ts';
import type { Solid, Triple } from './types.ts';
import { cross, dot, minus, unit } from './vectors.ts';

/** A board 200 long, 80 wide and 40 thick with cuts. */
function board(...cuts: readonly Cut[]): Solid {
  const made = shaped({ blank: { kind: 'box', length: 200, width: 80, thickness: 40 }, cuts });
  if (!made.ok) throw new Error(made.problem.code);
  return made.solid;
}

/** Area of the polygons, by the shoelace formula. */
const areaOf = ({ areas }: Section, normal: Triple): number =>
  areas.reduce((sum, [first, ...rest]) => {
    if (first === undefined) return sum;
    return rest.slice(1).reduce((all, point, i) => {
      const [a, b] = [minus(rest[i] ?? first, first), minus(point, first)];
      return all + dot(cross(a, b), normal) / 2;
    }, sum);
  }, 0);

/** The same by the outline alone: what its lines turn about a point of the plane. */
const areaWithin = ({ lines }: Section, normal: Triple): number => {
  const [origin] = lines[0] ?? [[0, 0, 0] as Triple];
  return lines.reduce(
    (sum, [from, to]) => sum + dot(cross(minus(from, origin), minus(to, origin)), normal) / 2,
    0,
  );
};

function both(solid: Solid, normal: Triple, offset: number): number {
  const section = sectionOf(solid, { normal, offset });
  const area = areaOf(section, normal);
  expect(areaWithin(section, normal)).toBeCloseTo(area, 6);
  return area;
}

const MORTISE: Cut = {
  kind: 'mortise',
  face: 'top',
  at: [100, 40],
  length: 60,
  width: 12,
  depth: 25,
};
const THROUGH: Cut = { kind: 'mortise', face: 'top', at: [100, 40], length: 60, width: 12 };

describe('the cut faces of a piece', () => {
  it('of a box are a rectangle, and nothing beside it', () => {
    const solid = boxSolid([0, 0, 0], [200, 80, 40]);
    expect(both(solid, [1, 0, 0], 50)).toBeCloseTo(80 * 40, 9);
    expect(both(solid, [0, 0, 1], 5)).toBeCloseTo(200 * 80, 9);
    expect(sectionOf(solid, { normal: [1, 0, 0], offset: 250 })).toEqual({ areas: [], lines: [] });
  });

  it('of a box with a mortise are less what the mortise takes there', () => {
    const solid = board(MORTISE);
    // Along, across and level, each through the mortise; then each beside it.
    expect(both(solid, [0, 1, 0], 40.5)).toBeCloseTo(200 * 40 - 60 * 25, 9);
    expect(both(solid, [1, 0, 0], 100.5)).toBeCloseTo(80 * 40 - 12 * 25, 9);
    expect(both(solid, [0, 0, 1], 30)).toBeCloseTo(200 * 80 - 60 * 12, 9);
    expect(both(solid, [0, 0, 1], 10)).toBeCloseTo(200 * 80, 9);
    expect(both(solid, [1, 0, 0], 50)).toBeCloseTo(80 * 40, 9);
    // One that goes through leaves two faces.
    expect(both(board(THROUGH), [1, 0, 0], 100.5)).toBeCloseTo((80 - 12) * 40, 9);
  });

  it('of a tenon, a groove and a dovetail are as their formulas have it', () => {
    const tenon = board({ kind: 'tenon', end: 'end', length: 30, width: 50, thickness: 14 });
    expect(both(tenon, [0, 1, 0], 40.5)).toBeCloseTo(170 * 40 + 30 * 14, 9);
    expect(both(tenon, [0, 0, 1], 20.5)).toBeCloseTo(170 * 80 + 30 * 50, 9);
    const groove = board({ kind: 'groove', face: 'front', at: 10, width: 8, depth: 9 });
    expect(both(groove, [1, 0, 0], 77)).toBeCloseTo(80 * 40 - 8 * 9, 9);
    const tail = board({
      kind: 'dovetail',
      face: 'end',
      run: 'across',
      at: 40,
      width: 20,
      depth: 15,
      angle: 10,
    });
    const wide = 20 + 15 * Math.tan((10 * Math.PI) / 180);
    expect(both(tail, [0, 0, 1], 20.5)).toBeCloseTo(200 * 80 - 15 * wide, 6);
  });

  it('along a face, or along the middle of a round hole, are closed all the same', () => {
    const solid = board(MORTISE, { kind: 'hole', face: 'top', at: [30, 40], diameter: 10 });
    for (const [normal, offset] of [
      [[0, 1, 0], 40],
      [[0, 0, 1], 40],
      [[0, 0, 1], 15],
      [[1, 0, 0], 70],
      [[0, 1, 0], 0],
      [[0, 1, 0], 80],
    ] as const) {
      both(solid, normal, offset);
    }
    // Along the top the plane shows what lies just below it, and along the bottom nothing.
    expect(both(boxSolid([0, 0, 0], [9, 5, 3]), [0, 0, 1], 3)).toBeCloseTo(45, 9);
    expect(both(boxSolid([0, 0, 0], [9, 5, 3]), [0, 0, 1], 0)).toBe(0);
  });

  it('anywhere at any angle are as large by their polygons as by their outline', () => {
    const solid = board(MORTISE, { kind: 'groove', face: 'bottom', at: 20, width: 8, depth: 9 });
    const angle = fc.double({ min: -40, max: 40, noNaN: true });
    const part = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(angle, angle, part, part, part, (front, side, x, y, z) => {
        fc.pre(Math.hypot(x, y, z) > 0.1);
        const normal = unit([x, y, z]);
        const stands = placed(solid, leaningBy(front, side));
        const through = stands.facets[0]?.points[0] ?? [0, 0, 0];
        for (const shift of [-60, -20, 0, 20, 60])
          both(stands, normal, dot(normal, through) + shift);
      }),
      { seed: 16, numRuns: 200 },
    );
  });
});
