import { crossing, otherSide, type Plane, sideOf } from './clip.ts';
import type { Convex, Facet, Triple } from './types.ts';
import { dot } from './vectors.ts';

/** Corners of a convex polygon, and for each side that begins there the plane that cut it; -1 where none did. */
interface Labelled {
  readonly points: readonly Triple[];
  readonly cutBy: readonly number[];
}

/** What of a polygon lies inside a plane; the same polygon where it is not cut, undefined where nothing is left. */
function within(polygon: Labelled, plane: Plane, label: number): Labelled | undefined {
  const { points, cutBy } = polygon;
  const sides = points.map((point) => sideOf(plane, point));
  if (!sides.includes(-1)) return undefined;
  if (!sides.includes(1)) return polygon;
  const kept: Triple[] = [];
  const labels: number[] = [];
  points.forEach((point, index) => {
    const next = (index + 1) % points.length;
    const [here, there] = [sides[index]!, sides[next]!];
    const other = points[next]!;
    if (here < 0 || (here === 0 && there <= 0)) {
      kept.push(point);
      labels.push(cutBy[index]!);
    } else if (here === 0) {
      kept.push(point);
      labels.push(label);
    }
    if (here < 0 && there > 0) {
      kept.push(crossing(plane, point, other));
      labels.push(label);
    } else if (here > 0 && there < 0) {
      kept.push(crossing(plane, other, point));
      labels.push(cutBy[index]!);
    }
  });
  return { points: kept, cutBy: labels };
}

/** How a facet lies to a plane: in it, looking the same way or the other one; or not in it. */
function lying({ points, normal }: Facet, plane: Plane): 'same' | 'other' | 'not' {
  if (points.some((point) => sideOf(plane, point) !== 0)) return 'not';
  return dot(normal, plane.normal) > 0 ? 'same' : 'other';
}

/** What of a facet lies truly inside a convex body; a facet in one of its faces does not. */
export function insideOf(facet: Facet, body: Convex): Facet | undefined {
  let rest: Labelled | undefined = { points: facet.points, cutBy: facet.points.map(() => -1) };
  for (const plane of body.facets) {
    if (lying(facet, plane) !== 'not') return undefined;
    rest = within(rest, plane, 0);
    if (rest === undefined) return undefined;
  }
  return rest.points === facet.points ? facet : { ...facet, points: rest.points };
}

/** The corners of what of a convex polygon lies inside planes; undefined where nothing does. */
export function pointsWithin(
  points: readonly Triple[],
  planes: readonly Plane[],
): readonly Triple[] | undefined {
  let rest: Labelled | undefined = { points, cutBy: points.map(() => -1) };
  for (const plane of planes) {
    rest = within(rest, plane, 0);
    if (rest === undefined) return undefined;
  }
  return rest.points;
}

/**
 * What a convex tool leaves of a facet of the outside. Where the facet lies in a face of the tool and looks
 * the same way, the wood behind it is gone; where it looks the other way, tool and wood only touch there:
 * the facet stays, unless `sharedGoes` as another tool has a facet for that place already.
 */
export function withoutTool(facet: Facet, tool: Convex, sharedGoes: boolean): readonly Facet[] {
  return without(facet, tool, sharedGoes ? undefined : 'other');
}

/**
 * What of a facet is seen beside a body that stands there: what lies inside it or against it is not, and a facet that
 * is flush with one of its faces is.
 */
export const besideBody = (facet: Facet, body: Convex): readonly Facet[] =>
  without(facet, body, 'same');

/** A facet less what lies in a body; it stays whole where it lies so in one of the body's faces. */
function without(
  facet: Facet,
  tool: Convex,
  staysWhere: 'same' | 'other' | undefined,
): readonly Facet[] {
  const whole: Labelled = { points: facet.points, cutBy: facet.points.map(() => -1) };
  let core = whole;
  for (let index = 0; index < tool.facets.length; index++) {
    const plane = tool.facets[index]!;
    const lies = lying(facet, plane);
    if (lies === staysWhere) return [facet];
    if (lies !== 'not') continue;
    const inside = within(core, plane, index);
    if (inside === undefined) return [facet];
    core = inside;
  }
  const left: Facet[] = [];
  let rest: Labelled | undefined = whole;
  for (const index of spread(
    [...new Set(core.cutBy)].filter((label) => label >= 0).sort(ascending),
  )) {
    if (rest === undefined) break;
    const plane = tool.facets[index]!;
    const beyond = within(rest, otherSide(plane), 0);
    if (beyond !== undefined) left.push({ ...facet, points: beyond.points });
    rest = within(rest, plane, 0);
  }
  return left;
}

const ascending = (a: number, b: number): number => a - b;

/**
 * The same things, far ones after one another (the order of a number's digits turned round). What a round
 * tool leaves is cut by its far sides first, so that pieces stay compact instead of long and thin.
 */
export function spread<T>(things: readonly T[]): T[] {
  const bits = Math.max(1, Math.ceil(Math.log2(things.length)));
  const turned = (index: number): number => {
    let result = 0;
    for (let bit = 0; bit < bits; bit++) if (index & (1 << bit)) result |= 1 << (bits - 1 - bit);
    return result;
  };
  return Array.from({ length: 1 << bits }, (_, index) => turned(index)).flatMap((index) =>
    index < things.length ? [things[index]!] : [],
  );
}
