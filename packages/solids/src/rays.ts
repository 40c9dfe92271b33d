import { pointsWithin } from './polygon.ts';
import type { Facet, Solid, Triple } from './types.ts';
import { cross, dot, plus, times } from './vectors.ts';

/** Where a line goes through the outside of a piece. */
export interface Crossing {
  /** How far along the line, mm. */
  readonly at: number;
  /** Whether it goes into the wood there. */
  readonly isIn: boolean;
  /** Away from the wood. */
  readonly normal: Triple;
  /** normal · point, of the plane that it goes through. */
  readonly offset: number;
  /** Whether that stands for a curve. */
  readonly curved: boolean;
}

/** A line that runs along a face neither goes in nor out there: the sine of its angle is no more. */
const ALONG = 1e-9;
/** On the rim of a facet it still goes through it, mm. */
const RIM = 1e-6;

/** All places where a line goes through the outside of a piece, in the order of the line. */
export function crossings(solid: Solid, from: Triple, way: Triple): readonly Crossing[] {
  return solid.facets
    .flatMap((facet): Crossing[] => {
      const { normal, offset, curved } = facet;
      const steep = dot(normal, way);
      if (Math.abs(steep) <= ALONG) return [];
      const at = (offset - dot(normal, from)) / steep;
      if (!holds(facet, plus(from, times(way, at)))) return [];
      return [{ at, isIn: steep < 0, normal, offset, curved }];
    })
    .sort((one, other) => one.at - other.at);
}

/** Whether a point of a facet's plane lies in the facet. */
const holds = (facet: Facet, point: Triple): boolean =>
  rimOf(facet).every(({ normal, offset }) => dot(normal, point) - offset <= RIM);

/** Planes through the sides of a facet, square to it. */
const rimOf = ({ points, normal }: Facet): { readonly normal: Triple; readonly offset: number }[] =>
  points.map((point, index) => {
    const next = points[(index + 1) % points.length]!;
    const side: Triple = [next[0] - point[0], next[1] - point[1], next[2] - point[2]];
    const out = cross(side, normal);
    const long = Math.hypot(...out) || 1;
    const away = times(out, 1 / long);
    return { normal: away, offset: dot(away, point) };
  });

/** Where two pieces lie flat against each other. */
export interface FlatContact {
  /** Its corners. */
  readonly points: readonly Triple[];
  /** Away from the first piece. */
  readonly normal: Triple;
}

/** Faces that look at each other this straight lie flat: the cosine's distance from 1. */
const FLAT = 1e-9;

/** The largest flat place in which two pieces touch, no further apart than a gap; undefined where there is none. */
export function flatContact(one: Solid, other: Solid, gap: number): FlatContact | undefined {
  let best: FlatContact | undefined;
  let most = 0;
  for (const facet of one.facets) {
    if (facet.curved) continue;
    for (const its of other.facets) {
      if (dot(facet.normal, its.normal) > FLAT - 1) continue;
      if (Math.abs(facet.offset + its.offset) > gap) continue;
      const points = pointsWithin(facet.points, rimOf(its));
      if (points === undefined) continue;
      const area = areaAlong(points, facet.normal);
      if (area > most) [best, most] = [{ points, normal: facet.normal }, area];
    }
  }
  return best;
}

function areaAlong(points: readonly Triple[], normal: Triple): number {
  let sum = 0;
  const [first] = points;
  for (let index = 2; index < points.length; index++) {
    const [a, b] = [points[index - 1]!, points[index]!];
    const [p, q] = [a, b].map(
      (point): Triple => [point[0] - first![0], point[1] - first![1], point[2] - first![2]],
    );
    sum += dot(cross(p!, q!), normal) / 2;
  }
  return sum;
}
