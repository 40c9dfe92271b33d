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
  const bounds = aroundAll(thing.facets);
  known.set(thing, bounds);
  return bounds;
}

/** The upright box around points. */
export const around = (points: readonly Triple[]): Bounds => aroundAll([{ points }]);

function aroundAll(facets: readonly { readonly points: readonly Triple[] }[]): Bounds {
  let [x0, y0, z0] = [Infinity, Infinity, Infinity];
  let [x1, y1, z1] = [-Infinity, -Infinity, -Infinity];
  for (const { points } of facets) {
    for (const point of points) {
      const [x, y, z] = [point[0], point[1], point[2]];
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      if (y < y0) y0 = y;
      if (y > y1) y1 = y;
      if (z < z0) z0 = z;
      if (z > z1) z1 = z;
    }
  }
  return { low: [x0, y0, z0], high: [x1, y1, z1] };
}

/** Whether two boxes share more than a face, or come nearer than `gap` where it is negative. */
export function boundsMeet(a: Bounds, b: Bounds, gap = 0): boolean {
  for (let axis = 0; axis < 3; axis++) {
    if (a.low[axis]! >= b.high[axis]! - gap || b.low[axis]! >= a.high[axis]! - gap) return false;
  }
  return true;
}

/** Whether all of a box lies inside a plane, so that the plane cuts nothing of what is in the box. */
export function isWithin({ low, high }: Bounds, normal: Triple, offset: number): boolean {
  const [a, b, c] = normal;
  return (
    a * (a > 0 ? high[0] : low[0]) +
      b * (b > 0 ? high[1] : low[1]) +
      c * (c > 0 ? high[2] : low[2]) <=
    offset
  );
}
