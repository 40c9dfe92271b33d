import { movedBy, type Solid, type Triple } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawFlat } from '../draw.ts';
import { type Gaze, gazeOf } from '../eye.ts';
import { grainArrows } from '../grain.ts';
import type { Scene } from '../scene.ts';
import { type Numbers, sceneOf } from '../testing/boxes.ts';
import { unlike } from '../testing/same-drawing.ts';
import { shapedScene, stool } from '../testing/shaped.ts';
import { box, dot, parted, plus } from '../testing/solids.ts';
import { type Projection, project, type View } from '../views.ts';
import { isWithin, rimOf, silhouetteOf } from './silhouette.ts';
import { SQUARE_ON } from './square-on.ts';

const VIEWS = ['plan', 'front', 'end'] as const;

function viewOf(scene: Scene, view: View): Projection {
  const projection = project(scene, view);
  if (projection === undefined) throw new Error('a scene with pieces has a view');
  return projection;
}

/** The nearest point of a solid on a line of sight, mm towards the eye; found in space, through its cells. */
function metAt({ cells }: Solid, [x, y]: readonly [number, number], gaze: Gaze): number {
  const start = plus(plus([0, 0, 0], gaze.right, x), gaze.up, y);
  let nearest = -Infinity;
  for (const { facets } of cells) {
    let [enter, leave] = [-Infinity, Infinity];
    for (const { normal, offset } of facets) {
      const room = offset - dot(normal, start);
      const rate = dot(normal, gaze.toEye);
      if (Math.abs(rate) < 1e-12) {
        if (room < 0) leave = -Infinity;
      } else if (rate > 0) leave = Math.min(leave, room / rate);
      else enter = Math.max(enter, room / rate);
    }
    if (leave > enter) nearest = Math.max(nearest, leave);
  }
  return nearest;
}

const spot = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 8 });
const boxes = fc.array(fc.tuple(spot, spot, spot, side, side, side), {
  minLength: 1,
  maxLength: 8,
});

/** Every second piece as a solid, though it is just a box. */
const halfShaped = (numbers: readonly Numbers[]): Scene => {
  const scene = sceneOf(numbers);
  return {
    ...scene,
    pieces: scene.pieces.map((piece, index) =>
      index % 2 === 0 ? { ...piece, solid: box(numbers[index] as Numbers) } : piece,
    ),
  };
};

describe('a view square on of shaped pieces', () => {
  it('has the lines and places of the view of boxes where all are boxes', () => {
    fc.assert(
      fc.property(boxes, fc.constantFrom(...VIEWS), (numbers, view) => {
        const theirs = viewOf(sceneOf(numbers), view);
        const ours = viewOf(halfShaped(numbers), view);
        expect(unlike(ours.visible, theirs.visible)).toEqual([]);
        expect(unlike(ours.hidden, theirs.hidden)).toEqual([]);
        const told = ({ bounds, pieces }: Projection) =>
          [...pieces.map(({ piece, ...room }) => ({ name: piece.part.name, ...room })), bounds].map(
            (room) => ({ name: '', near: 0, ...room }),
          );
        const [mine, his] = [told(ours), told(theirs)];
        expect(mine.map(({ name }) => name)).toEqual(his.map(({ name }) => name));
        for (const [index, room] of mine.entries()) {
          for (const edge of ['left', 'right', 'bottom', 'top'] as const) {
            expect(room[edge]).toBeCloseTo(his[index]?.[edge] ?? Number.NaN, 6);
          }
          if (room.name !== '') expect(room.near).toBeCloseTo(his[index]?.near ?? Number.NaN, 6);
        }
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it('is covered by each piece where lines of sight meet it, and paints the nearest last', () => {
    const scene = stool();
    let spots = 0;
    for (const view of VIEWS) {
      const gaze = gazeOf(SQUARE_ON[view]);
      const { bounds, pieces } = viewOf(scene, view);
      for (let i = 0; i < 400; i++) {
        const x = bounds.left + ((i * 0.618034) % 1) * (bounds.right - bounds.left);
        const y = bounds.bottom + ((i + 0.5) / 400) * (bounds.top - bounds.bottom);
        const met = pieces.map(({ piece }) => metAt(piece.solid as Solid, [x, y], gaze));
        const covered = pieces.map(({ outlines = [] }) =>
          outlines.some((outline) => isWithin(outline, x, y)),
        );
        expect(covered).toEqual(met.map((depth) => depth > -Infinity));
        if (!covered.includes(true)) continue;
        spots++;
        expect(met[covered.lastIndexOf(true)]).toBe(Math.max(...met));
      }
    }
    expect(spots).toBeGreaterThan(300);
  });

  it('draws a round top as one smooth line from above, and its wall without the lines between facets', () => {
    const seat = stool().pieces.filter(({ part }) => part.name === 'Seat');
    const scene: Scene = { ...stool(), pieces: seat };
    for (const { x1, y1, x2, y2 } of viewOf(scene, 'plan').visible) {
      for (const [x, y] of [
        [x1, y1],
        [(x1 + x2) / 2, (y1 + y2) / 2],
      ] as const) {
        expect(Math.abs(Math.hypot(x - 180, y - 180) - 180)).toBeLessThan(0.051);
      }
    }
    // One line below, one above, two at the sides, and between them the rounded edge.
    const front = viewOf(scene, 'front').visible;
    const upright = front.filter(({ x1, x2, y1, y2 }) => x1 === x2 && Math.abs(y2 - y1) > 1);
    expect(upright.map(({ x1 }) => x1).sort((a, b) => a - b)).toEqual([0, 360]);
    for (const { y1, y2 } of upright) expect(Math.abs(y2 - y1)).toBeCloseTo(24, 6);
  });

  it('gives the rim of a piece once, however it is put together', () => {
    const gaze = gazeOf({ azimuth: 20, elevation: 10 });
    const whole = box([0, 0, 0, 30, 20, 10]);
    const pieces = parted(parted(whole, [1, 0, 0] as Triple, 12), [0.6, 0.8, 0] as Triple, 15);
    expect(pieces.cells.length).toBeGreaterThan(2);
    const rim = rimOf(silhouetteOf(whole, gaze));
    expect(rim).toHaveLength(6);
    expect(unlike(rimOf(silhouetteOf(pieces, gaze)), rim)).toEqual([]);
  });

  it('leads from the outline of a piece back to its row', () => {
    const { front = '' } = drawFlat(stool(), 'metric', {
      views: ['front'],
      format: (mm) => String(mm),
    });
    const keys = [...front.matchAll(/<g class="kb-piece" data-part="([^"]*)" data-copy="(\d)">/g)];
    expect(keys.map(([, part, copy]) => `${part} ${copy}`).sort()).toEqual([
      's1:1:0 0',
      's1:2:0 0',
      's1:2:0 1',
      's1:2:0 2',
      's1:2:0 3',
      's1:3:0 0',
    ]);
    expect([...front.matchAll(/<path class="kb-area" d="M[^"]*Z"\/>/g)]).toHaveLength(6);
    expect([...front.matchAll(/<path class="kb-rim" fill="none" d="M/g)]).toHaveLength(6);
  });

  it('puts the arrow of the grain on the wood, not beside a narrow end', () => {
    // Narrow at its left end: a rectangle around it has room where it has none.
    const scene = shapedScene([
      {
        name: 'Wedge',
        shape: {
          blank: { kind: 'box', length: 400, width: 90, thickness: 20 },
          cuts: [{ kind: 'taper', faces: ['front'], to: 4, from: 0, towards: 'start' }],
        },
        stands: movedBy([0, 0, 0]),
      },
    ]);
    const plan = viewOf(scene, 'plan');
    const [arrow] = grainArrows(plan, 1);
    const [outline = []] = plan.pieces[0]?.outlines ?? [];
    expect(arrow).toBeDefined();
    for (const x of [arrow?.x1 ?? 0, arrow?.x2 ?? 0]) {
      for (const off of [-4, 4]) expect(isWithin(outline, x, (arrow?.y1 ?? 0) + off)).toBe(true);
    }
  });
});
