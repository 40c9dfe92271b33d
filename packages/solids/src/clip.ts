import type { Convex, Facet, Triple } from './types.ts';
import { dot, opposite, samePoint } from './vectors.ts';

/**
 * Nearer to a plane than this a corner lies in it, mm. Faces that meet are equal then however their positions
 * were worked out, and no sliver thinner than this is ever made. A millionth of a millimetre is far above what
 * rounding adds up to in furniture, and far below anything that can be cut.
 */
export const SNAP = 1e-6;

/** A plane; what lies on the side away from its normal is kept. */
export interface Plane {
  readonly normal: Triple;
  readonly offset: number;
}

/** Sides of facets that lie in a plane that cuts. */
export type Rim = [from: Triple, to: Triple][];

/** Which surface a new facet belongs to. */
export interface Skin {
  readonly surface: number;
  readonly curved: boolean;
}

/** The same plane, keeping the other side. */
export const otherSide = ({ normal, offset }: Plane): Plane => ({
  normal: opposite(normal),
  offset: 0 - offset,
});

/** Where a corner is: -1 inside, 0 in the plane, 1 outside. */
export const sideOf = ({ normal, offset }: Plane, point: Triple): -1 | 0 | 1 => {
  const away = dot(normal, point) - offset;
  return away > SNAP ? 1 : away < -SNAP ? -1 : 0;
};

/**
 * Where a plane crosses from a corner inside to one outside. Always asked in this order, so that both facets
 * of an edge get the same corner to the last bit: what is closed stays closed.
 */
export function crossing({ normal, offset }: Plane, inside: Triple, outside: Triple): Triple {
  const from = dot(normal, inside) - offset;
  const to = dot(normal, outside) - offset;
  const share = from / (from - to);
  return [
    inside[0] + (outside[0] - inside[0]) * share,
    inside[1] + (outside[1] - inside[1]) * share,
    inside[2] + (outside[2] - inside[2]) * share,
  ];
}

/**
 * What of a convex body lies inside a plane: the body itself where it is not cut, undefined where nothing is
 * left. The cut is closed by a facet with the given skin.
 */
export function clipped(body: Convex, plane: Plane, skin: Skin): Convex | undefined {
  const [isInside, isOutside] = reach(body, plane);
  if (!isInside) return undefined;
  if (!isOutside) return body;
  const facets: Facet[] = [];
  const rim: Rim = [];
  for (const facet of body.facets) {
    const points = clippedFacet(facet.points, plane, rim);
    if (points === facet.points) facets.push(facet);
    else if (points !== undefined) facets.push({ ...facet, points });
  }
  for (const points of loopsOf(rim)) {
    facets.push({ points, normal: plane.normal, offset: plane.offset, ...skin });
  }
  return { facets };
}

/** Whether a body reaches inside a plane, and outside. */
function reach(body: Convex, { normal, offset }: Plane): readonly [boolean, boolean] {
  let [isInside, isOutside] = [false, false];
  const [a, b, c] = normal;
  for (const { points } of body.facets) {
    for (const point of points) {
      const away = a * point[0] + b * point[1] + c * point[2] - offset;
      if (away > SNAP) isOutside = true;
      else if (away < -SNAP) isInside = true;
    }
    if (isInside && isOutside) break;
  }
  return [isInside, isOutside];
}

function isInside(points: readonly Triple[], { normal: [a, b, c], offset }: Plane): boolean {
  const least = offset - SNAP;
  for (const point of points) {
    if (a * point[0] + b * point[1] + c * point[2] >= least) return false;
  }
  return true;
}

/** One facet cut; its sides that lie in the plane are added to the rim, the other way round. */
export function clippedFacet(
  points: readonly Triple[],
  plane: Plane,
  rim: Rim,
): readonly Triple[] | undefined {
  // Nearly all facets lie inside.
  if (isInside(points, plane)) return points;
  const sides = points.map((point) => sideOf(plane, point));
  if (!sides.includes(-1)) return undefined;
  const kept: Triple[] = [];
  const lies: boolean[] = [];
  points.forEach((point, index) => {
    const next = (index + 1) % points.length;
    const [here, there] = [sides[index]!, sides[next]!];
    if (here <= 0) {
      kept.push(point);
      lies.push(here === 0);
    }
    if (here * there < 0) {
      const other = points[next]!;
      kept.push(here < 0 ? crossing(plane, point, other) : crossing(plane, other, point));
      lies.push(true);
    }
  });
  kept.forEach((point, index) => {
    const next = (index + 1) % kept.length;
    if (lies[index] && lies[next]) rim.push([kept[next]!, point]);
  });
  return sides.includes(1) ? kept : points;
}

/** Closed loops of the sides of a rim; two that run along one another cancel out. */
export function loopsOf(rim: Rim): Triple[][] {
  const left = rim.filter(
    ([from, to]) => !rim.some((other) => samePoint(other[0], to) && samePoint(other[1], from)),
  );
  const loops: Triple[][] = [];
  while (left.length > 0) {
    const [first, second] = left.pop()!;
    const loop = [first];
    let at = second;
    while (!samePoint(at, first)) {
      loop.push(at);
      const next = left.findIndex(([from]) => samePoint(from, at));
      if (next < 0) throw new Error('the rim of a cut through a closed body is closed');
      at = left[next]![1];
      left.splice(next, 1);
    }
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}
