import type { Triple } from './types.ts';

/** The three axes of a piece's own frame: along its length, across its width, through its thickness. */
export const X: Triple = [1, 0, 0];
export const Y: Triple = [0, 1, 0];
export const Z: Triple = [0, 0, 1];

/** How far one goes along the other, where that has the length 1. */
export const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Their sum. */
export const plus = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

export const minus = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** As many times as long. */
export const times = (a: Triple, by: number): Triple => [a[0] * by, a[1] * by, a[2] * by];

/** Square to both, as long as the face between them is large. */
export const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export const lengthOf = (a: Triple): number => Math.sqrt(dot(a, a));

export const unit = (a: Triple): Triple => times(a, 1 / lengthOf(a));

/** What is opposite, without the negative zeros that would make equal numbers look different. */
export const opposite = (a: Triple): Triple => [0 - a[0], 0 - a[1], 0 - a[2]];

export const samePoint = (a: Triple, b: Triple): boolean =>
  a === b || (a[0] === b[0] && a[1] === b[1] && a[2] === b[2]);

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;
export const degrees = (angle: number): number => (angle * 180) / Math.PI;

/**
 * Sine and cosine of an angle in degrees, exact for quarter turns, so that parts that are turned square
 * meet as exactly as parts that are not turned at all.
 */
export function turned(angle: number): readonly [sine: number, cosine: number] {
  const quarter = angle / 90;
  if (Number.isInteger(quarter)) {
    const turn = ((quarter % 4) + 4) % 4;
    return [turn === 1 ? 1 : turn === 3 ? -1 : 0, turn === 0 ? 1 : turn === 2 ? -1 : 0];
  }
  return [Math.sin(radians(angle)), Math.cos(radians(angle))];
}
