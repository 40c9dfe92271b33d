import type { Cut, Triple } from '@kerfbook/solids';
import { TOLERANCE } from '../shaped/tolerance.ts';
import {
  type AxisIndex,
  axesInFace,
  type Face,
  highOf,
  lowOf,
  type Span,
  sideOf,
} from './stand.ts';

/** So many at equal distances between the first and the last; one alone is in the middle. */
export const spread = (low: number, long: number, count: number, fromEnd: number): number[] =>
  count === 1
    ? [low + long / 2]
    : Array.from(
        { length: count },
        (_, i) => low + fromEnd + (i * (long - 2 * fromEnd)) / (count - 1),
      );

/**
 * How far the flat facets that a drilled hole is told by may lie from its wall, mm: a drill cuts no truer. Common
 * practice, no source.
 */
export const HOLE_TOLERANCE = 0.2;

/** A round hole square to a face, around the middle of a box. */
export function holeCut(box: Span, face: Face, diameter: number, depth: number, size: Triple): Cut {
  const { axis } = sideOf(face);
  const [first, second] = axesInFace(axis);
  const middle = (one: AxisIndex): number => (lowOf(box, one) + highOf(box, one)) / 2;
  const isThrough = depth >= (size[axis] ?? 0) - TOLERANCE;
  return {
    kind: 'hole',
    face,
    at: [middle(first), middle(second)],
    diameter,
    tolerance: HOLE_TOLERANCE,
    ...(isThrough ? {} : { depth }),
  };
}
