import { around, type Bounds, boundsMeet, boundsOf, isWithin } from './bounds.ts';
import { clipped, type Plane, type Skin } from './clip.ts';
import { TOUCHING } from './meet.ts';
import { pointsWithin } from './polygon.ts';
import type { Convex, Solid, Triple } from './types.ts';
import { dot } from './vectors.ts';

const NO_SURFACE: Skin = { surface: -1, curved: false };

/**
 * The upright box around what of one piece lies in another or comes as near to it as the gap; undefined where
 * nothing does.
 * @param gap mm, above 0
 */
export function touching(one: Solid, other: Solid, gap = TOUCHING): Bounds | undefined {
  if (!boundsMeet(boundsOf(one), boundsOf(other), -gap)) return undefined;
  const points: Triple[] = [];
  for (const near of other.cells) {
    if (!boundsMeet(boundsOf(near), boundsOf(one), -gap)) continue;
    const planes = grown(near, gap);
    for (const cell of one.cells) {
      if (!boundsMeet(boundsOf(cell), boundsOf(near), -gap)) continue;
      const core = inside(cell, planes);
      if (core !== undefined) for (const facet of core.facets) points.push(...facet.points);
    }
  }
  return points.length === 0 ? undefined : around(points);
}

/** What is narrower is the rim of a face beside the one that touches: of gaps. */
const WIDER = 3;

/**
 * How the faces look on which one piece touches another: away from the one, each direction as often as there
 * are facets. The one can be pulled out along a way that leads back from all of them.
 * @param gap mm, above 0
 */
export function facesOnto(one: Solid, other: Solid, gap = TOUCHING): Triple[] {
  const cells = other.cells
    .filter((cell) => boundsMeet(boundsOf(cell), boundsOf(one), -gap))
    .map((cell) => ({ bounds: boundsOf(cell), planes: grown(cell, gap) }));
  return one.facets.flatMap((facet): Triple[] => {
    const room = around(facet.points);
    const touches = cells.some(({ bounds, planes }) => {
      if (!boundsMeet(room, bounds, -gap)) return false;
      const points = pointsWithin(facet.points, planes);
      return points !== undefined && widthOf(points, facet.normal) > WIDER * gap;
    });
    return touches ? [facet.normal] : [];
  });
}

/** The planes of a body moved out by a gap, and those of the box around it, so that no sharp edge grows long. */
function grown(cell: Convex, gap: number): Plane[] {
  const { low, high } = boundsOf(cell);
  const planes = cell.facets.map(({ normal, offset }) => ({ normal, offset: offset + gap }));
  for (const axis of [0, 1, 2] as const) {
    const way = (sign: 1 | -1): Triple => [
      axis === 0 ? sign : 0,
      axis === 1 ? sign : 0,
      axis === 2 ? sign : 0,
    ];
    planes.push({ normal: way(1), offset: high[axis] + gap });
    planes.push({ normal: way(-1), offset: gap - low[axis] });
  }
  return planes;
}

function inside(cell: Convex, planes: readonly Plane[]): Convex | undefined {
  const bounds = boundsOf(cell);
  let rest: Convex | undefined = cell;
  for (const plane of planes) {
    if (isWithin(bounds, plane.normal, plane.offset)) continue;
    rest = clipped(rest, plane, NO_SURFACE);
    if (rest === undefined) return undefined;
  }
  return rest;
}

/** How wide a flat convex polygon is where it is narrowest, mm. */
function widthOf(points: readonly Triple[], normal: Triple): number {
  let least = Infinity;
  for (const [index, from] of points.entries()) {
    const to = points[(index + 1) % points.length]!;
    const side: Triple = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
    const across: Triple = [
      normal[1] * side[2] - normal[2] * side[1],
      normal[2] * side[0] - normal[0] * side[2],
      normal[0] * side[1] - normal[1] * side[0],
    ];
    const length = Math.hypot(...across);
    if (length === 0) continue;
    const away = points.map((point) => dot(across, point) - dot(across, from));
    least = Math.min(least, Math.max(...away) / length);
  }
  return least;
}
