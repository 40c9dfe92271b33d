import type { Gaze } from './eye.ts';
import {
  at,
  type Bands,
  bandsMeet,
  bandsOf,
  inFrontOf,
  others,
  replaced,
  type Solid,
} from './solid.ts';

/** A convex outline in a plane, its corners in turning order, mm. */
export type Outline = readonly (readonly [number, number])[];

/** `a·p + b·q <= c`, for a point p, q of the plane. */
type Half = readonly [a: number, b: number, c: number];

/** Slivers thinner than this are rounding, mm. */
const SLIVER = 1e-6;

/**
 * What can be seen of a face that looks towards the eye, as convex pieces in the plane of the face
 * (its two axes in turning order). Boxes in front of it are taken away one by one, exactly.
 */
export function visibleFace(
  { low, high }: Solid,
  axis: number,
  plane: number,
  solids: readonly Solid[],
  gaze: Gaze,
): Outline[] {
  const [i, j] = others(axis);
  let pieces: Outline[] = [
    [
      [at(low, i), at(low, j)],
      [at(high, i), at(low, j)],
      [at(high, i), at(high, j)],
      [at(low, i), at(high, j)],
    ],
  ];
  const face = bandsOf(
    { low: replaced(low, axis, plane), high: replaced(high, axis, plane) },
    gaze,
  );
  for (const solid of solids) {
    const nearer = inFrontOf(solid, axis, plane, gaze);
    if (nearer === undefined) continue;
    const bands = bandsOf(nearer, gaze);
    if (!bandsMeet(bands, face, gaze)) continue;
    const halves = shadowOf(bands, axis, plane, gaze);
    pieces = pieces.flatMap((piece) => without(piece, halves));
    if (pieces.length === 0) return [];
  }
  return pieces;
}

/**
 * The shadow a box throws on a plane along the line of sight, as the sides of a hexagon: two pairs
 * along the axes of the plane, and one pair along the axis square to it, as the paper shows that.
 */
function shadowOf(bands: Bands, axis: number, plane: number, { toEye }: Gaze): Half[] {
  const [i, j] = others(axis);
  const [ei, ej, ek] = [at(toEye, i), at(toEye, j), at(toEye, axis)];
  const [lowP, highP] = between(bands[j], ei * plane, -ek);
  const [lowQ, highQ] = between(bands[i], -ej * plane, ek);
  const halves: Half[] = [
    [1, 0, highP],
    [-1, 0, -lowP],
    [0, 1, highQ],
    [0, -1, -lowQ],
  ];
  const size = Math.hypot(ei, ej);
  if (size > 0) {
    const [from, to] = bands[axis] ?? [0, 0];
    const [a, b] = [ej / size, -ei / size];
    halves.push([a, b, to / size], [-a, -b, -from / size]);
  }
  return halves;
}

/** For which t does `value + rate·t` lie in a band? */
function between(
  [from, to]: readonly [number, number] = [0, 0],
  value: number,
  rate: number,
): readonly [number, number] {
  const [a, b] = [(from - value) / rate, (to - value) / rate];
  return a < b ? [a, b] : [b, a];
}

/** A convex piece less a convex hole: what lies outside each side of the hole in turn. */
function without(piece: Outline, halves: readonly Half[]): Outline[] {
  if (!reaches(piece, halves)) return [piece];
  const left: Outline[] = [];
  let rest = piece;
  for (const half of halves) {
    const [a, b, c] = half;
    const outside = cut(rest, -a, -b, -c);
    if (outside === undefined) continue;
    left.push(outside);
    const inside = cut(rest, a, b, c);
    if (inside === undefined) return [piece];
    rest = inside;
  }
  return left;
}

/** False only when a side of the hole has the whole piece outside: most pairs, cheaply. */
function reaches(piece: Outline, halves: readonly Half[]): boolean {
  for (const [a, b, c] of halves) if (!touches(piece, a, b, c)) return false;
  return true;
}

function touches(piece: Outline, a: number, b: number, c: number): boolean {
  for (const [p, q] of piece) if (a * p + b * q < c - SLIVER) return true;
  return false;
}

/** The part of a convex outline where `a·p + b·q <= c`; undefined when it is no more than a sliver. */
function cut(outline: Outline, a: number, b: number, c: number): Outline | undefined {
  if (!touches(outline, a, b, c)) return undefined;
  if (!touches(outline, -a, -b, -c)) return outline;
  const kept: (readonly [number, number])[] = [];
  let before = outline.at(-1) ?? [0, 0];
  let was = a * before[0] + b * before[1] - c;
  for (const point of outline) {
    const is = a * point[0] + b * point[1] - c;
    if ((was < 0 && is > 0) || (was > 0 && is < 0)) {
      const share = was / (was - is);
      kept.push([
        before[0] + share * (point[0] - before[0]),
        before[1] + share * (point[1] - before[1]),
      ]);
    }
    if (is <= 0) kept.push(point);
    before = point;
    was = is;
  }
  return kept.length < 3 ? undefined : kept;
}
