import { mergeSpans, type Span, subtractSpans } from '../spans.ts';
import type { Segment } from '../views.ts';

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
  readonly visible: Span[];
  readonly all: Span[];
}

/**
 * Collects stretches of lines on the paper and gives each once, however many edges coincide there;
 * what is seen wins over what is hidden (ISO 128).
 */
export class SameLines {
  readonly #lots = new Map<number, Line[]>();
  readonly #lines: Line[] = [];

  /** Adds a line by its ends, with the shares of it that can be seen. A point adds nothing. */
  add(x0: number, y0: number, x1: number, y1: number, seen: readonly Span[]): void {
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length <= SAME_LINE) return;
    const line = this.#lineThrough(x0, y0, x1, y1, length);
    const start = line.x * x0 + line.y * y0;
    const rate = line.x * x1 + line.y * y1 - start;
    const place = (from: number, to: number): Span => {
      const [a, b] = [start + from * rate, start + to * rate];
      return a < b ? [a, b] : [b, a];
    };
    line.all.push(place(0, 1));
    for (const [from, to] of seen) line.visible.push(place(from, to));
  }

  /** Each stretch of each line once. */
  settle(): { visible: Segment[]; hidden: Segment[] } {
    const visible: Segment[] = [];
    const hidden: Segment[] = [];
    for (const line of this.#lines) {
      const seen = mergeSpans(line.visible, SAME_LINE).filter(long);
      for (const span of seen) visible.push(segmentOf(line, span));
      for (const span of subtractSpans(mergeSpans(line.all, SAME_LINE), seen)) {
        if (long(span)) hidden.push(segmentOf(line, span));
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
    for (const direction of lotsAt(along)) {
      // Past either end of the count a line comes back the other way round.
      const turns = direction < 0 || direction >= DIRECTIONS;
      const lot = (direction + DIRECTIONS) % DIRECTIONS;
      for (const place of lotsAt((turns ? -off : off) / APART)) {
        for (const line of this.#lots.get(keyOf(lot, place)) ?? []) {
          if (isOn(line, x0, y0) && isOn(line, x1, y1)) return line;
        }
      }
    }
    return undefined;
  }
}

/** The lot of a number, and the next one where the number is near its border. */
function lotsAt(value: number): readonly number[] {
  const lot = Math.floor(value);
  const within = value - lot;
  if (within < NEAR_BORDER) return [lot, lot - 1];
  return within > 1 - NEAR_BORDER ? [lot, lot + 1] : [lot];
}

/** Of numbers that stay exact: 2,048 directions, and places up to 2^40 mm off. */
const keyOf = (direction: number, place: number): number => place * DIRECTIONS + direction;

const isOn = ({ x, y, off }: Line, px: number, py: number): boolean =>
  Math.abs(x * py - y * px - off) <= SAME_LINE;

const long = ([from, to]: Span): boolean => to - from > SAME_LINE;

const segmentOf = ({ x, y, off }: Line, [from, to]: Span): Segment => ({
  x1: x * from - y * off,
  y1: y * from + x * off,
  x2: x * to - y * off,
  y2: y * to + x * off,
});
