import type { Face } from './faces.ts';
import type { Pair } from './outline.ts';
import type { Skins } from './skins.ts';
import type { Convex, Facet, Triple } from './types.ts';
import { cross, dot, minus, plus, times, unit } from './vectors.ts';

/** Where a prism stands: its outline in u and v, its height along w. All three of length 1 and square to each other. */
export interface Frame {
  readonly origin: Triple;
  readonly u: Triple;
  readonly v: Triple;
  readonly w: Triple;
}

/** What a prism needs to know of an outline. */
export interface Section {
  /** Anticlockwise. */
  readonly points: readonly Pair[];
  readonly runs: readonly number[];
  readonly curved: readonly boolean[];
  readonly flowing: readonly (readonly [number, number])[];
}

/** Which faces of the blank a prism's surfaces are. */
export interface Faces {
  readonly low?: Face;
  readonly high?: Face;
  readonly runs?: readonly (Face | undefined)[];
}

/** A convex outline carried from one height to another. */
export function prism(
  section: Section,
  { origin, u, v, w }: Frame,
  [low, high]: readonly [number, number],
  skins: Skins,
  faces: Faces = {},
): Convex {
  const at = ([x, y]: Pair, height: number): Triple =>
    plus(plus(plus(origin, times(u, x)), times(v, y)), times(w, height));
  const bottom = section.points.map((point) => at(point, low));
  const top = section.points.map((point) => at(point, high));
  const surfaces = section.curved.map((_, run) => skins.add(faces.runs?.[run]));
  for (const [one, other] of section.flowing) skins.flow(surfaces[one]!, surfaces[other]!);
  const isRight = dot(cross(u, v), w) > 0;
  const facet = (
    points: readonly Triple[],
    normal: Triple,
    surface: number,
    curved: boolean,
  ): Facet => ({
    points: isRight ? points : [...points].reverse(),
    normal,
    offset: dot(normal, points[0]!),
    surface,
    curved,
  });
  const sides = section.points.map(([x, y], index) => {
    const next = (index + 1) % section.points.length;
    const [x1, y1] = section.points[next]!;
    const length = Math.hypot(x1 - x, y1 - y);
    const normal = plus(times(u, (y1 - y) / length), times(v, (x - x1) / length));
    const run = section.runs[index]!;
    return facet(
      [bottom[index]!, bottom[next]!, top[next]!, top[index]!],
      normal,
      surfaces[run]!,
      section.curved[run]!,
    );
  });
  const down: Triple = [0 - w[0], 0 - w[1], 0 - w[2]];
  return {
    facets: [
      facet([...bottom].reverse(), down, skins.add(faces.low), false),
      facet(top, w, skins.add(faces.high), false),
      ...sides,
    ],
  };
}

/** A polygon whose sides are flat, each its own surface. */
export const flatSection = (points: readonly Pair[]): Section => ({
  points,
  runs: points.map((_, index) => index),
  curved: points.map(() => false),
  flowing: [],
});

/** A rectangle from one corner to the opposite one. */
export const rectangle = (low: Pair, high: Pair): Section =>
  flatSection([low, [high[0], low[1]], high, [low[0], high[1]]]);

/** Where the sides of two facets of one body meet: the side as the first one runs along it. */
export function sideBetween(
  one: Facet,
  other: Facet,
): readonly [from: Triple, to: Triple] | undefined {
  const { points } = one;
  for (let index = 0; index < points.length; index++) {
    const [from, to] = [points[index]!, points[(index + 1) % points.length]!];
    const back = other.points.findIndex((point) => isSame(point, to));
    if (back < 0) continue;
    if (isSame(other.points[(back + 1) % other.points.length]!, from)) return [from, to];
  }
  return undefined;
}

const isSame = (a: Triple, b: Triple): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];

/** From a side into the facet that runs along it, square to it. */
export const inFrom = (normal: Triple, from: Triple, to: Triple): Triple =>
  cross(normal, unit(minus(to, from)));
