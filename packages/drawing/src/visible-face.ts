import type { Gaze, Triple } from './eye.ts';
import {
  across,
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

/** The shadow a box throws on a plane along the line of sight, as the sides of a hexagon. */
function shadowOf(bands: Bands, axis: number, plane: number, gaze: Gaze): Half[] {
  const [i, j] = others(axis);
  const unit = (side: number): Triple => replaced([0, 0, 0], side, 1);
  const base = replaced([0, 0, 0], axis, plane);
  return bands.flatMap(([from, to], side): Half[] => {
    const value = across(side, base, gaze);
    const a = across(side, unit(i), gaze);
    const b = across(side, unit(j), gaze);
    const size = Math.hypot(a, b);
    if (size === 0) return [];
    return [
      [a / size, b / size, (to - value) / size],
      [-a / size, -b / size, (value - from) / size],
    ];
  });
}

/** A convex piece less a convex hole: what lies outside each side of the hole in turn. */
function without(piece: Outline, halves: readonly Half[]): Outline[] {
  if (!reaches(piece, halves)) return [piece];
  const left: Outline[] = [];
  let rest = piece;
  for (const half of halves) {
    const outside = cut(rest, [-half[0], -half[1], -half[2]]);
    if (outside !== undefined) left.push(outside);
    const inside = cut(rest, half);
    if (inside === undefined) return [piece];
    rest = inside;
  }
  return left;
}

/** False only when a side of the hole has the whole piece outside: most pairs, cheaply. */
const reaches = (piece: Outline, halves: readonly Half[]): boolean =>
  halves.every(([a, b, c]) => piece.some(([p, q]) => a * p + b * q < c - SLIVER));

/** The part of a convex outline within a half plane; undefined when it is no more than a sliver. */
function cut(outline: Outline, [a, b, c]: Half): Outline | undefined {
  const far = outline.map(([p, q]) => a * p + b * q - c);
  const most = Math.max(...far);
  const least = Math.min(...far);
  if (least >= -SLIVER) return undefined;
  if (most <= SLIVER) return outline;
  const kept: (readonly [number, number])[] = [];
  let before = outline.at(-1) ?? [0, 0];
  let was = far.at(-1) ?? 0;
  for (const [index, point] of outline.entries()) {
    const is = far[index] ?? 0;
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
