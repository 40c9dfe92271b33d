import type { Convex, Edge, Facet, Solid, Triple } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Eye, type Gaze, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import {
  box,
  dot,
  leg,
  moved,
  type Placing,
  plus,
  pocketed,
  round,
  turned,
} from '../testing/solids.ts';
import type { Segment } from '../views.ts';
import { prepareSolids } from './prepared.ts';
import { type SolidsView, viewSolids } from './solids-view.ts';

// What is to be seen is found by following single lines of sight through the half-spaces of all
// cells, in space: nothing of the cutting of edges and facets on the paper is used.

/** Nearer to a surface or an outline than this a line of sight is no evidence, mm. */
const BAND = 1e-4;
/** So much larger all round, cells that touch leave no gap for a line of sight, mm. */
const CLOSED = 1e-8;
/** Nearer to a line on the paper than this is on it, mm. */
const NEAR = 2e-3;

const angle = fc.integer({ min: -179, max: 180 });
const place = fc.integer({ min: -40, max: 40 });
const size = fc.integer({ min: 4, max: 50 });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const upright = fc.constant<Triple>([0, 0, 0]);
const placing = fc
  .tuple(fc.oneof(upright, fc.tuple(angle, angle, angle)), fc.tuple(place, place, place))
  .map(([turn, by]) => turned(turn as Triple, by as Triple));
const boxes = fc
  .tuple(size, size, size, placing)
  .map(([dx, dy, dz, p]) => box([0, 0, 0, dx, dy, dz], p));
const legs = fc
  .tuple(
    fc.integer({ min: 6, max: 20 }),
    share,
    fc.integer({ min: 30, max: 90 }),
    place,
    place,
    placing,
  )
  .map(([width, foot, height, sx, sy, p]) =>
    leg(width, 2 + foot * (width - 2), height, [sx / 4, sy / 4], p),
  );
const rounds = fc
  .tuple(fc.integer({ min: 3, max: 24 }), fc.integer({ min: 2, max: 15 }), size, placing, share)
  .map(([sides, radius, length, p, thinner]) =>
    round(sides, radius, length, p, 0.3 + 0.7 * thinner),
  );
const pockets = fc
  .tuple(size, size, size, fc.tuple(share, share, share, share, share), placing)
  .map(([dx, dy, dz, [px, pz, w, h, depth], p]) => {
    const at = [0.1 + 0.5 * px, 0.1 + 0.5 * pz] as const;
    const wide = [0.1 + (0.8 - at[0]) * w, 0.1 + (0.8 - at[1]) * h] as const;
    const pocket = [
      at[0] * dx,
      at[1] * dz,
      wide[0] * dx,
      wide[1] * dz,
      (0.1 + 0.8 * depth) * dy,
    ] as const;
    return pocketed([dx, dy, dz], pocket, p);
  });
/** Spread evenly; most of the shares above are next to nothing. */
const part = fc.integer({ min: 0, max: 997 }).map((parts) => parts / 997);
/** Upright stock with a mortise, and a rail whose tenon fills that; their sizes come from different ends, as in a table. */
const joints = fc
  .tuple(size, size, size, fc.tuple(part, part, part, part, part), part)
  .map(([dx, dy, dz, [px, pz, w, h, deep], shift]) => {
    const [x, z] = [(0.1 + 0.5 * px) * dx, (0.1 + 0.5 * pz) * dz];
    const [wide, high] = [(0.1 + 0.2 * w) * dx, (0.1 + 0.2 * h) * dz];
    const depth = (0.1 + 0.8 * deep) * dy;
    const at: Placing = moved([shift, shift, shift]);
    const top = shift + z + high;
    return [
      pocketed([dx, dy, dz], [x, z, wide, high, depth], at),
      box([shift + x, shift - 30, top - high, wide, 30 + depth, high]),
    ];
  });
const squareOn = fc.constantFrom<Eye>(
  { azimuth: 0, elevation: 0 },
  { azimuth: 90, elevation: 0 },
  { azimuth: -90, elevation: 0 },
  { azimuth: 180, elevation: 0 },
  { azimuth: 0, elevation: 90 },
);
const scenes = fc.array(fc.oneof(boxes, legs, rounds, pockets), { minLength: 1, maxLength: 6 });
const eyes = fc.oneof(
  fc.record({ azimuth: angle, elevation: fc.integer({ min: -90, max: 90 }) }),
  fc.constantFrom<Eye>(
    { azimuth: 0, elevation: 0 },
    { azimuth: 90, elevation: 0 },
    { azimuth: 0, elevation: 90 },
    { azimuth: 0, elevation: -90 },
    { azimuth: 45, elevation: 0 },
  ),
);

function seen(solids: readonly Solid[], eye: Eye, facets = false): SolidsView {
  const view = viewSolids(prepareSolids(solids), eye, { facets });
  if (view === undefined) throw new Error('a scene with solids has a view');
  return view;
}

/** Where a line of sight from a point is within a cell that is larger all round by `more`. */
function passes(
  { facets }: Convex,
  point: Triple,
  { toEye }: Gaze,
  more: number,
): readonly [number, number] | undefined {
  let [enter, leave] = [-Infinity, Infinity];
  for (const { normal, offset } of facets) {
    const room = offset + more - dot(normal, point);
    const rate = dot(normal, toEye);
    if (Math.abs(rate) < 1e-9) {
      if (room <= 0) return undefined;
    } else if (rate > 0) leave = Math.min(leave, room / rate);
    else enter = Math.max(enter, room / rate);
  }
  return leave > enter ? [enter, leave] : undefined;
}

/** Whether a point lies on a side of a cell that looks towards the eye: then that cell is not before it. */
const isOnFront = ({ facets }: Convex, point: Triple, { toEye }: Gaze): boolean =>
  facets.some(
    ({ normal, offset }) =>
      dot(normal, toEye) > 1e-6 && Math.abs(dot(normal, point) - offset) < 1e-9,
  );

/** Whether a point of a surface can be seen; unsure where a line of sight runs close past anything. */
function visibility(
  point: Triple,
  solids: readonly Solid[],
  gaze: Gaze,
): 'seen' | 'hidden' | 'unsure' {
  const before = solids.map(({ cells }) => cells.filter((c) => !isOnFront(c, point, gaze)));
  const covers = (cells: readonly Convex[], at: Triple, more: number): boolean =>
    cells.some((cell) => (passes(cell, at, gaze, more)?.[1] ?? -1) > BAND);
  // To the sides of a line that runs upright, across or anyhow but these ways.
  const around = [
    [3, 4],
    [4, -3],
    [-3, -4],
    [-4, 3],
  ].map(([x = 0, y = 0]) => plus(plus(point, gaze.right, x * BAND), gaze.up, y * BAND));
  // Between two cells of one solid no line of sight goes through, though it is in neither.
  const isCovered = before.some(
    (cells) =>
      covers(cells, point, -BAND) || around.every((beside) => covers(cells, beside, -BAND)),
  );
  if (isCovered) return 'hidden';
  return before.some((cells) => covers(cells, point, BAND)) ? 'unsure' : 'seen';
}

const length = (s: Segment): number => Math.hypot(s.x2 - s.x1, s.y2 - s.y1);

const drawnAt = (segments: readonly Segment[], x: number, y: number): boolean =>
  segments.some((s) => {
    const along = ((x - s.x1) * (s.x2 - s.x1) + (y - s.y1) * (s.y2 - s.y1)) / length(s) ** 2;
    const at = Math.max(0, Math.min(1, along));
    return Math.hypot(s.x1 + at * (s.x2 - s.x1) - x, s.y1 + at * (s.y2 - s.y1) - y) < NEAR;
  });

/** Whether an edge is drawn, from its two normals alone; unsure when a side is seen almost edge on. */
function isDrawn({ normals, smooth }: Edge, { toEye }: Gaze): boolean | 'unsure' {
  const [one, other] = normals.map((normal) => dot(normal, toEye)) as [number, number];
  if (Math.abs(one) < 1e-6 || Math.abs(other) < 1e-6) return 'unsure';
  return smooth ? one > 0 !== other > 0 : one > 0 || other > 0;
}

/** At most forty of a list. */
const someOf = <T>(list: readonly T[], from: number): T[] => {
  const step = Math.max(1, Math.floor(list.length / 40));
  return list.filter((_, index) => index % step === Math.floor(from * step));
};

/** Whether a line on the paper through a place is that of an edge which is seen there, or may be. */
const isOverEdge = (x: number, y: number, solids: readonly Solid[], gaze: Gaze): boolean =>
  solids.some(({ edges }) =>
    edges.some(({ from, to }) => {
      const [x1, y1] = paperOf(from, gaze);
      const [x2, y2] = paperOf(to, gaze);
      const [dx, dy] = [x2 - x1, y2 - y1];
      const along = ((x - x1) * dx + (y - y1) * dy) / (dx * dx + dy * dy);
      if (!(along >= -NEAR && along <= 1 + NEAR)) return false;
      if (Math.hypot(x1 + along * dx - x, y1 + along * dy - y) > 2 * NEAR) return false;
      const point = plus(from, plus(to, from, -1), Math.max(0, Math.min(1, along)));
      return visibility(point, solids, gaze) !== 'hidden';
    }),
  );

describe('lines', () => {
  it('are seen where nothing is before an edge, and hidden where something is', () => {
    let [seenSpots, hiddenSpots] = [0, 0];
    fc.assert(
      fc.property(scenes, eyes, share, (solids, eye, at) => {
        const view = seen(solids, eye);
        const gaze = gazeOf(eye);
        const wrong: unknown[] = [];
        for (const edge of someOf(
          solids.flatMap(({ edges }) => edges),
          at,
        )) {
          if (isDrawn(edge, gaze) !== true) continue;
          const point = plus(edge.from, plus(edge.to, edge.from, -1), 0.02 + 0.96 * at);
          const [x, y] = paperOf(point, gaze);
          const is = visibility(point, solids, gaze);
          if (is === 'unsure') continue;
          if (is === 'seen') seenSpots++;
          else hiddenSpots++;
          // Where a hidden spot falls on a line that is seen, that one is drawn.
          const drawn =
            drawnAt(view.visible, x, y) || (is === 'hidden' && drawnAt(view.hidden, x, y));
          if (!drawn) wrong.push({ edge, point, is });
        }
        expect(wrong).toEqual([]);
      }),
      { numRuns: 1000, seed: 1 },
    );
    expect(Math.min(seenSpots, hiddenSpots)).toBeGreaterThan(4000);
  });

  it('are hidden in a mortise, whose sides go on as borders between the cells around it', () => {
    let spots = 0;
    fc.assert(
      fc.property(joints, squareOn, part, (solids, eye, at) => {
        const gaze = gazeOf(eye);
        const { visible } = seen(solids, eye);
        const wrong: unknown[] = [];
        for (const edge of solids.flatMap(({ edges }) => edges)) {
          const point = plus(edge.from, plus(edge.to, edge.from, -1), 0.02 + 0.96 * at);
          const [x, y] = paperOf(point, gaze);
          // Where an edge that is seen runs over it, a line is right all the same.
          if (visibility(point, solids, gaze) !== 'hidden' || isOverEdge(x, y, solids, gaze))
            continue;
          spots++;
          if (drawnAt(visible, x, y)) wrong.push({ edge, point });
        }
        expect(wrong).toEqual([]);
      }),
      { numRuns: 400, seed: 5 },
    );
    expect(spots).toBeGreaterThan(1600);
  });

  it('are seen only where what is met first differs from one side to the other', () => {
    let spots = 0;
    fc.assert(
      fc.property(scenes, eyes, (solids, eye) => {
        const view = seen(solids, eye);
        const wrong: Segment[] = [];
        for (const s of someOf(view.visible, 0.5)) {
          if (length(s) < 0.05) continue;
          for (const part of [0.137129, 0.712347]) {
            const change = changeAt(s, part, solids, eye);
            if (change === 'unsure') continue;
            spots++;
            if (!change) wrong.push(s);
          }
        }
        expect(wrong).toEqual([]);
      }),
      { numRuns: 1000, seed: 2 },
    );
    expect(spots).toBeGreaterThan(10_000);
  });
});

describe('outlines and creases', () => {
  it('are drawn wherever what is met first changes', () => {
    let spots = 0;
    fc.assert(
      fc.property(scenes, eyes, share, (solids, eye, at) => {
        const view = seen(solids, eye);
        const gaze = gazeOf(eye);
        const { left, right, bottom, top } = view.bounds;
        for (let step = 0; step < 12; step++) {
          const spot = (k: number): readonly [number, number] => [
            left + ((k * 0.618 + at) % 1) * (right - left),
            bottom + ((k * 0.382 + at * 7) % 1) * (top - bottom),
          ];
          const border = borderBetween(spot(step), spot(step + 5), solids, gaze);
          if (border === undefined) continue;
          spots++;
          expect(drawnAt(view.visible, ...border)).toBe(true);
        }
      }),
      { numRuns: 1000, seed: 4 },
    );
    expect(spots).toBeGreaterThan(3000);
  });
});

/** A spot between two others at which what is met first changes, where a line has to be. */
function borderBetween(
  from: readonly [number, number],
  to: readonly [number, number],
  solids: readonly Solid[],
  gaze: Gaze,
): readonly [number, number] | undefined {
  let [a, b] = [from, to];
  const met = ([x, y]: readonly [number, number]): Met | undefined => metAt(x, y, solids, gaze);
  const isOne = (p: Met | undefined, q: Met | undefined): boolean =>
    p?.facet.normal === q?.facet.normal;
  if (isOne(met(a), met(b))) return undefined;
  for (let step = 0; step < 24; step++) {
    const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
    if (isOne(met(middle), met(a))) a = middle;
    else b = middle;
  }
  // A little to both sides: where cells of one solid touch there is no border.
  const reach = 1e-5 / Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [reach * (to[0] - from[0]), reach * (to[1] - from[1])];
  const [one, other] = [met([a[0] - dx, a[1] - dy]), met([b[0] + dx, b[1] + dy])];
  if (one === undefined || other === undefined) return one === other ? undefined : a;
  const flush = dot(one.facet.normal, other.facet.normal) > 1 - 1e-9;
  const steep = Math.min(...[one, other].map(({ facet }) => dot(facet.normal, gaze.toEye)));
  const level = Math.abs(one.depth - other.depth) < 1e-4 / steep;
  const smooth = one.facet.curved && other.facet.curved;
  return level && (flush || smooth) ? undefined : a;
}

interface Met {
  readonly depth: number;
  readonly facet: Facet;
}

/** The outer facet a line of sight at a spot of the paper meets first. */
function metAt(x: number, y: number, solids: readonly Solid[], gaze: Gaze): Met | undefined {
  const start = plus(plus([0, 0, 0], gaze.right, x), gaze.up, y);
  let first: Met | undefined;
  for (const cell of solids.flatMap(({ cells }) => cells)) {
    const leave = passes(cell, start, gaze, CLOSED)?.[1];
    if (leave === undefined || leave <= (first?.depth ?? -Infinity)) continue;
    const end = plus(start, gaze.toEye, leave);
    const facet = cell.facets
      .filter(({ normal }) => dot(normal, gaze.toEye) > 1e-9)
      .reduce((best, one) => (height(one, end) > height(best, end) ? one : best));
    first = { depth: leave, facet };
  }
  return first;
}

const height = ({ normal, offset }: Facet, point: Triple): number =>
  Math.abs(dot(normal, point) - offset - CLOSED) < 1e-7 ? 1 : dot(normal, point) - offset;

/** Whether something ends, begins or turns at a line. */
function changeAt(
  s: Segment,
  part: number,
  solids: readonly Solid[],
  eye: Eye,
): boolean | 'unsure' {
  const gaze = gazeOf(eye);
  const [x, y] = [s.x1 + part * (s.x2 - s.x1), s.y1 + part * (s.y2 - s.y1)];
  const off = 5e-4 / length(s);
  const [nx, ny] = [-(s.y2 - s.y1) * off, (s.x2 - s.x1) * off];
  const [one, other] = [metAt(x + nx, y + ny, solids, gaze), metAt(x - nx, y - ny, solids, gaze)];
  if (one === undefined || other === undefined) return one !== other;
  const steep = Math.min(...[one, other].map(({ facet }) => dot(facet.normal, gaze.toEye)));
  // Seen almost edge on, a surface is deeper one step aside without ending.
  if (steep < 0.05) return 'unsure';
  const turn = dot(one.facet.normal, other.facet.normal) < 1 - 1e-9;
  const smooth = one.facet.curved && one.facet.surface === other.facet.surface;
  const step = Math.abs(one.depth - other.depth) > 2e-3 / steep;
  return step || turn || (smooth && one.facet !== other.facet) || endsAt(s, part, solids, gaze);
}

/** Whether a solid ends at a line in a face that goes on in another solid: both lie in one plane there. */
function endsAt(s: Segment, part: number, solids: readonly Solid[], gaze: Gaze): boolean {
  const [x, y] = [s.x1 + part * (s.x2 - s.x1), s.y1 + part * (s.y2 - s.y1)];
  const off = 5e-4 / length(s);
  const [nx, ny] = [-(s.y2 - s.y1) * off, (s.x2 - s.x1) * off];
  return solids.some((solid) => {
    const [one, other] = [
      metAt(x + nx, y + ny, [solid], gaze),
      metAt(x - nx, y - ny, [solid], gaze),
    ];
    const depth = Math.max(
      metAt(x + nx, y + ny, solids, gaze)?.depth ?? -Infinity,
      metAt(x - nx, y - ny, solids, gaze)?.depth ?? -Infinity,
    );
    const isMet = (met: Met | undefined): boolean => met !== undefined && depth - met.depth < 0.01;
    return isMet(one) !== isMet(other);
  });
}

describe('facets', () => {
  it('have each spot of the paper that shows them, and no other', () => {
    let spots = 0;
    fc.assert(
      fc.property(scenes, eyes, share, (solids, eye, at) => {
        const view = seen(solids, eye, true);
        const gaze = gazeOf(eye);
        const { left, right, bottom, top } = view.bounds;
        for (let step = 0; step < 12; step++) {
          const x = left + ((step * 0.618 + at) % 1) * (right - left);
          const y = bottom + ((step * 0.382 + at * 7) % 1) * (top - bottom);
          const around = [
            [BAND, BAND],
            [BAND, -BAND],
            [-BAND, BAND],
            [-BAND, -BAND],
          ].map(([dx = 0, dy = 0]) => metAt(x + dx, y + dy, solids, gaze));
          const met = metAt(x, y, solids, gaze);
          if (around.some((one) => one?.facet.normal !== met?.facet.normal)) continue;
          const owners = view.facets
            .flat()
            .filter(({ outlines }) => outlines.some((outline) => isInside(outline, x, y)));
          spots++;
          expect(owners.length > 0).toBe(met !== undefined);
          if (met === undefined) continue;
          const start = plus(plus([0, 0, 0], gaze.right, x), gaze.up, y);
          for (const { facet } of owners) {
            const rate = dot(facet.normal, gaze.toEye);
            const depth = (facet.offset - dot(facet.normal, start)) / rate;
            expect(Math.abs(depth - met.depth) * rate).toBeLessThan(1e-4);
          }
        }
      }),
      { numRuns: 1000, seed: 3 },
    );
    expect(spots).toBeGreaterThan(7000);
  });
});

function isInside(outline: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let sign = 0;
  return outline.every(([px, py], index) => {
    const [qx, qy] = outline[(index + 1) % outline.length] ?? [0, 0];
    const side = Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
    if (side === 0) return true;
    if (sign === 0) sign = side;
    return side === sign;
  });
}
