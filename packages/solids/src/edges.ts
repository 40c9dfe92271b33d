import type { Edge, Facet, Triple } from './types.ts';
import { cross, dot, lengthOf, minus, unit } from './vectors.ts';
import { WELD, Welded } from './weld.ts';

/** Facets that lean from each other by less are one face, as the sine of the angle (about 0.001 degree). */
const FLAT = 2e-5;

/** A side of a facet, between two corners that no other corner lies between. */
interface Side {
  readonly facet: Facet;
  readonly plane: number;
  /** From the corner with the lower number to the other one. */
  readonly isForward: boolean;
}

/** What {@link edgesOf} found. */
export interface Edges {
  readonly edges: readonly Edge[];
  /** Sides of facets that no other facet meets: none on an outside that is closed. */
  readonly open: number;
}

/**
 * The edges of an outside made of facets that may be cut up: none where facets lie in one plane, and each
 * in one piece. `isSmooth` tells of two surfaces whether they are one to the eye where they meet; `isWhole`
 * that no facet is cut up, so that sides meet from corner to corner.
 */
export function edgesOf(
  facets: readonly Facet[],
  isSmooth: (one: Facet, other: Facet) => boolean,
  isWhole = false,
): Edges {
  const { points, sides } = sidesOf(facets, isWhole);
  const found = new Joined(points, isSmooth);
  let open = 0;
  for (const [key, meeting] of sides) {
    const [low, high] = [Math.floor(key / PACK), key % PACK];
    const along = unit(minus(points[high]!, points[low]!));
    const [pairs, single] = paired(withoutFlat(meeting), along);
    open += single;
    for (const [one, other] of pairs) found.add(low, high, one, other);
  }
  return { edges: found.edges(), open };
}

/** Two numbers of corners in one key. */
const PACK = 2 ** 24;

/** All sides, cut where another corner lies on them, by the two corners they run between. */
function sidesOf(
  facets: readonly Facet[],
  isWhole: boolean,
): {
  readonly points: readonly Triple[];
  readonly sides: ReadonlyMap<number, Side[]>;
} {
  const welded = new Welded();
  const loops = facets.map(({ points }) =>
    points
      .map((point) => welded.add(point))
      .filter((corner, index, all) => corner !== all[(index + 1) % all.length]),
  );
  const between = isWhole ? undefined : new Between(welded.points);
  const planes = isWhole ? facets.map((_, index) => index) : planesOf(facets);
  const sides = new Map<number, Side[]>();
  loops.forEach((loop, index) => {
    loop.forEach((from, corner) => {
      const to = loop[(corner + 1) % loop.length]!;
      if (from === to) return;
      const [low, high, isForward] = from < to ? [from, to, true] : [to, from, false];
      const stops = between?.stops(low, high) ?? [low, high];
      for (let stop = 1; stop < stops.length; stop++) {
        const [a, b] = [stops[stop - 1]!, stops[stop]!];
        const runs = a < b === isForward;
        const key = Math.min(a, b) * PACK + Math.max(a, b);
        const side = { facet: facets[index]!, plane: planes[index]!, isForward: runs };
        const known = sides.get(key);
        if (known === undefined) sides.set(key, [side]);
        else known.push(side);
      }
    });
  });
  return { points: welded.points, sides };
}

/** The same number for facets in one plane that look the same way. */
function planesOf(facets: readonly Facet[]): number[] {
  const first: Facet[] = [];
  const known = new Map<number, number>();
  return facets.map((facet) => {
    // The pieces a facet was cut into keep its numbers as they are.
    const quick = facet.offset + facet.normal[0] * 1e7 + facet.normal[1] * 1e11;
    const before = known.get(quick);
    if (before !== undefined && isOnePlane(first[before]!, facet)) return before;
    const same = first.findIndex((one) => isOnePlane(one, facet));
    const plane = same < 0 ? first.push(facet) - 1 : same;
    known.set(quick, plane);
    return plane;
  });
}

const isOnePlane = (one: Facet, other: Facet): boolean =>
  Math.abs(one.offset - other.offset) < WELD && isFlat(one, other);

const isFlat = (one: Facet, other: Facet): boolean =>
  dot(one.normal, other.normal) > 0 && lengthOf(cross(one.normal, other.normal)) < FLAT;

/** Finds the corners that lie on the line between two others. */
class Between {
  readonly #points: readonly Triple[];
  readonly #axis: number;
  readonly #order: readonly number[];
  readonly #known = new Map<number, readonly number[]>();

  constructor(points: readonly Triple[]) {
    this.#points = points;
    const spans = [0, 1, 2].map((axis) => {
      const values = points.map((point) => point[axis]!);
      return new Set(values.map((value) => Math.round(value * 100))).size;
    });
    this.#axis = spans.indexOf(Math.max(...spans));
    this.#order = points.map((_, index) => index).sort((a, b) => this.#at(a) - this.#at(b));
  }

  #at(corner: number): number {
    return this.#points[corner]![this.#axis]!;
  }

  /** Both corners and those between them, in order. */
  stops(from: number, to: number): readonly number[] {
    const key = from * PACK + to;
    const before = this.#known.get(key);
    if (before !== undefined) return before;
    const stops = this.#search(from, to);
    this.#known.set(key, stops);
    return stops;
  }

  #search(from: number, to: number): number[] {
    const start = this.#points[from]!;
    const whole = minus(this.#points[to]!, start);
    const length = lengthOf(whole);
    const along: Triple = [whole[0] / length, whole[1] / length, whole[2] / length];
    const high = Math.max(this.#at(from), this.#at(to)) + WELD;
    const found: [away: number, corner: number][] = [];
    for (let index = this.#firstFrom(from, to); index < this.#order.length; index++) {
      const corner = this.#order[index]!;
      if (this.#at(corner) > high) break;
      if (corner === from || corner === to) continue;
      const point = this.#points[corner]!;
      const [x, y, z] = [point[0] - start[0], point[1] - start[1], point[2] - start[2]];
      const away = x * along[0] + y * along[1] + z * along[2];
      if (away <= 0 || away >= length) continue;
      const [a, b, c] = [x - away * along[0], y - away * along[1], z - away * along[2]];
      if (a * a + b * b + c * c < WELD * WELD) found.push([away, corner]);
    }
    found.sort(([a], [b]) => a - b);
    return [from, ...found.map(([, corner]) => corner), to];
  }

  #firstFrom(from: number, to: number): number {
    const least = Math.min(this.#at(from), this.#at(to)) - WELD;
    let [low, high] = [0, this.#order.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#at(this.#order[middle]!) < least) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

/** Sides of pieces of one face that run against each other are no edge. */
function withoutFlat(sides: readonly Side[]): readonly Side[] {
  const left = [...sides];
  for (let index = 0; index < left.length; index++) {
    const one = left[index]!;
    const other = left.findIndex(
      (side, at) => at > index && side.isForward !== one.isForward && isFlat(side.facet, one.facet),
    );
    if (other < 0) continue;
    left.splice(other, 1);
    left.splice(index, 1);
    index--;
  }
  return left;
}

/**
 * Which sides bound the same wood. Two facets meet in nearly every edge; where wood touches wood in a line,
 * four do, and each goes with the next one around it that has wood in between.
 */
function paired(
  sides: readonly Side[],
  along: Triple,
): readonly [pairs: readonly [Side, Side][], single: number] {
  if (sides.length === 2 && sides[0]!.isForward !== sides[1]!.isForward) {
    return [[[sides[0]!, sides[1]!]], 0];
  }
  const forward = sides.filter(({ isForward }) => isForward);
  const back = sides.filter(({ isForward }) => !isForward);
  const pairs: [Side, Side][] = [];
  const [start] = back;
  if (start === undefined) return [[], sides.length];
  const zero = into(start, along);
  const turn = (side: Side): number => {
    const way = into(side, along);
    const angle = Math.atan2(dot(cross(zero, way), along), dot(zero, way));
    return angle < -1e-9 ? angle + 2 * Math.PI : angle;
  };
  for (const one of back) {
    const from = turn(one);
    const after = (side: Side): number => (turn(side) - from + 4 * Math.PI) % (2 * Math.PI);
    forward.sort((a, b) => after(a) - after(b));
    const other = forward.shift();
    if (other !== undefined) pairs.push([one, other]);
  }
  return [pairs, sides.length - 2 * pairs.length];
}

/** From an edge into a facet. */
const into = ({ facet, isForward }: Side, along: Triple): Triple => {
  const way = cross(facet.normal, along);
  return isForward ? way : [-way[0], -way[1], -way[2]];
};

/** Pieces of edges, put together where they run on between the same two planes. */
class Joined {
  readonly #points: readonly Triple[];
  readonly #isSmooth: (one: Facet, other: Facet) => boolean;
  readonly #runs = new Map<string, Run[]>();

  constructor(points: readonly Triple[], isSmooth: (one: Facet, other: Facet) => boolean) {
    this.#points = points;
    this.#isSmooth = isSmooth;
  }

  add(low: number, high: number, one: Side, other: Side): void {
    const [a, b] = one.plane < other.plane ? [one, other] : [other, one];
    const smooth = this.#isSmooth(a.facet, b.facet);
    const key = `${a.plane} ${b.plane} ${smooth}`;
    const runs = this.#runs.get(key);
    const run = { low, high, one: a.facet, other: b.facet, smooth };
    if (runs === undefined) this.#runs.set(key, [run]);
    else runs.push(run);
  }

  edges(): Edge[] {
    return [...this.#runs.values()].flatMap((runs) =>
      this.#chained(runs).map(({ low, high, one, other, smooth }) => ({
        from: this.#points[low]!,
        to: this.#points[high]!,
        normals: [one.normal, other.normal] as const,
        smooth,
      })),
    );
  }

  /** All runs lie on one line, so that what touches is sorted along it. */
  #chained(runs: Run[]): Run[] {
    const [first] = runs;
    if (first === undefined || runs.length === 1) return runs;
    const start = this.#points[first.low]!;
    const along = minus(this.#points[first.high]!, start);
    const at = (corner: number): number => dot(minus(this.#points[corner]!, start), along);
    const sorted = runs
      .map((run) => (at(run.low) < at(run.high) ? run : { ...run, low: run.high, high: run.low }))
      .sort((a, b) => at(a.low) - at(b.low));
    const chained: Run[] = [];
    for (const run of sorted) {
      const last = chained.at(-1);
      if (last !== undefined && last.high === run.low) {
        chained[chained.length - 1] = { ...last, high: run.high };
      } else chained.push(run);
    }
    return chained;
  }
}

interface Run {
  readonly low: number;
  readonly high: number;
  readonly one: Facet;
  readonly other: Facet;
  readonly smooth: boolean;
}
