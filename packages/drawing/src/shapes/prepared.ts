import type { Solid } from '@kerfbook/solids';
import { type Creases, creasesAmong } from './creases.ts';
import { type ReadySolid, readySolid } from './ready-solid.ts';

/** Lists one behind the other: those of `i` are `items[starts[i]]` up to `items[starts[i + 1]]`. */
export interface Lists {
  /** Where each list begins, and last where the last one ends. */
  readonly starts: Int32Array;
  /** All of them. */
  readonly items: Int32Array;
}

/**
 * Solids as numbers: what one may hide of another in few long lists, as a view from somewhere goes through
 * all of them, and what each has of its own with it. Made once for as long as the solids stay the same.
 */
export interface PreparedSolids {
  /** As they were given. */
  readonly solids: readonly Solid[];
  /** Each as numbers of its own. */
  readonly ready: readonly ReadySolid[];
  /** The creases that are told with each. */
  readonly creases: readonly (readonly Creases[])[];
  /** x, y and z of each point, mm. */
  readonly points: Float64Array;
  /** Where the points of each solid begin; the ends of creases come after the last. */
  readonly pointsOf: Int32Array;
  /** Where the cells of each solid begin. */
  readonly cellsOf: Int32Array;
  /** How many edges all have. */
  readonly edgeCount: number;
  /** The points of each cell. */
  readonly cellPoints: Lists;
  /** Where the planes of each cell begin, counted in planes. */
  readonly cellPlanesOf: Int32Array;
  /** Those planes. */
  readonly cellPlanes: Float64Array;
  /** Where the creases begin that are told with a solid: each with one of the two that run into each other. */
  readonly creasesOf: Int32Array;
  /** The two points of each crease. */
  readonly creasePoints: Int32Array;
  /** Its two normals. */
  readonly creaseNormals: Float64Array;
}

/**
 * Solids made ready to be looked at. What a solid comes to is remembered with it, and with each it
 * runs into, so that after a change only what is another object than before is worked out.
 */
export function prepareSolids(solids: readonly Solid[]): PreparedSolids {
  const ready = solids.map(readySolid);
  const creases = creasesAmong(ready);
  const pointsOf = startsOf(ready, ({ points }) => points.length / 3);
  const cellsOf = startsOf(ready, ({ cellStarts }) => cellStarts.length - 1);
  const creasesOf = startsOf(creases, (own) =>
    own.reduce((sum, { ends }) => sum + ends.length / 6, 0),
  );
  const firstEnd = pointsOf.at(-1) as number;
  const ends = creases.flatMap((own) => own.map((one: Creases) => one.ends));
  return {
    solids,
    ready,
    creases,
    pointsOf,
    points: joined([...ready.map(({ points }) => points), ...ends]),
    cellsOf,
    edgeCount: ready.reduce((sum, { edgeSmooth }) => sum + edgeSmooth.length, 0),
    cellPoints: {
      starts: runningOn(ready, ({ cellStarts }) => cellStarts),
      items: numbered(ready, ({ cellItems }) => cellItems, pointsOf),
    },
    cellPlanesOf: runningOn(ready, ({ cellPlanesOf }) => cellPlanesOf),
    cellPlanes: joined(ready.map(({ cellPlanes }) => cellPlanes)),
    creasesOf,
    creasePoints: Int32Array.from(
      { length: 2 * (creasesOf.at(-1) as number) },
      (_, index) => firstEnd + index,
    ),
    creaseNormals: joined(creases.flatMap((own) => own.map((one: Creases) => one.normals))),
  };
}

/** Where the things of each begin when all are put one behind the other, and last where they end. */
function startsOf<T>(all: readonly T[], count: (one: T) => number): Int32Array {
  const starts = new Int32Array(all.length + 1);
  for (const [index, one] of all.entries()) {
    starts[index + 1] = (starts[index] as number) + count(one);
  }
  return starts;
}

function joined(all: readonly ArrayLike<number>[]): Float64Array {
  const list = new Float64Array(all.reduce((sum, one) => sum + one.length, 0));
  let at = 0;
  for (const one of all) {
    list.set(one, at);
    at += one.length;
  }
  return list;
}

/** Lists of places, each of which begins with 0, as one that runs on. */
function runningOn(
  all: readonly ReadySolid[],
  places: (one: ReadySolid) => Int32Array,
): Int32Array {
  const list = new Int32Array(all.reduce((sum, one) => sum + places(one).length - 1, 1));
  let at = 0;
  for (const one of all) {
    const own = places(one);
    const from = list[at] as number;
    for (let i = 1; i < own.length; i++) list[at + i] = from + (own[i] as number);
    at += own.length - 1;
  }
  return list;
}

/** Numbers of points, counted through all solids. */
function numbered(
  all: readonly ReadySolid[],
  points: (one: ReadySolid) => Int32Array,
  pointsOf: Int32Array,
): Int32Array {
  const list = new Int32Array(all.reduce((sum, one) => sum + points(one).length, 0));
  let at = 0;
  for (const [index, one] of all.entries()) {
    const own = points(one);
    const first = pointsOf[index] as number;
    for (let i = 0; i < own.length; i++) list[at + i] = first + (own[i] as number);
    at += own.length;
  }
  return list;
}

/** What is looked at as long as there is nothing. */
export const NO_SOLIDS = prepareSolids([]);
