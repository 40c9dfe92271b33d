import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Eye, gazeOf } from './eye.ts';
import { paperOf } from './paper-lines.ts';
import { type ParallelView, parallelView } from './parallel.ts';
import type { Box, Piece } from './scene.ts';
import { type Numbers, sceneOf } from './testing/boxes.ts';
import { project, type Segment } from './views.ts';
import type { Outline } from './visible-face.ts';

// Expected visibility comes from following single lines of sight through the boxes, which shares
// nothing with the cutting of edges and faces under test.

const ISOMETRIC: Eye = { azimuth: 45, elevation: (Math.asin(Math.sqrt(1 / 3)) * 180) / Math.PI };

function seen(boxes: readonly Numbers[], eye: Eye): ParallelView {
  const view = parallelView(sceneOf(boxes), eye);
  if (view === undefined) throw new Error('a scene with boxes has a view');
  return view;
}

const length = ({ x1, y1, x2, y2 }: Segment): number => Math.hypot(x2 - x1, y2 - y1);
const total = (segments: readonly Segment[]): number =>
  segments.reduce((sum, segment) => sum + length(segment), 0);

function area(outline: Outline): number {
  return (
    outline.reduce((sum, [x, y], index) => {
      const [nextX, nextY] = outline[(index + 1) % outline.length] ?? [0, 0];
      return sum + x * nextY - nextX * y;
    }, 0) / 2
  );
}

const areaOf = (view: ParallelView): number =>
  view.pieces
    .flatMap(({ faces }) => faces.flatMap(({ outlines }) => outlines))
    .reduce((sum, outline) => sum + Math.abs(area(outline)), 0);

/** How far along the line of sight from a point a box is entered and left; undefined when missed. */
function passes(
  box: Box,
  point: readonly number[],
  eye: Eye,
): readonly [number, number] | undefined {
  const { toEye } = gazeOf(eye);
  let [enter, leave] = [-Infinity, Infinity];
  for (const [index, axis] of (['x', 'y', 'z'] as const).entries()) {
    const step = toEye[index] ?? 0;
    const start = point[index] ?? 0;
    const [low, high] = [box.from[axis], box.to[axis]];
    if (Math.abs(step) < 1e-9) {
      if (start <= low + 1e-6 || start >= high - 1e-6) return undefined;
      continue;
    }
    const ends = [(low - start) / step, (high - start) / step] as const;
    enter = Math.max(enter, Math.min(...ends));
    leave = Math.min(leave, Math.max(...ends));
  }
  return leave - enter > 1e-6 ? [enter, leave] : undefined;
}

const covered = (point: readonly number[], pieces: readonly Piece[], eye: Eye): boolean =>
  pieces.some((piece) => (passes(piece, point, eye)?.[1] ?? -1) > 1e-6);

const onSegment = (x: number, y: number, near: number) => (s: Segment) => {
  const along = ((x - s.x1) * (s.x2 - s.x1) + (y - s.y1) * (s.y2 - s.y1)) / length(s) ** 2;
  const share = Math.max(0, Math.min(1, along));
  return Math.hypot(s.x1 + share * (s.x2 - s.x1) - x, s.y1 + share * (s.y2 - s.y1) - y) < near;
};

const insideOf = (x: number, y: number) => (outline: Outline) => {
  const sign = Math.sign(area(outline));
  return outline.every(([px, py], index) => {
    const [qx, qy] = outline[(index + 1) % outline.length] ?? [0, 0];
    return sign * ((qx - px) * (y - py) - (qy - py) * (x - px)) >= 0;
  });
};

const spot = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 8 });
const box = fc.tuple(spot, spot, spot, side, side, side);
const boxes = fc.array(box, { minLength: 1, maxLength: 8 });
const anyEye = fc.oneof(
  fc.record({
    azimuth: fc.integer({ min: -72, max: 72 }).map((steps) => steps * 5),
    elevation: fc.integer({ min: -18, max: 18 }).map((steps) => steps * 5),
  }),
  fc.constantFrom<Eye>(
    ISOMETRIC,
    { azimuth: 0, elevation: 0 },
    { azimuth: 90, elevation: 0 },
    { azimuth: 0, elevation: 90 },
    { azimuth: 0, elevation: 45 },
    { azimuth: 45, elevation: 0 },
  ),
);

describe('one box', () => {
  it('shows three faces and nine edges, in isometric each shortened by the root of two thirds', () => {
    // The share is a theorem of isometric projection (Pohlke): cos of 35.26 degrees.
    const view = seen([[0, 0, 0, 30, 20, 10]], ISOMETRIC);
    expect(view.pieces[0]?.faces.map(({ axis }) => axis)).toEqual(['x', 'y', 'z']);
    expect(view.hidden).toEqual([]);
    expect(total(view.visible)).toBeCloseTo(3 * (30 + 20 + 10) * Math.sqrt(2 / 3), 9);
  });

  it('has its length across the paper from the front and its width from the right end', () => {
    const front = seen([[0, 0, 0, 30, 20, 10]], { azimuth: 0, elevation: 0 });
    expect(front.bounds).toEqual({ left: 0, right: 30, bottom: 0, top: 10 });
    const end = seen([[0, 0, 0, 30, 20, 10]], { azimuth: 90, elevation: 0 });
    expect([end.bounds.left, end.bounds.right]).toEqual([0, 20]);
    expect(end.pieces[0]?.faces.map(({ axis }) => axis)).toEqual(['x']);
  });

  it('refuses an eye that is nowhere', () => {
    expect(() => gazeOf({ azimuth: Number.NaN, elevation: 0 })).toThrow(RangeError);
    expect(() => gazeOf({ azimuth: 0, elevation: 91 })).toThrow('-90 to 90');
    expect(parallelView(sceneOf([]), ISOMETRIC)).toBeUndefined();
  });
});

describe('several boxes', () => {
  it('shows three sticks that lie over one another in a ring, which no order of painting can', () => {
    const ring: Numbers[] = [
      [0, 0, 4, 10, 2, 2],
      [4, 0, 2, 2, 10, 2],
      [6, 0, 0, 2, 2, 10],
    ];
    const view = seen(ring, ISOMETRIC);
    for (const { faces } of view.pieces) expect(faces).not.toEqual([]);
    expect(view.hidden?.length).toBeGreaterThan(0);
  });

  it('draws the line where one box comes out of another', () => {
    const post: Numbers = [0, 0, 0, 10, 10, 40];
    const rail: Numbers = [5, 2, 20, 30, 6, 6];
    const view = seen([post, rail], { azimuth: 30, elevation: 20 });
    const where = paperOf([10, 5, 26], gazeOf(view.eye));
    expect(view.visible.some(onSegment(where[0], where[1], 1e-6))).toBe(true);
    const past = paperOf([8, 5, 26], gazeOf(view.eye));
    expect(view.visible.some(onSegment(past[0], past[1], 1e-6))).toBe(false);
  });

  it('agrees with the views square on where it looks along an axis', () => {
    fc.assert(
      fc.property(boxes, (numbers) => {
        for (const [name, eye] of [
          ['front', { azimuth: 0, elevation: 0 }],
          ['end', { azimuth: 90, elevation: 0 }],
          ['plan', { azimuth: 0, elevation: 90 }],
        ] as const) {
          const square = project(sceneOf(numbers), name);
          const view = seen(numbers, eye);
          expect(total(view.visible)).toBeCloseTo(total(square?.visible ?? []), 6);
          expect(view.bounds.top).toBeCloseTo(square?.bounds.top ?? Number.NaN, 9);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('random boxes from random eyes', () => {
  it('draws an edge where no box is in front of it, and only there', () => {
    fc.assert(
      fc.property(boxes, anyEye, (numbers, eye) => {
        const scene = sceneOf(numbers);
        const view = seen(numbers, eye);
        const gaze = gazeOf(eye);
        for (const piece of scene.pieces) {
          for (const point of edgePoints(piece)) {
            const [x, y] = paperOf(point, gaze);
            const free = !covered(point, scene.pieces, eye);
            if (free) expect(view.visible.some(onSegment(x, y, 1e-3))).toBe(true);
            // A hidden spot may still lie on another edge that is seen: then it is no evidence.
            else if (!view.hidden?.some(onSegment(x, y, 1e-3))) {
              const own = ownBack(point, piece, eye);
              expect(own || view.visible.some(onSegment(x, y, 1e-3))).toBe(true);
            }
          }
        }
        for (const segment of [...view.visible, ...(view.hidden ?? [])]) {
          expect(Object.values(segment).every(Number.isFinite)).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('draws nothing where every edge is covered', () => {
    fc.assert(
      fc.property(boxes, anyEye, (numbers, eye) => {
        const { pieces } = sceneOf(numbers);
        const view = seen(numbers, eye);
        for (const s of view.visible) {
          for (const share of [0.137129, 0.512347, 0.911383]) {
            const spot = [s.x1 + share * (s.x2 - s.x1), s.y1 + share * (s.y2 - s.y1)] as const;
            expect(changesAt(spot, s, pieces, eye)).toBe(true);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('gives each spot of the paper to the piece that is met first', () => {
    fc.assert(
      fc.property(boxes, anyEye, fc.double({ min: 0, max: 1, noNaN: true }), (numbers, eye, at) => {
        const { pieces } = sceneOf(numbers);
        const view = seen(numbers, eye);
        const { left, right, bottom, top } = view.bounds;
        for (let step = 0; step < 25; step++) {
          const x = left + ((step * 0.618 + at) % 1) * (right - left);
          const y = bottom + ((step * 0.382 + at * 7) % 1) * (top - bottom);
          const owners = view.pieces.filter(({ faces }) =>
            faces.some(({ outlines }) => outlines.some(insideOf(x, y))),
          );
          const met = nearest(pieces, x, y, eye);
          if (met === 'unsure') continue;
          const depth = met?.depth ?? 0;
          expect(owners.length > 0).toBe(met !== undefined);
          for (const owner of owners) {
            expect(depthOf(owner.piece, x, y, eye)).toBeCloseTo(depth, 5);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('gives only real numbers, and never more line than there are edges, of any size', () => {
    const place = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    const size = fc.oneof(
      fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
      fc.double({ min: 1, max: 100, noNaN: true }),
    );
    const loose = fc.array(fc.tuple(place, place, place, size, size, size), {
      minLength: 1,
      maxLength: 8,
    });
    const angle = fc.double({ min: -90, max: 90, noNaN: true });
    fc.assert(
      fc.property(loose, angle, angle, (numbers, azimuth, elevation) => {
        const view = seen(numbers, { azimuth, elevation });
        const numbersOf = [
          ...view.visible.flatMap((segment) => Object.values(segment)),
          ...view.pieces.flatMap(({ faces }) => faces.flatMap((f) => f.outlines.flat(2))),
        ];
        expect(numbersOf.every(Number.isFinite)).toBe(true);
        const most = numbers.reduce((sum, [, , , dx, dy, dz]) => sum + 4 * (dx + dy + dz), 0);
        expect(total(view.visible)).toBeLessThanOrEqual(most * (1 + 1e-9));
      }),
      { numRuns: 200 },
    );
  });

  it('covers as much paper whichever way round one looks', () => {
    fc.assert(
      fc.property(boxes, anyEye, (numbers, eye) => {
        const opposite = { azimuth: eye.azimuth + 180, elevation: -eye.elevation };
        const [one, other] = [seen(numbers, eye), seen(numbers, opposite)];
        expect(one.bounds.right - one.bounds.left).toBeCloseTo(
          other.bounds.right - other.bounds.left,
          6,
        );
        if (numbers.length === 1) expect(areaOf(one)).toBeCloseTo(areaOf(other), 4);
      }),
      { numRuns: 100 },
    );
  });

  it('is the same from an eye mirrored at the front when the boxes are mirrored too', () => {
    fc.assert(
      fc.property(boxes, anyEye, (numbers, eye) => {
        const mirrored = numbers.map(
          ([x, y, z, dx, dy, dz]): Numbers => [-x - dx, y, z, dx, dy, dz],
        );
        const one = seen(numbers, eye);
        const other = seen(mirrored, { azimuth: -eye.azimuth, elevation: eye.elevation });
        expect(total(other.visible)).toBeCloseTo(total(one.visible), 4);
        expect(areaOf(other)).toBeCloseTo(areaOf(one), 4);
        expect(other.bounds.left).toBeCloseTo(-one.bounds.right, 6);
      }),
      { numRuns: 100 },
    );
  });
});

/** Points a little inside the thirds of each of a box's twelve edges. */
function edgePoints({ from, to }: Box): number[][] {
  const low = [from.x, from.y, from.z];
  const high = [to.x, to.y, to.z];
  const points: number[][] = [];
  for (const axis of [0, 1, 2]) {
    for (const corner of [0, 1, 2, 3]) {
      for (const share of [0.0871, 0.4142, 0.7321, 0.9137]) {
        points.push(
          [0, 1, 2].map((k) => {
            const [a = 0, b = 0] = [low[k], high[k]];
            if (k === axis) return a + share * (b - a);
            const turn = k === (axis + 1) % 3 ? corner & 1 : corner & 2;
            return turn === 0 ? a : b;
          }),
        );
      }
    }
  }
  return points;
}

/** Whether the box itself lies in front of a point of its own edge. */
const ownBack = (point: readonly number[], piece: Piece, eye: Eye): boolean =>
  covered(point, [piece], eye) || !facesEye(point, piece, eye);

function facesEye(point: readonly number[], { from, to }: Piece, eye: Eye): boolean {
  const { toEye } = gazeOf(eye);
  return (['x', 'y', 'z'] as const).some((axis, index) => {
    const step = toEye[index] ?? 0;
    if (step === 0) return false;
    return Math.abs((point[index] ?? 0) - (step > 0 ? to[axis] : from[axis])) < 1e-9;
  });
}

function pointAt(x: number, y: number, eye: Eye): number[] {
  const { right, up } = gazeOf(eye);
  return [0, 1, 2].map((axis) => x * (right[axis] ?? 0) + y * (up[axis] ?? 0));
}

function depthOf(piece: Piece, x: number, y: number, eye: Eye): number {
  return passes(piece, pointAt(x, y, eye), eye)?.[1] ?? Number.NaN;
}

/** The piece met first from the eye at a spot; unsure on the border of any. */
function nearest(pieces: readonly Piece[], x: number, y: number, eye: Eye) {
  const hits = new Set<number>();
  for (const [dx, dy] of [
    [1, 1],
    [1, -1],
    [-1, 1],
    [-1, -1],
  ] as const) {
    const near = pieces.filter((p) => passes(p, pointAt(x + dx * 1e-4, y + dy * 1e-4, eye), eye));
    hits.add(near.reduce((sum, p) => sum + 2 ** pieces.indexOf(p), 0));
  }
  if (hits.size > 1) return 'unsure';
  const depths = pieces.map((p) => depthOf(p, x, y, eye)).filter(Number.isFinite);
  return depths.length === 0 ? undefined : { depth: Math.max(...depths) };
}

/** Whether what is seen differs, in depth or in the face that is met, between a line's two sides. */
function changesAt(
  [x, y]: readonly [number, number],
  line: Segment,
  pieces: readonly Piece[],
  eye: Eye,
): boolean {
  const long = length(line);
  const off = 2e-5;
  const [nx, ny] = [(-(line.y2 - line.y1) / long) * off, ((line.x2 - line.x1) / long) * off];
  const first = meeting(pieces, x + nx, y + ny, eye);
  const second = meeting(pieces, x - nx, y - ny, eye);
  return [...first].some((id) => !second.has(id)) || [...second].some((id) => !first.has(id));
}

/** The piece and the face met first at a spot, all of them where several are equally near. */
function meeting(pieces: readonly Piece[], x: number, y: number, eye: Eye): Set<string> {
  const start = pointAt(x, y, eye);
  const { toEye } = gazeOf(eye);
  const best = Math.max(...pieces.map((p) => passes(p, start, eye)?.[1] ?? -Infinity));
  const met = new Set<string>();
  if (best === -Infinity) return met;
  for (const [index, piece] of pieces.entries()) {
    const depth = passes(piece, start, eye)?.[1] ?? -Infinity;
    if (best - depth > 1e-6) continue;
    for (const [k, axis] of (['x', 'y', 'z'] as const).entries()) {
      const step = toEye[k] ?? 0;
      if (step === 0) continue;
      const there = (start[k] ?? 0) + depth * step;
      const face = step > 0 ? piece.to[axis] : piece.from[axis];
      if (Math.abs(there - face) < 1e-6) met.add(`${index} ${axis}`);
    }
  }
  return met;
}
