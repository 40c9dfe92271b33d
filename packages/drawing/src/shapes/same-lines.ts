import type { Segment } from '../views.ts';
import { NONE, StretchPool } from './stretch-pool.ts';

/** Lines nearer together than this are drawn as one, and shorter ones not at all, mm. */
export const SAME_LINE = 1e-4;

/** Lines are looked for among those of about the same direction and distance: so many directions, */
const DIRECTIONS = 2048;
/** so many mm, */
const APART = 1;
/** and in the next lot too where rounding could have put them there. */
const NEAR_BORDER = 1e-2;
/** Where lots of distances begin, mm: furniture has many lines on whole millimetres. */
const ASIDE = 0.37;

/**
 * Where directions begin to count, radians: no furniture has many lines along it, so that lines of
 * one direction hardly ever come to stand on both ends of the count.
 */
const FIRST = -0.2917;
const [FIRST_X, FIRST_Y] = [Math.cos(FIRST), Math.sin(FIRST)];

/**
 * Collects stretches of lines on the paper and gives each once, however many edges coincide there;
 * what is seen wins over what is hidden (ISO 128). All is kept in numbers, as every step of a turn
 * goes through thousands of lines.
 */
export class SameLines {
  readonly #stretches: StretchPool;
  #count = 0;
  /** Directions of lines, */
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  /** how far to the left of the origin each runs, */
  readonly #off: Float64Array;
  /** its stretches that are seen, and all of them, */
  readonly #visible: Int32Array;
  readonly #all: Int32Array;
  /** and the next line of its lot. */
  readonly #next: Int32Array;
  /** For each lot its direction, its distance and its first line. */
  readonly #directions: Int32Array;
  readonly #places: Int32Array;
  readonly #lots: Int32Array;
  /** The line that was added last: which it lies on, and where. */
  #line = NONE;
  #start = 0;
  #rate = 0;

  /** Has room for so many lines. */
  constructor(room: number) {
    this.#stretches = new StretchPool(2 * room + 16);
    this.#x = new Float64Array(room);
    this.#y = new Float64Array(room);
    this.#off = new Float64Array(room);
    this.#visible = new Int32Array(room);
    this.#all = new Int32Array(room);
    this.#next = new Int32Array(room);
    const lots = 2 ** Math.ceil(Math.log2(2 * room + 2));
    this.#directions = new Int32Array(lots);
    this.#places = new Int32Array(lots);
    this.#lots = new Int32Array(lots).fill(NONE);
  }

  /** Forgets all lines. */
  clear(): void {
    this.#count = 0;
    this.#line = NONE;
    this.#stretches.clear();
    this.#lots.fill(NONE);
  }

  /**
   * Adds a line by its ends. False where nothing is to be gained by knowing what can be seen of it:
   * along what is seen already, and where it is a point.
   */
  add(x0: number, y0: number, x1: number, y1: number): boolean {
    const dx = x1 - x0;
    const dy = y1 - y0;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length <= SAME_LINE) return false;
    const line = this.#lineThrough(x0, y0, x1, y1, length);
    const x = this.#x[line] as number;
    const y = this.#y[line] as number;
    this.#start = x * x0 + y * y0;
    this.#rate = x * x1 + y * y1 - this.#start;
    const least = Math.min(this.#start, this.#start + this.#rate);
    const most = Math.max(this.#start, this.#start + this.#rate);
    if (this.#stretches.holds(this.#visible[line] as number, least, most)) return false;
    this.#all[line] = this.#stretches.add(this.#all[line] as number, least, most, SAME_LINE);
    this.#line = line;
    return true;
  }

  /** What can be seen of the line that was added last: a stretch, as shares of it. */
  see(from: number, to: number): void {
    const one = this.#start + from * this.#rate;
    const other = this.#start + to * this.#rate;
    const line = this.#line;
    if (line === NONE || Math.abs(other - one) <= SAME_LINE) return;
    this.#visible[line] = this.#stretches.add(
      this.#visible[line] as number,
      Math.min(one, other),
      Math.max(one, other),
      SAME_LINE,
    );
  }

  /** Each stretch of each line once. */
  settle(): { visible: Segment[]; hidden: Segment[] } {
    const visible: Segment[] = [];
    const hidden: Segment[] = [];
    const { from, to, next } = this.#stretches;
    for (let line = 0; line < this.#count; line++) {
      const seen = this.#visible[line] as number;
      for (let at = seen; at !== NONE; at = next[at] as number) {
        this.#addSegment(line, from[at] as number, to[at] as number, visible);
      }
      for (let at = this.#all[line] as number; at !== NONE; at = next[at] as number) {
        this.#addHidden(line, seen, from[at] as number, to[at] as number, hidden);
      }
    }
    return { visible, hidden };
  }

  /** What of a stretch is left when those that are seen are taken away. */
  #addHidden(line: number, seen: number, begin: number, end: number, into: Segment[]): void {
    const { from, to, next } = this.#stretches;
    let start = begin;
    for (let at = seen; at !== NONE; at = next[at] as number) {
      const [goneFrom, goneTo] = [from[at] as number, to[at] as number];
      if (goneTo <= start) continue;
      if (goneFrom >= end) break;
      if (goneFrom > start) this.#addSegment(line, start, goneFrom, into);
      start = goneTo;
    }
    if (start < end) this.#addSegment(line, start, end, into);
  }

  #addSegment(line: number, from: number, to: number, into: Segment[]): void {
    if (to - from <= SAME_LINE) return;
    const x = this.#x[line] as number;
    const y = this.#y[line] as number;
    const off = this.#off[line] as number;
    into.push({
      x1: x * from - y * off,
      y1: y * from + x * off,
      x2: x * to - y * off,
      y2: y * to + x * off,
    });
  }

  #lineThrough(x0: number, y0: number, x1: number, y1: number, length: number): number {
    // Of the two directions of a line, the one of the first half turn.
    const away = (y1 - y0) * FIRST_X - (x1 - x0) * FIRST_Y;
    const way = away > 0 || (away === 0 && x1 > x0) ? 1 / length : -1 / length;
    const x = (x1 - x0) * way;
    const y = (y1 - y0) * way;
    const ahead = x * FIRST_X + y * FIRST_Y;
    const aside = away * way;
    // Rises all the way from 0 to 2, as the angle does from 0 to half a turn, and costs less.
    const turn = ahead >= 0 ? aside / (ahead + aside) : 2 - aside / (aside - ahead);
    const along = turn * (DIRECTIONS / 2);
    const direction = Math.min(DIRECTIONS - 1, Math.floor(along));
    const off = x * y0 - y * x0;
    const known = this.#known(direction, along - direction, off, x0, y0, x1, y1);
    if (known !== NONE) return known;
    const line = this.#count++;
    this.#x[line] = x;
    this.#y[line] = y;
    this.#off[line] = off;
    this.#visible[line] = NONE;
    this.#all[line] = NONE;
    const lot = this.#lotOf(direction, placeOf(off));
    this.#next[line] = this.#lots[lot] as number;
    this.#lots[lot] = line;
    return line;
  }

  #known(
    direction: number,
    within: number,
    off: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): number {
    const own = this.#among(direction, off, x0, y0, x1, y1);
    const beside = neighbour(within);
    if (own !== NONE || beside === 0) return own;
    return this.#among(direction + beside, off, x0, y0, x1, y1);
  }

  #among(direction: number, off: number, x0: number, y0: number, x1: number, y1: number): number {
    // Past either end of the count a line comes back the other way round.
    const turns = direction < 0 || direction >= DIRECTIONS;
    const lot = turns ? (direction + DIRECTIONS) % DIRECTIONS : direction;
    const across = turns ? -off : off;
    const place = placeOf(across);
    const own = this.#inLot(lot, place, x0, y0, x1, y1);
    const beside = neighbour((across + ASIDE) / APART - place);
    if (own !== NONE || beside === 0) return own;
    return this.#inLot(lot, place + beside, x0, y0, x1, y1);
  }

  #inLot(direction: number, place: number, x0: number, y0: number, x1: number, y1: number): number {
    let line = this.#lots[this.#lotOf(direction, place)] as number;
    while (line !== NONE && !(this.#isOn(line, x0, y0) && this.#isOn(line, x1, y1))) {
      line = this.#next[line] as number;
    }
    return line;
  }

  #isOn(line: number, px: number, py: number): boolean {
    const x = this.#x[line] as number;
    const y = this.#y[line] as number;
    return Math.abs(x * py - y * px - (this.#off[line] as number)) <= SAME_LINE;
  }

  /** Where a lot is kept; an empty place is made its own. */
  #lotOf(direction: number, place: number): number {
    const mask = this.#lots.length - 1;
    const far = place | 0;
    let slot = Math.imul(direction, 73856093) ^ Math.imul(far, 19349663);
    for (slot = (slot ^ (slot >>> 15)) & mask; ; slot = (slot + 1) & mask) {
      if (this.#lots[slot] === NONE) {
        this.#directions[slot] = direction;
        this.#places[slot] = far;
        return slot;
      }
      if (this.#directions[slot] === direction && this.#places[slot] === far) return slot;
    }
  }
}

const placeOf = (off: number): number => Math.floor((off + ASIDE) / APART);

/** Which lot beside its own a place in a lot, from 0 to 1, is so near to that rounding may put it there. */
const neighbour = (within: number): -1 | 0 | 1 => {
  if (within < NEAR_BORDER) return -1;
  return within > 1 - NEAR_BORDER ? 1 : 0;
};
