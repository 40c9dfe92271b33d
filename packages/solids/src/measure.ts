import { around, type Bounds, boundsMeet, boundsOf } from './bounds.ts';
import { besideBody } from './polygon.ts';
import type { Convex, Facet, Solid, Triple } from './types.ts';
import { cross, dot, minus, plus, times } from './vectors.ts';

/** What a piece measures, as its flat facets have it. */
export interface Measures {
  /** Volume, mm³. */
  readonly volume: number;
  /** Area of the outside, mm². */
  readonly area: number;
  /** Its middle by weight, mm. */
  readonly centroid: Triple;
  /** The upright box around it, mm. */
  readonly bounds: Bounds;
}

/** Measures a piece. Source: the divergence theorem over its outside. */
export function measured(solid: Solid): Measures {
  const { volume, centroid } = contents(solid.facets, startOf(solid.facets));
  return { volume, area: areaOfAll(solid.facets), centroid, bounds: boundsOf(solid) };
}

/** The area of what of facets is seen beside bodies that stand there, mm²: not what lies in them or against them. */
export function areaBeside(facets: readonly Facet[], bodies: readonly Convex[]): number {
  let left = facets;
  for (const body of bodies) {
    const bounds = boundsOf(body);
    left = left.flatMap((facet) =>
      boundsMeet(around(facet.points), bounds, -TOUCH) ? besideBody(facet, body) : [facet],
    );
  }
  return areaOfAll(left);
}

/** Facets are flat, so that touching counts, mm. */
const TOUCH = 1e-5;

const areaOfAll = (facets: readonly Facet[]): number =>
  facets.reduce((sum, { points, normal }) => sum + dot(areaOf(points), normal), 0);

/** Volume of one convex body, mm³. */
export const volumeOf = ({ facets }: Convex): number => contents(facets, startOf(facets)).volume;

const startOf = (facets: readonly Facet[]): Triple => facets[0]!.points[0]!;

/** Pyramids from one point to every triangle of the outside; near the piece, so that little is lost to rounding. */
function contents(
  facets: readonly Facet[],
  from: Triple,
): { readonly volume: number; readonly centroid: Triple } {
  let six = 0;
  let moment: Triple = [0, 0, 0];
  for (const { points } of facets) {
    const first = minus(points[0]!, from);
    let before = minus(points[1]!, from);
    for (let index = 2; index < points.length; index++) {
      const next = minus(points[index]!, from);
      const part = dot(first, cross(before, next));
      six += part;
      moment = plus(moment, times(plus(plus(first, before), next), part));
      before = next;
    }
  }
  return { volume: six / 6, centroid: plus(from, times(moment, 1 / (4 * six))) };
}

/** The area of a polygon as a vector square to it, mm². */
export function areaOf(points: readonly Triple[]): Triple {
  const [first] = points;
  let sum: Triple = [0, 0, 0];
  for (let index = 2; index < points.length; index++) {
    sum = plus(sum, cross(minus(points[index - 1]!, first!), minus(points[index]!, first!)));
  }
  return times(sum, 0.5);
}
