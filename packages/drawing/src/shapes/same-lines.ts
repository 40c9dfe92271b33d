import type { Segment } from '../views.ts';
import { addStretch, holds, leftBetween, type StretchList } from './stretch-list.ts';

/** Lines nearer together than this are drawn as one, and shorter ones not at all, mm. */
export const SAME_LINE = 1e-4;

/** Lines are looked for among those of about the same direction and distance: so many directions, */
const DIRECTIONS = 2048;
/** so many mm, */
const APART = 1;
/** and in the next lot too where rounding could have put them there. */
const NEAR_BORDER = 1e-2;

/**
 * Where directions begin to count, radians: no furniture has many lines along it, so that lines of
 * one direction hardly ever come to stand on both ends of the count.
 */
const FIRST = -0.2917;

interface Line {
  /** Its direction. */
  readonly x: number;
  readonly y: number;
  /** How far to the left of the origin it runs. */
  readonly off: number;
  readonly visible: StretchList;
  readonly all: StretchList;
}

/**
 * Collects stretches of lines on the paper and gives each once, however many edges coincide there;
 * what is seen wins over what is hidden (ISO 128).
 */
export class SameLines {
  readonly #lots = new Map<number, Line[]>();
  readonly #lines: Line[] = [];
  /** The line that was added last: which it lies on, and where. */
  #line: Line | undefined;
  #start = 0;
  #rate = 0;

  /**
   * Adds a line by its ends. False where nothing is to be gained by knowing what can be seen of it:
   * along what is seen already, and where it is a point.
   */
  add(x0: number, y0: number, x1: number, y1: number): boolean {
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length <= SAME_LINE) return false;
    const line = this.#lineThrough(x0, y0, x1, y1, length);
    this.#start = line.x * x0 + line.y * y0;
    this.#rate = line.x * x1 + line.y * y1 - this.#start;
    const least = Math.min(this.#start, this.#start + this.#rate);
    const most = Math.max(this.#start, this.#start + this.#rate);
    if (holds(line.visible, least, most)) return false;
    addStretch(line.all, least, most, SAME_LINE);
    this.#line = line;
    return true;
  }

  /** What can be seen of the line that was added last, as shares of it. */
  see(shares: StretchList): void {
    for (let i = 0; i < shares.length; i += 2) {
      const one = this.#start + (shares[i] as number) * this.#rate;
      const other = this.#start + (shares[i + 1] as number) * this.#rate;
      if (this.#line === undefined || Math.abs(other - one) <= SAME_LINE) continue;
      addStretch(this.#line.visible, Math.min(one, other), Math.max(one, other), SAME_LINE);
    }
  }

  /** Each stretch of each line once. */
  settle(): { visible: Segment[]; hidden: Segment[] } {
    const visible: Segment[] = [];
    const hidden: Segment[] = [];
    for (const line of this.#lines) {
      addSegments(line, line.visible, visible);
      for (let i = 0; i < line.all.length; i += 2) {
        const [from, to] = [line.all[i] as number, line.all[i + 1] as number];
        addSegments(line, leftBetween(line.visible, from, to), hidden);
      }
    }
    return { visible, hidden };
  }

  #lineThrough(x0: number, y0: number, x1: number, y1: number, length: number): Line {
    const turned = (Math.atan2(y1 - y0, x1 - x0) - FIRST + 2 * Math.PI) / Math.PI;
    const halfTurns = Math.floor(turned);
    const along = (turned - halfTurns) * DIRECTIONS;
    // Of the two directions of a line, the one of the first half turn.
    const way = halfTurns % 2 === 0 ? 1 / length : -1 / length;
    const [x, y] = [(x1 - x0) * way, (y1 - y0) * way];
    const off = x * y0 - y * x0;
    const known = this.#known(along, off, x0, y0, x1, y1);
    if (known !== undefined) return known;
    const line: Line = { x, y, off, visible: [], all: [] };
    this.#lines.push(line);
    const key = keyOf(Math.floor(along), Math.floor(off / APART));
    const lot = this.#lots.get(key);
    if (lot === undefined) this.#lots.set(key, [line]);
    else lot.push(line);
    return line;
  }

  #known(
    along: number,
    off: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): Line | undefined {
    const direction = Math.floor(along);
    const beside = neighbour(along - direction);
    return (
      this.#among(direction, off, x0, y0, x1, y1) ??
      (beside === 0 ? undefined : this.#among(direction + beside, off, x0, y0, x1, y1))
    );
  }

  #among(
    direction: number,
    off: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): Line | undefined {
    // Past either end of the count a line comes back the other way round.
    const turns = direction < 0 || direction >= DIRECTIONS;
    const lot = turns ? (direction + DIRECTIONS) % DIRECTIONS : direction;
    const across = (turns ? -off : off) / APART;
    const place = Math.floor(across);
    const beside = neighbour(across - place);
    return (
      this.#inLot(keyOf(lot, place), x0, y0, x1, y1) ??
      (beside === 0 ? undefined : this.#inLot(keyOf(lot, place + beside), x0, y0, x1, y1))
    );
  }

  #inLot(key: number, x0: number, y0: number, x1: number, y1: number): Line | undefined {
    const lot = this.#lots.get(key);
    if (lot === undefined) return undefined;
    for (const line of lot) if (isOn(line, x0, y0) && isOn(line, x1, y1)) return line;
    return undefined;
  }
}

/** Which lot beside its own a place in a lot, from 0 to 1, is so near to that rounding may put it there. */
const neighbour = (within: number): -1 | 0 | 1 => {
  if (within < NEAR_BORDER) return -1;
  return within > 1 - NEAR_BORDER ? 1 : 0;
};

/** Of numbers that stay exact: 2,048 directions, and places up to 2^40 mm off. */
const keyOf = (direction: number, place: number): number => place * DIRECTIONS + direction;

const isOn = ({ x, y, off }: Line, px: number, py: number): boolean =>
  Math.abs(x * py - y * px - off) <= SAME_LINE;

function addSegments({ x, y, off }: Line, stretches: StretchList, into: Segment[]): void {
  for (let i = 0; i < stretches.length; i += 2) {
    const from = stretches[i] as number;
    const to = stretches[i + 1] as number;
    if (to - from <= SAME_LINE) continue;
    into.push({
      x1: x * from - y * off,
      y1: y * from + x * off,
      x2: x * to - y * off,
      y2: y * to + x * off,
    });
  }
}
