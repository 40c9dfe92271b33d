import type { Gaze, Triple } from './eye.ts';
import { across, at, bandsOf, inFrontOf, others, replaced, type Solid } from './solid.ts';

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
  for (const solid of solids) {
    const nearer = inFrontOf(solid, axis, plane, gaze);
    if (nearer === undefined) continue;
    const halves = shadowOn(nearer, axis, plane, gaze);
    pieces = pieces.flatMap((piece) => without(piece, halves));
    if (pieces.length === 0) return [];
  }
  return pieces;
}

/** The shadow a box throws on a plane along the line of sight, as the sides of a hexagon. */
function shadowOn(solid: Solid, axis: number, plane: number, gaze: Gaze): Half[] {
  const bands = bandsOf(solid, gaze);
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
  if (far.every((d) => d <= SLIVER)) return far.some((d) => d < -SLIVER) ? outline : undefined;
  if (far.every((d) => d >= -SLIVER)) return undefined;
  const kept: (readonly [number, number])[] = [];
  for (const [index, point] of outline.entries()) {
    const next = outline[(index + 1) % outline.length] ?? point;
    const here = far[index] ?? 0;
    const there = far[(index + 1) % outline.length] ?? 0;
    if (here <= 0) kept.push(point);
    if ((here < 0 && there > 0) || (here > 0 && there < 0)) {
      const share = here / (here - there);
      kept.push([point[0] + share * (next[0] - point[0]), point[1] + share * (next[1] - point[1])]);
    }
  }
  return kept.length < 3 ? undefined : kept;
}
