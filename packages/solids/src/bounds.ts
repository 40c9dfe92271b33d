import type { Convex, Solid, Triple } from './types.ts';

/** The upright box around something, mm. */
export interface Bounds {
  /** Its corner with the lowest coordinates. */
  readonly low: Triple;
  /** Its corner with the highest coordinates. */
  readonly high: Triple;
}

const known = new WeakMap<object, Bounds>();

/** The upright box around a body or a piece; remembered, as it is asked often of things that never change. */
export function boundsOf(thing: Convex | Solid): Bounds {
  const before = known.get(thing);
  if (before !== undefined) return before;
  const bounds = around(thing.facets.flatMap(({ points }) => points));
  known.set(thing, bounds);
  return bounds;
}

/** The upright box around points. */
export function around(points: readonly Triple[]): Bounds {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const point of points) {
    for (let axis = 0; axis < 3; axis++) {
      const value = point[axis]!;
      if (value < low[axis]!) low[axis] = value;
      if (value > high[axis]!) high[axis] = value;
    }
  }
  return { low, high };
}

/** Whether two boxes share more than a face, or come nearer than `gap` where it is negative. */
export function boundsMeet(a: Bounds, b: Bounds, gap = 0): boolean {
  for (let axis = 0; axis < 3; axis++) {
    if (a.low[axis]! >= b.high[axis]! - gap || b.low[axis]! >= a.high[axis]! - gap) return false;
  }
  return true;
}
