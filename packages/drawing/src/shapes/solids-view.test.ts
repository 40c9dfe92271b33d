import type { Solid } from '@kerfbook/solids';
import { describe, expect, it } from 'vitest';
import type { Eye } from '../eye.ts';
import { box, convex, facetOf, moved, pocketed, round, turned } from '../testing/solids.ts';
import type { Segment } from '../views.ts';
import { prepareSolids } from './prepared.ts';
import { type SolidsView, type ViewWishes, viewSolids } from './solids-view.ts';

const FRONT: Eye = { azimuth: 0, elevation: 0 };
const END: Eye = { azimuth: 90, elevation: 0 };
const PLAN: Eye = { azimuth: 0, elevation: 90 };

function seen(solids: readonly Solid[], eye: Eye, wishes?: ViewWishes): SolidsView {
  const view = viewSolids(prepareSolids(solids), eye, wishes);
  if (view === undefined) throw new Error('a scene with solids has a view');
  return view;
}

const total = (segments: readonly Segment[]): number =>
  segments.reduce((sum, s) => sum + Math.hypot(s.x2 - s.x1, s.y2 - s.y1), 0);

const isReal = ({ visible, hidden, facets, ways, bounds }: SolidsView): boolean =>
  [
    ...[...visible, ...hidden, ...ways, bounds].flatMap((one) => Object.values(one) as number[]),
    ...facets.flat().flatMap(({ outlines }) => outlines.flat(2)),
  ].every(Number.isFinite);

describe('round stuff', () => {
  it('has two outlines and two ends from the side, and not its other edges', () => {
    const view = seen([round(24, 10, 100, (point) => point)], FRONT, { backs: true });
    expect(view.visible).toHaveLength(4);
    expect(view.hidden).toEqual([]);
    expect(total(view.visible)).toBeCloseTo(2 * 100 + 2 * 20, 6);
  });

  it('is a ring of chords from its end', () => {
    const view = seen([round(24, 10, 100, (point) => point)], PLAN);
    expect(total(view.visible)).toBeCloseTo(24 * 2 * 10 * Math.sin(Math.PI / 24), 6);
  });

  it('shows half of its facets, all of one surface', () => {
    const view = seen(
      [round(24, 10, 100, (point) => point)],
      { azimuth: 3, elevation: 0 },
      { facets: true },
    );
    const facets = view.facets[0] ?? [];
    expect(facets).toHaveLength(12);
    expect(new Set(facets.map(({ facet }) => facet.surface)).size).toBe(1);
  });

  it('meets what it runs into in a crease', () => {
    const post = round(6, 20, 100, (point) => point);
    const rail = box([0, -5, 40, 80, 10, 10]);
    const apart = box([30, -5, 40, 80, 10, 10]);
    const eye = { azimuth: 40, elevation: 30 };
    const creases = (one: Solid): number => prepareSolids([post, one]).creasePoints.length / 2;
    expect(creases(apart)).toBe(0);
    expect(creases(rail)).toBeGreaterThan(3);
    expect(isReal(seen([post, rail], eye))).toBe(true);
  });
});

describe('a pocket', () => {
  const leg = pocketed([40, 40, 100], [10, 20, 20, 50, 25], (point) => point);

  it('is hidden from the side, its rim on the outline', () => {
    const view = seen([leg], END);
    // Its floor, and top and bottom, up to the face it is cut into.
    expect(total(view.hidden)).toBeCloseTo(50 + 2 * 25, 6);
    expect(total(view.visible)).toBeCloseTo(2 * (40 + 100), 6);
  });

  it('is hidden from the back where far sides are asked for, and not drawn elsewise', () => {
    const back = { azimuth: 180, elevation: 0 };
    expect(seen([leg], back).hidden).toEqual([]);
    expect(total(seen([leg], back, { backs: true }).hidden)).toBeCloseTo(2 * (20 + 50), 6);
  });

  it('has a floor that shows, and a tenon that fills it hides it', () => {
    const floor = (view: SolidsView): boolean =>
      (view.facets[0] ?? []).some(
        ({ facet }) => Math.abs(facet.offset + 25) < 1e-9 && facet.normal[1] < 0,
      );
    const tenon = box([10, -60, 20, 20, 85, 50]);
    expect(floor(seen([leg], FRONT, { facets: true }))).toBe(true);
    expect(floor(seen([leg, tenon], FRONT, { facets: true }))).toBe(false);
  });
});

describe('what is hardly there', () => {
  it('gives only real numbers: edge on, flat, without length, straight down and far away', () => {
    const flat = convex([
      facetOf(
        [
          [0, 0, 0],
          [50, 0, 0],
          [50, 50, 0],
          [0, 50, 0],
        ],
        0,
      ),
      facetOf(
        [
          [0, 50, 0],
          [50, 50, 0],
          [50, 0, 0],
          [0, 0, 0],
        ],
        1,
      ),
    ]);
    const stub: Solid = {
      ...box([5, 5, 5, 10, 10, 10]),
      edges: [
        {
          from: [5, 5, 5],
          to: [5, 5, 5],
          normals: [
            [0, 0, 1],
            [0, -1, 0],
          ],
          smooth: false,
        },
      ],
    };
    const far = round(12, 5, 300, turned([1e-7, 90, 45], [1e6, -1e6, 1e5]));
    const ways = [
      { from: [0, 0, 0], to: [0, 0, 0] },
      { from: [0, 0, -9], to: [0, 0, 90] },
    ] as const;
    for (const eye of [
      FRONT,
      END,
      PLAN,
      { azimuth: 0, elevation: -90 },
      { azimuth: 1e-7, elevation: 1e-7 },
    ]) {
      const view = seen([flat, stub, far, box([0, 0, 0, 1, 1, 1])], eye, {
        facets: true,
        backs: true,
        ways,
      });
      expect(isReal(view)).toBe(true);
    }
  });

  it('has no view without solids, and refuses an eye that is nowhere', () => {
    expect(viewSolids(prepareSolids([]), FRONT)).toBeUndefined();
    expect(() => seen([box([0, 0, 0, 1, 1, 1])], { azimuth: Number.NaN, elevation: 0 })).toThrow(
      RangeError,
    );
  });

  it('is not hidden by what it only touches', () => {
    const [below, above] = [box([0, 0, 0, 40, 40, 20]), box([10, 0, 20, 20, 40, 20])];
    const view = seen([below, above], FRONT, { backs: true });
    expect(view.hidden).toEqual([]);
    expect(seen([below, box([0, 40, 0, 40, 40, 20], moved([0, 0, 0]))], FRONT).hidden).toEqual([]);
  });
});
