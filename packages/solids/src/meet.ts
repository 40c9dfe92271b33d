import { around, type Bounds, boundsMeet, boundsOf } from './bounds.ts';
import { volumeOf } from './measure.ts';
import { shared } from './subtract.ts';
import type { Convex, Solid, Triple } from './types.ts';
import { dot } from './vectors.ts';

/** Room that two pieces share, in one place. */
export interface SharedRoom {
  /** mm³. */
  readonly volume: number;
  /** How deep one is in the other: what it measures across the way in which it is thinnest, mm. */
  readonly depth: number;
  /** The upright box around it, mm. */
  readonly bounds: Bounds;
}

/** What two pieces share. */
export interface SharedRooms {
  /** mm³. */
  readonly volume: number;
  /** Of the deepest room, mm; 0 where they share none. */
  readonly depth: number;
  /** Each place by itself, the largest first. */
  readonly rooms: readonly SharedRoom[];
}

/** Pieces that reach into each other by no more than this touch, mm. */
export const TOUCHING = 0.1;

const NONE: SharedRooms = { volume: 0, depth: 0, rooms: [] };

/**
 * The room that two pieces share. What is no deeper than the tolerance only touches.
 * @param tolerance mm, above 0
 */
export function sharedRooms(one: Solid, other: Solid, tolerance = TOUCHING): SharedRooms {
  if (!boundsMeet(boundsOf(one), boundsOf(other), tolerance)) return NONE;
  const cores = coresOf(one, other);
  if (cores.length === 0) return NONE;
  const ways = waysOf(one, other);
  const rooms = groupsOf(cores)
    .map((group): SharedRoom => {
      const points = group.flatMap(({ facets }) => facets.flatMap((facet) => facet.points));
      return {
        volume: group.reduce((sum, core) => sum + volumeOf(core), 0),
        depth: Math.min(...ways.map((way) => spanAlong(points, way))),
        bounds: around(points),
      };
    })
    .filter(({ depth }) => depth > tolerance)
    .sort((a, b) => b.volume - a.volume);
  return {
    volume: rooms.reduce((sum, { volume }) => sum + volume, 0),
    depth: Math.max(0, ...rooms.map(({ depth }) => depth)),
    rooms,
  };
}

/** What each cell of the one shares with each of the other. */
function coresOf(one: Solid, other: Solid): Convex[] {
  const near = other.cells.filter((cell) => boundsMeet(boundsOf(cell), boundsOf(one)));
  return one.cells.flatMap((cell) => {
    if (!boundsMeet(boundsOf(cell), boundsOf(other))) return [];
    return near.flatMap((its) => shared(cell, its) ?? []);
  });
}

/** Directions in which depth is measured: square to the faces of both, each once whichever way it points. */
function waysOf(one: Solid, other: Solid): Triple[] {
  const ways = new Map<string, Triple>();
  for (const { facets } of [one, other]) {
    for (const { normal } of facets) {
      const [x, y, z] = [whole(normal[0]), whole(normal[1]), whole(normal[2])];
      const isBack = x < 0 || (x === 0 && (y < 0 || (y === 0 && z < 0)));
      const key = isBack ? `${0 - x} ${0 - y} ${0 - z}` : `${x} ${y} ${z}`;
      if (!ways.has(key)) ways.set(key, normal);
    }
  }
  return [...ways.values()];
}

/** Directions that differ by less are measured once, at the most twice. */
const SAME_WAY = 1e-6;
const whole = (part: number): number => Math.round(part / SAME_WAY) + 0;

function spanAlong(points: readonly Triple[], way: Triple): number {
  let [low, high] = [Infinity, -Infinity];
  for (const point of points) {
    const at = dot(way, point);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return high - low;
}

/** Cores that touch are one room. */
function groupsOf(cores: readonly Convex[]): Convex[][] {
  const groups: Convex[][] = [];
  for (const core of cores) {
    const touching = groups.filter((group) =>
      group.some((other) => boundsMeet(boundsOf(core), boundsOf(other), -GAP)),
    );
    const joined = [core, ...touching.flat()];
    for (const group of touching) groups.splice(groups.indexOf(group), 1);
    groups.push(joined);
  }
  return groups;
}

const GAP = 1e-5;
