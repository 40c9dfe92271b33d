import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Eye } from '../eye.ts';
import { parallelView } from '../parallel.ts';
import { type Numbers, sceneOf } from '../testing/boxes.ts';
import { unlike } from '../testing/same-drawing.ts';
import { box } from '../testing/solids.ts';
import { project } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { prepareSolids } from './prepared.ts';
import { type SolidsView, type ViewWishes, viewSolids } from './solids-view.ts';

// Upright boxes are worked out a second time by code of their own, which knows nothing of cells.

const viewOf = (boxes: readonly Numbers[], eye: Eye, wishes?: ViewWishes): SolidsView => {
  const view = viewSolids(prepareSolids(boxes.map((numbers) => box(numbers))), eye, wishes);
  if (view === undefined) throw new Error('a scene with boxes has a view');
  return view;
};

const areaOf = (outlines: readonly Outline[]): number =>
  outlines.reduce(
    (sum, outline) =>
      sum +
      Math.abs(
        outline.reduce((twice, [x, y], index) => {
          const [nextX, nextY] = outline[(index + 1) % outline.length] ?? [0, 0];
          return twice + x * nextY - nextX * y;
        }, 0) / 2,
      ),
    0,
  );

const spot = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 8 });
const crowded = fc.array(fc.tuple(spot, spot, spot, side, side, side), {
  minLength: 1,
  maxLength: 10,
});
// Whole millimetres and turns of 2°: lines nearer together than either code draws apart prove nothing.
const place = fc.integer({ min: -400, max: 400 });
const size = fc.integer({ min: 1, max: 300 });
const loose = fc.array(fc.tuple(place, place, place, size, size, size), {
  minLength: 1,
  maxLength: 10,
});
const boxes = fc.oneof(crowded, loose);
const eyes = fc.oneof(
  fc.record({
    azimuth: fc.integer({ min: -72, max: 72 }).map((steps) => steps * 5),
    elevation: fc.integer({ min: -18, max: 18 }).map((steps) => steps * 5),
  }),
  fc.record({
    azimuth: fc.integer({ min: -90, max: 90 }).map((steps) => steps * 2),
    elevation: fc.integer({ min: -45, max: 45 }).map((steps) => steps * 2),
  }),
  fc.constant<Eye>({ azimuth: 45, elevation: (Math.asin(Math.sqrt(1 / 3)) * 180) / Math.PI }),
);

describe('boxes as cells', () => {
  it('have the lines that the code for boxes gives them, from any eye', () => {
    fc.assert(
      fc.property(boxes, eyes, (numbers, eye) => {
        const theirs = parallelView(sceneOf(numbers), eye);
        const ours = viewOf(numbers, eye);
        expect(unlike(ours.visible, theirs?.visible ?? [])).toEqual([]);
        expect(unlike(ours.hidden, theirs?.hidden ?? [])).toEqual([]);
      }),
      { numRuns: 1000, seed: 1 },
    );
  });

  it('have the lines of the views square on, far sides included', () => {
    fc.assert(
      fc.property(boxes, (numbers) => {
        for (const [name, eye] of [
          ['front', { azimuth: 0, elevation: 0 }],
          ['end', { azimuth: 90, elevation: 0 }],
          ['plan', { azimuth: 0, elevation: 90 }],
        ] as const) {
          const theirs = project(sceneOf(numbers), name);
          const ours = viewOf(numbers, eye, { backs: true });
          expect(unlike(ours.visible, theirs?.visible ?? [])).toEqual([]);
          expect(unlike(ours.hidden, theirs?.hidden ?? [])).toEqual([]);
        }
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it('show as much of each side', () => {
    fc.assert(
      fc.property(boxes, eyes, (numbers, eye) => {
        const theirs = parallelView(sceneOf(numbers), eye);
        const ours = viewOf(numbers, eye, { facets: true });
        for (const [index, { faces }] of (theirs?.pieces ?? []).entries()) {
          const seen = new Map(faces.map(({ axis, outlines }) => [axis, areaOf(outlines)]));
          for (const [k, axis] of (['x', 'y', 'z'] as const).entries()) {
            const mine = (ours.facets[index] ?? [])
              .filter(({ facet }) => Math.abs(facet.normal[k] ?? 0) > 0.5)
              .flatMap(({ outlines }) => outlines);
            expect(areaOf(mine)).toBeCloseTo(seen.get(axis) ?? 0, 2);
          }
        }
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it('have the same room on the paper, and the same ways between them', () => {
    fc.assert(
      fc.property(boxes, eyes, (numbers, eye) => {
        const ways = [
          { axis: 'x', from: { x: -30, y: 4.5, z: 4.5 }, to: 60 },
          { axis: 'z', from: { x: 3.25, y: 2.5, z: 40 }, to: -20 },
        ] as const;
        const theirs = parallelView(sceneOf(numbers), eye, ways);
        const ours = viewOf(numbers, eye, {
          ways: [
            { from: [-30, 4.5, 4.5], to: [60, 4.5, 4.5] },
            { from: [3.25, 2.5, 40], to: [3.25, 2.5, -20] },
          ],
        });
        expect(unlike(ours.ways, theirs?.traces ?? [])).toEqual([]);
        for (const edge of ['left', 'right', 'bottom', 'top'] as const) {
          expect(ours.bounds[edge]).toBeCloseTo(theirs?.bounds[edge] ?? Number.NaN, 6);
        }
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});
