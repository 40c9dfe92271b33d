import type { Eye } from '../eye.ts';
import type { Outline } from '../visible-face.ts';
import { type OthersBefore, reaches } from './before.ts';
import type { Creases } from './creases.ts';
import type { ReadySolid } from './ready-solid.ts';
import type { SeenFacet } from './seen-facet.ts';

/** Instead of where the stretches of a line begin: nobody has asked yet what can be seen of it, */
export const UNASKED = -1;
/** or it is on the far side, where nothing can. */
export const FAR_SIDE = -2;

/** Numbers of a line in a list: x and y of its one end on the paper and how near that is, and of its other end. */
export const LINE_SEEN = 6;

/** Numbers of the room of a facet: left, right, bottom, top and farthest point. */
export const FACET_ROOM = 5;

/** More others than this that came or went, and it is quicker to begin anew. */
const MANY = 8;
/** So many stretches for each line are most likely those of before. */
const STALE = 16;

/**
 * What one solid comes to in a view: its lines, and what can be seen of them and of its facets. It
 * holds for as long as the solid has the same others before it and the same creases; where a few of
 * the others changed, what lies beside them on the paper still holds.
 */
export class SolidSeen {
  /** Left, right, bottom, top and nearest point, and its farthest point. */
  readonly room: Float64Array;
  /** Six numbers for each of its lines, those of creases last. */
  readonly lines: Float64Array;
  /** How many lines it has. */
  count = 0;
  /** Where what can be seen of each line begins in the stretches and ends there, or why that is not known. */
  readonly from: Int32Array;
  /** One past the last. */
  readonly to: Int32Array;
  /** Where stretches begin and end, as shares of their line. */
  readonly stretches: number[] = [];
  /** What can be seen of its facets, once that was asked for. */
  facets: readonly SeenFacet[] | undefined;
  /** The same for each facet; undefined where it is not known. */
  readonly outlines: (readonly Outline[] | undefined)[] = [];
  /** Around each facet on the paper. */
  readonly facetRooms: Float64Array;
  #others: readonly ReadySolid[];
  readonly #creases: readonly Creases[];
  /** The line that is asked about. */
  #line = 0;

  /** Has room for so many lines, and facets. */
  constructor(
    room: Float64Array,
    others: readonly ReadySolid[],
    creases: readonly Creases[],
    lines: number,
    facets: number,
  ) {
    this.lines = new Float64Array(LINE_SEEN * lines);
    this.from = new Int32Array(lines);
    this.to = new Int32Array(lines);
    this.room = room;
    this.#others = others;
    this.#creases = creases;
    this.facetRooms = new Float64Array(FACET_ROOM * facets);
  }

  /**
   * Whether it still holds with these creases, and these solids before it, in this order; what some
   * of those may have changed is forgotten.
   * @param roomOf the room around one that was before it and is no more
   */
  follows(
    all: readonly ReadySolid[],
    { others, otherCount, roomIn }: OthersBefore,
    creases: readonly Creases[],
    roomOf: (solid: ReadySolid) => Float64Array | undefined,
  ): boolean {
    if (creases.length !== this.#creases.length) return false;
    for (let i = 0; i < creases.length; i++) {
      if (creases[i] !== this.#creases[i]) return false;
    }
    if (this.#hasBefore(all, others, otherCount)) return true;
    if (this.stretches.length > STALE * this.count) return false;
    const now = Array.from(others.subarray(0, otherCount), (other) => all[other] as ReadySolid);
    const rooms = this.#roomsOfChanged(now, (place) => roomIn(others[place] as number), roomOf);
    if (rooms === undefined) return false;
    this.#others = now;
    for (const room of rooms) this.#forgetIn(room);
    return true;
  }

  #hasBefore(all: readonly ReadySolid[], others: Int32Array, count: number): boolean {
    if (count !== this.#others.length) return false;
    for (let i = 0; i < count; i++) {
      if (all[others[i] as number] !== this.#others[i]) return false;
    }
    return true;
  }

  /** The rooms of those that are no more before it, and of those that came; undefined where the rest changed places. */
  #roomsOfChanged(
    now: readonly ReadySolid[],
    roomAt: (place: number) => Float64Array,
    roomOf: (solid: ReadySolid) => Float64Array | undefined,
  ): Float64Array[] | undefined {
    const [before, after] = [new Set(this.#others), new Set(now)];
    const rooms: Float64Array[] = [];
    let [i, j] = [0, 0];
    while (i < this.#others.length || j < now.length) {
      const [one, other] = [this.#others[i], now[j]];
      if (one !== undefined && one === other) {
        i++;
        j++;
        continue;
      }
      if (one !== undefined && !after.has(one)) {
        const room = roomOf(one);
        if (room === undefined) return undefined;
        rooms.push(room);
        i++;
      } else if (other !== undefined && !before.has(other)) rooms.push(roomAt(j++));
      else return undefined;
      if (rooms.length > MANY) return undefined;
    }
    return rooms;
  }

  #forgetIn(room: Float64Array): void {
    const { lines, count, from, outlines, facetRooms } = this;
    for (let line = 0, at = 0; line < count; line++, at += LINE_SEEN) {
      if ((from[line] as number) < 0) continue;
      const [x0, y0, z0] = [lines[at] as number, lines[at + 1] as number, lines[at + 2] as number];
      const [x1, y1, z1] = [
        lines[at + 3] as number,
        lines[at + 4] as number,
        lines[at + 5] as number,
      ];
      const isIn = reaches(
        room,
        0,
        Math.min(x0, x1),
        Math.max(x0, x1),
        Math.min(y0, y1),
        Math.max(y0, y1),
        Math.min(z0, z1),
      );
      if (isIn) from[line] = UNASKED;
    }
    this.facets = undefined;
    for (let facet = 0, at = 0; facet < outlines.length; facet++, at += FACET_ROOM) {
      const isIn = reaches(
        room,
        0,
        facetRooms[at] as number,
        facetRooms[at + 1] as number,
        facetRooms[at + 2] as number,
        facetRooms[at + 3] as number,
        facetRooms[at + 4] as number,
      );
      if (isIn) outlines[facet] = undefined;
    }
  }

  /** Adds a line, by its ends as they lie in a list. */
  add(ends: Float64Array, isFront: boolean): void {
    const line = this.count++;
    for (let k = 0; k < LINE_SEEN; k++) this.lines[LINE_SEEN * line + k] = ends[k] as number;
    this.from[line] = isFront ? UNASKED : FAR_SIDE;
    this.#line = line;
  }

  /** Begins to ask about a line that was added before. */
  ask(line: number): void {
    this.#line = line;
  }

  /** It is known now what can be seen of the line, unless more is told: nothing. */
  answer(): void {
    this.from[this.#line] = this.stretches.length;
    this.to[this.#line] = this.stretches.length;
  }

  /** Takes down what can be seen of a facet, and the room around it; a facet on the far side has none. */
  addFacet(facet: number, outlines: readonly Outline[], room: Float64Array): void {
    this.outlines[facet] = outlines;
    this.facetRooms.set(room, FACET_ROOM * facet);
  }

  /** A stretch of the line can be seen, as shares of it. */
  see(from: number, to: number): void {
    this.stretches.push(from, to);
    this.to[this.#line] = this.stretches.length;
  }
}

/** What is kept of a solid: of each view square on, and of the one turned eye that was asked for again. */
interface Kept {
  readonly square: Map<string, SolidSeen>;
  turned?: SolidSeen;
  turnedKey?: string;
}

const kept = new WeakMap<ReadySolid, Kept>();
let lastTurned = '';

/** What of solids is kept from one view to the next from the same eye. */
export class KeptViews {
  readonly #key: string;
  readonly #isSquare: boolean;

  constructor(key: string, isSquare: boolean) {
    this.#key = key;
    this.#isSquare = isSquare;
  }

  /** As it was seen last from there. */
  of(solid: ReadySolid): SolidSeen | undefined {
    const all = kept.get(solid);
    if (this.#isSquare) return all?.square.get(this.#key);
    return all?.turnedKey === this.#key ? all.turned : undefined;
  }

  /** Keeps it as it is seen now. */
  keep(solid: ReadySolid, seen: SolidSeen): void {
    let all = kept.get(solid);
    if (all === undefined) {
      all = { square: new Map() };
      kept.set(solid, all);
    }
    if (this.#isSquare) all.square.set(this.#key, seen);
    else {
      all.turned = seen;
      all.turnedKey = this.#key;
    }
  }
}

/**
 * What is kept for an eye. Of one that is not square on nothing is, until the same is asked for a
 * second time: the steps of a turn would pay for it and never use it.
 */
export function keptViews({ azimuth, elevation }: Eye, backs: boolean): KeptViews | undefined {
  const key = `${azimuth} ${elevation} ${backs}`;
  const isSquare = azimuth % 90 === 0 && elevation % 90 === 0;
  if (isSquare) return new KeptViews(key, true);
  const isAgain = key === lastTurned;
  lastTurned = key;
  return isAgain ? new KeptViews(key, false) : undefined;
}
