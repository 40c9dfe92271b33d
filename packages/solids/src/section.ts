import type { Facet, Solid, Triple } from './types.ts';
import { cross, dot, lengthOf, minus, plus, times, unit } from './vectors.ts';

/** A plane that cuts through pieces. */
export interface SectionPlane {
  /** Of length 1; what lies on its side is taken away, so that the cut face is seen from there. */
  readonly normal: Triple;
  /** normal · point, the same for every point of the plane. */
  readonly offset: number;
}

/** What a plane cuts a piece in. */
export interface Section {
  /** Convex polygons that fill the cut faces and share no area, anticlockwise as seen against the normal. */
  readonly areas: readonly (readonly Triple[])[];
  /** The outline of the cut faces, the wood on the left of each line as seen against the normal. */
  readonly lines: readonly (readonly [from: Triple, to: Triple])[];
}

/**
 * The cut faces of a piece. A corner in the plane counts as one beyond it, so that a plane along a face answers with
 * what lies just behind it, and the outline is closed wherever the plane lies.
 */
export function sectionOf({ cells, facets }: Solid, plane: SectionPlane): Section {
  const areas = cells.flatMap((cell) => {
    const points = cell.facets.flatMap((facet) => lineIn(facet, plane) ?? []);
    return points.length < 3 ? [] : [inOrder(points, plane.normal)];
  });
  const lines = facets.flatMap((facet) => {
    const line = lineIn(facet, plane);
    return line === undefined ? [] : [line];
  });
  return { areas: areas.filter((points) => points.length > 2), lines };
}

/** Where a facet goes through a plane. */
function lineIn(
  { points, normal }: Facet,
  plane: SectionPlane,
): readonly [Triple, Triple] | undefined {
  const away = points.map((point) => dot(plane.normal, point) - plane.offset);
  const found = points.flatMap((point, index) => {
    const next = (index + 1) % points.length;
    const [here, there] = [away[index]!, away[next]!];
    if (here < 0 === there < 0) return [];
    // Always from behind, so that both facets of an edge get the same corner to the last bit.
    return [
      here < 0
        ? between(point, points[next]!, here / (here - there))
        : between(points[next]!, point, there / (there - here)),
    ];
  });
  const [first, second] = found;
  if (first === undefined || second === undefined) return undefined;
  const along = minus(second, first);
  if (lengthOf(along) === 0) return undefined;
  // The wood lies away from the facet's normal.
  return dot(cross(plane.normal, along), normal) < 0 ? [first, second] : [second, first];
}

const between = (from: Triple, to: Triple, share: number): Triple =>
  plus(from, times(minus(to, from), share));

/** Corners nearer to each other than this are one, mm. */
const ONE = 1e-9;

/** The corners of a convex polygon, each once, anticlockwise. */
function inOrder(points: readonly Triple[], normal: Triple): readonly Triple[] {
  const middle = times(points.reduce(plus, [0, 0, 0]), 1 / points.length);
  const farthest = points.reduce((best, one) =>
    lengthOf(minus(one, middle)) > lengthOf(minus(best, middle)) ? one : best,
  );
  if (lengthOf(minus(farthest, middle)) <= ONE) return [];
  const right = unit(minus(farthest, middle));
  const up = cross(normal, right);
  const turn = (point: Triple): number => {
    const way = minus(point, middle);
    return Math.atan2(dot(up, way), dot(right, way));
  };
  const sorted = points
    .map((point) => ({ point, at: turn(point) }))
    .sort((one, other) => one.at - other.at)
    .map(({ point }) => point);
  return sorted.filter((point, index) => {
    const before = sorted[(index + sorted.length - 1) % sorted.length]!;
    return lengthOf(minus(point, before)) > ONE;
  });
}
