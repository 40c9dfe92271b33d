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
/** Numbers of a line in the lists of them; with a fourth one those of one lie together in memory. */
const LINE = 4;
/** Numbers of a lot in the list of them, likewise. */
const LOT = 4;
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
  readonly #stretches = new StretchPool(64);
  #count = 0;
  /** Three numbers for each line: its direction on the paper, and how far to the left of the origin it runs. */
  #lines: Float64Array = new Float64Array(0);
  /** Three for each: its stretches that are seen, all of them, and the next line of its lot. */
  #lists: Int32Array = new Int32Array(0);
  /** Three numbers for each lot, side by side as they are asked for together: its first line, its direction and its distance. */
  #lots: Int32Array = new Int32Array(0);
  #mask = 0;
  /** Whether what is hidden is told too. */
  #hasHidden = true;
  /** Ends of the line that is added. */
  #x0 = 0;
  #y0 = 0;
  #x1 = 0;
  #y1 = 0;
  /** The line that was added last: which it lies on, and where. */
  #line = NONE;
  #start = 0;
  #rate = 0;

  /** Forgets all lines, and has room for so many others; whether what is hidden of them is to be told. */
  begin(room: number, hidden: boolean): void {
    this.#hasHidden = hidden;
    if (LINE * room > this.#lines.length) {
      this.#lines = new Float64Array(LINE * room);
      this.#lists = new Int32Array(LINE * room);
    }
    const lots = 2 ** Math.ceil(Math.log2(2 * room + 2));
    if (LOT * lots > this.#lots.length) this.#lots = new Int32Array(LOT * lots);
    this.#mask = lots - 1;
    this.#count = 0;
    this.#line = NONE;
    this.#stretches.clear();
    this.#lots.fill(NONE, 0, LOT * lots);
  }

  /**
   * Adds a line by its ends, as they lie in a list; see `LINE_SEEN`. False where nothing is to be gained by
   * knowing what can be seen of it: along what is seen already, and where it is a point.
   */
  add(ends: Float64Array, at: number): boolean {
    const x0 = ends[at] as number;
    const y0 = ends[at + 1] as number;
    const x1 = ends[at + 3] as number;
    const y1 = ends[at + 4] as number;
    const dx = x1 - x0;
    const dy = y1 - y0;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length <= SAME_LINE) return false;
    this.#x0 = x0;
    this.#y0 = y0;
    this.#x1 = x1;
    this.#y1 = y1;
    const line = this.#lineThrough(length);
    const lists = this.#lists;
    const x = this.#lines[line] as number;
    const y = this.#lines[line + 1] as number;
    const start = x * x0 + y * y0;
    const rate = x * x1 + y * y1 - start;
    const end = start + rate;
    const least = Math.min(start, end);
    const most = Math.max(start, end);
    if (this.#stretches.holds(lists[line] as number, least, most)) return false;
    if (this.#hasHidden) {
      lists[line + 1] = this.#stretches.add(lists[line + 1] as number, least, most, SAME_LINE);
    }
    this.#start = start;
    this.#rate = rate;
    this.#line = line;
    return true;
  }

  /** What can be seen of the line that was added last: a stretch, as shares of it. */
  see(from: number, to: number): void {
    const one = this.#start + from * this.#rate;
    const other = this.#start + to * this.#rate;
    const line = this.#line;
    if (line === NONE || Math.abs(other - one) <= SAME_LINE) return;
    this.#lists[line] = this.#stretches.add(
      this.#lists[line] as number,
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
    const end = LINE * this.#count;
    for (let line = 0; line < end; line += LINE) {
      const seen = this.#lists[line] as number;
      for (let at = seen; at !== NONE; at = next[at] as number) {
        this.#addSegment(line, from[at] as number, to[at] as number, visible);
      }
      for (let at = this.#lists[line + 1] as number; at !== NONE; at = next[at] as number) {
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
    const x = this.#lines[line] as number;
    const y = this.#lines[line + 1] as number;
    const off = this.#lines[line + 2] as number;
    into.push({
      x1: x * from - y * off,
      y1: y * from + x * off,
      x2: x * to - y * off,
      y2: y * to + x * off,
    });
  }

  #lineThrough(length: number): number {
    const dx = this.#x1 - this.#x0;
    const dy = this.#y1 - this.#y0;
    // Of the two directions of a line, the one of the first half turn.
    const away = dy * FIRST_X - dx * FIRST_Y;
    const way = away > 0 || (away === 0 && dx > 0) ? 1 / length : -1 / length;
    const x = dx * way;
    const y = dy * way;
    const ahead = x * FIRST_X + y * FIRST_Y;
    const aside = away * way;
    // Rises all the way from 0 to 2, as the angle does from 0 to half a turn, and costs less.
    const turn = ahead >= 0 ? aside / (ahead + aside) : 2 - aside / (aside - ahead);
    const along = turn * (DIRECTIONS / 2);
    const direction = Math.min(DIRECTIONS - 1, Math.floor(along));
    const off = x * this.#y0 - y * this.#x0;
    const known = this.#known(direction, along - direction, off);
    if (known !== NONE) return known;
    const line = LINE * this.#count++;
    const lot = this.#lotOf(direction, placeOf(off));
    this.#lines[line] = x;
    this.#lines[line + 1] = y;
    this.#lines[line + 2] = off;
    this.#lists[line] = NONE;
    this.#lists[line + 1] = NONE;
    this.#lists[line + 2] = this.#lots[lot] as number;
    this.#lots[lot] = line;
    return line;
  }

  #known(direction: number, within: number, off: number): number {
    const own = this.#among(direction, off);
    const beside = neighbour(within);
    if (own !== NONE || beside === 0) return own;
    return this.#among(direction + beside, off);
  }

  #among(direction: number, off: number): number {
    // Past either end of the count a line comes back the other way round.
    const turns = direction < 0 || direction >= DIRECTIONS;
    const lot = turns ? (direction + DIRECTIONS) % DIRECTIONS : direction;
    const across = turns ? -off : off;
    const place = placeOf(across);
    const own = this.#inLot(lot, place);
    const beside = neighbour((across + ASIDE) / APART - place);
    if (own !== NONE || beside === 0) return own;
    return this.#inLot(lot, place + beside);
  }

  #inLot(direction: number, place: number): number {
    let line = this.#lots[this.#lotOf(direction, place)] as number;
    while (line !== NONE && !this.#isOn(line)) line = this.#lists[line + 2] as number;
    return line;
  }

  /** Whether both ends of what is added lie on a line. */
  #isOn(line: number): boolean {
    const x = this.#lines[line] as number;
    const y = this.#lines[line + 1] as number;
    const off = this.#lines[line + 2] as number;
    return (
      Math.abs(x * this.#y0 - y * this.#x0 - off) <= SAME_LINE &&
      Math.abs(x * this.#y1 - y * this.#x1 - off) <= SAME_LINE
    );
  }

  /** Where a lot is kept; an empty place is made its own. */
  #lotOf(direction: number, place: number): number {
    const mask = this.#mask;
    const lots = this.#lots;
    const far = place | 0;
    let slot = Math.imul(direction, 73856093) ^ Math.imul(far, 19349663);
    for (slot = (slot ^ (slot >>> 15)) & mask; ; slot = (slot + 1) & mask) {
      const at = LOT * slot;
      if (lots[at] === NONE) {
        lots[at + 1] = direction;
        lots[at + 2] = far;
        return at;
      }
      if (lots[at + 1] === direction && lots[at + 2] === far) return at;
    }
  }
}

const placeOf = (off: number): number => Math.floor((off + ASIDE) / APART);

/** Which lot beside its own a place in a lot, from 0 to 1, is so near to that rounding may put it there. */
const neighbour = (within: number): -1 | 0 | 1 => {
  if (within < NEAR_BORDER) return -1;
  return within > 1 - NEAR_BORDER ? 1 : 0;
};
