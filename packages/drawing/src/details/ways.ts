import type { Stand } from '@kerfbook/functions/joints';
import type { Triple } from '@kerfbook/solids';

export const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** So many times a way; no negative zeros. */
export const along = (way: Triple, by: number): Triple => [
  way[0] * by + 0,
  way[1] * by + 0,
  way[2] * by + 0,
];

export const minus = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** A way of length 1; undefined where it is nearly nothing. */
export function unitOf(way: Triple): Triple | undefined {
  const long = Math.hypot(...way);
  return long < 1e-9 ? undefined : along(way, 1 / long);
}

/** Where one of a piece's own axes points in the room. */
export const axisWay = ({ placement: { axes } }: Stand, axis: 0 | 1 | 2): Triple => axes[axis];
