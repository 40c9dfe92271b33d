import type { Solid, Triple } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Eye } from '../eye.ts';
import type { Numbers } from '../testing/boxes.ts';
import { unlike } from '../testing/same-drawing.ts';
import { box, leg, parted, round, turned } from '../testing/solids.ts';
import { prepareSolids } from './prepared.ts';
import { type SolidsView, viewSolids } from './solids-view.ts';

// How a solid is parted into cells is nobody's business: cuts through it must not be seen, not even
// where a line behind runs exactly along them.

const seen = (solids: readonly Solid[], eye: Eye): SolidsView => {
  const view = viewSolids(prepareSolids(solids), eye, { facets: true });
  if (view === undefined) throw new Error('a scene with solids has a view');
  return view;
};

const spot = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 8 });
const boxes = fc.array(fc.tuple(spot, spot, spot, side, side, side), {
  minLength: 1,
  maxLength: 6,
});
const turn = fc.integer({ min: -36, max: 36 }).map((steps) => steps * 5);
const eyes = fc.oneof(
  fc.record({ azimuth: turn, elevation: fc.integer({ min: -18, max: 18 }).map((s) => s * 5) }),
  fc.constantFrom<Eye>(
    { azimuth: 0, elevation: 0 },
    { azimuth: 90, elevation: 0 },
    { azimuth: 0, elevation: 90 },
    { azimuth: 0, elevation: -90 },
  ),
);
const normals: readonly Triple[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [Math.SQRT1_2, Math.SQRT1_2, 0],
  [0.6, 0, 0.8],
];
const cuts = fc.array(fc.tuple(fc.constantFrom(...normals), fc.integer({ min: 1, max: 16 })), {
  minLength: 1,
  maxLength: 4,
});

const cutAll = (solids: readonly Solid[], planes: readonly (readonly [Triple, number])[]) =>
  planes.reduce((all, [normal, offset]) => all.map((s) => parted(s, normal, offset)), solids);

function expectAlike(one: SolidsView, other: SolidsView): void {
  expect(unlike(one.visible, other.visible)).toEqual([]);
  expect(unlike(one.hidden, other.hidden)).toEqual([]);
}

describe('cells', () => {
  it('of boxes are not seen, wherever the cuts are', () => {
    fc.assert(
      fc.property(boxes, cuts, eyes, (numbers, planes, eye) => {
        const whole = (numbers as Numbers[]).map((one) => box(one));
        expectAlike(seen(cutAll(whole, planes), eye), seen(whole, eye));
      }),
      { numRuns: 1000, seed: 5 },
    );
  });

  it('of legs and round stuff at any angle are not seen either', () => {
    const angle = fc.integer({ min: -179, max: 180 });
    const place = fc.tuple(fc.tuple(angle, angle, angle), fc.tuple(spot, spot, spot));
    fc.assert(
      fc.property(place, place, place, cuts, eyes, (a, b, c, planes, eye) => {
        const whole = [
          leg(6, 3, 30, [2, -1], turned(...a)),
          round(12, 4, 25, turned(...b), 0.7),
          box([0, 0, 0, 20, 3, 7], turned(...c)),
        ];
        expectAlike(seen(cutAll(whole, planes), eye), seen(whole, eye));
      }),
      { numRuns: 500, seed: 6 },
    );
  });
});
