import type { Gaze, Triple } from './eye.ts';
import type { Box } from './scene.ts';

/** A box by its corners as numbers, so that axes can be counted instead of named; mm. */
export interface Solid {
  readonly low: Triple;
  readonly high: Triple;
}

/** Whole nanometres: faces that meet are equal however their positions were worked out. */
const PER_MM = 1e6;
const snap = (mm: number): number => Math.round(mm * PER_MM) / PER_MM;

export const solidOf = ({ from, to }: Box): Solid => ({
  low: [snap(from.x), snap(from.y), snap(from.z)],
  high: [snap(to.x), snap(to.y), snap(to.z)],
});

export const at = (triple: Triple, axis: number): number => triple[axis] ?? 0;

/**
 * The outline of a box seen from an eye is a hexagon: three pairs of parallel sides, each pair along
 * one axis as the paper shows it. For the pair along axis k, with i and j the next two and e the
 * direction to the eye, a point p lies between the sides where `ej·pi - ei·pj` lies in the band. As
 * right × up on the paper is that direction, nothing has to be projected to know.
 */
export type Bands = readonly [from: number, to: number][];

/** Nearer to an outline than this is on it, mm. */
export const ON_OUTLINE = 1e-6;

/** The next two axes, in turning order. */
export const others = (axis: number): readonly [number, number] => NEXT[axis] ?? NEXT[0];

const NEXT = [
  [1, 2],
  [2, 0],
  [0, 1],
] as const;

export const bandsOf = (solid: Solid, { toEye: [ex, ey, ez] }: Gaze): Bands => {
  const [lx, ly, lz] = solid.low;
  const [hx, hy, hz] = solid.high;
  return [
    [least(ez, ly, hy) + least(-ey, lz, hz), most(ez, ly, hy) + most(-ey, lz, hz)],
    [least(ex, lz, hz) + least(-ez, lx, hx), most(ex, lz, hz) + most(-ez, lx, hx)],
    [least(ey, lx, hx) + least(-ex, ly, hy), most(ey, lx, hx) + most(-ex, ly, hy)],
  ];
};

/** The smallest and the largest of `factor·t` for t from low to high. */
export const least = (factor: number, low: number, high: number): number =>
  factor > 0 ? factor * low : factor * high;
export const most = (factor: number, low: number, high: number): number =>
  factor > 0 ? factor * high : factor * low;

/** Looked at along an axis, that axis is a point on the paper and has no sides. */
const seenEndOn = (axis: number, { toEye }: Gaze): boolean =>
  others(axis).every((other) => at(toEye, other) === 0);

/** Whether two outlines share paper: two such hexagons are apart only across one of their sides. */
export function bandsMeet(a: Bands, b: Bands, gaze: Gaze): boolean {
  for (let axis = 0; axis < 3; axis++) {
    const [one, other] = [a[axis], b[axis]];
    if (one === undefined || other === undefined) continue;
    if (one[0] < other[1] - ON_OUTLINE && other[0] < one[1] - ON_OUTLINE) continue;
    if (!seenEndOn(axis, gaze)) return false;
  }
  return true;
}

/** What of a box lies on the eye's side of a plane square to an axis; undefined when nothing does. */
export function inFrontOf(
  solid: Solid,
  axis: number,
  plane: number,
  { toEye }: Gaze,
): Solid | undefined {
  const side = at(toEye, axis);
  if (side === 0) return solid;
  const [low, high] = [at(solid.low, axis), at(solid.high, axis)];
  if (side > 0 ? high <= plane : low >= plane) return undefined;
  return side > 0
    ? { low: replaced(solid.low, axis, Math.max(low, plane)), high: solid.high }
    : { low: solid.low, high: replaced(solid.high, axis, Math.min(high, plane)) };
}

export function replaced([x, y, z]: Triple, axis: number, value: number): Triple {
  if (axis === 0) return [value, y, z];
  return axis === 1 ? [x, value, z] : [x, y, value];
}

/** The coordinate of the face that looks towards the eye; either one when both are seen edge on. */
export const frontOf = (solid: Solid, axis: number, { toEye }: Gaze): number =>
  at(at(toEye, axis) >= 0 ? solid.high : solid.low, axis);

const backOf = (solid: Solid, axis: number, { toEye }: Gaze): number =>
  at(at(toEye, axis) >= 0 ? solid.low : solid.high, axis);

/** Whether a box could hide anything of another: some of it has to be nearer along every axis. */
export function reachesBefore(one: Solid, other: Solid, gaze: Gaze): boolean {
  for (let axis = 0; axis < 3; axis++) {
    const side = at(gaze.toEye, axis);
    if (side === 0) continue;
    if (side * frontOf(one, axis, gaze) <= side * backOf(other, axis, gaze)) return false;
  }
  return true;
}
