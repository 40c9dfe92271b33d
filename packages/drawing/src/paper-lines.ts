import type { Gaze } from './eye.ts';
import { at } from './solid.ts';
import { mergeSpans, type Span, subtractSpans } from './spans.ts';
import type { Stick } from './stick.ts';
import type { Segment } from './views.ts';

/** Lines nearer together than this are drawn as one, mm. */
const SAME_LINE = 1e-4;

interface Direction {
  readonly x: number;
  readonly y: number;
}

interface Line {
  readonly direction: Direction;
  readonly off: number;
  readonly visible: Span[];
  readonly all: Span[];
}

/**
 * Collects stretches of sticks as the paper shows them, and gives each stretch of a line on the
 * paper once, however many edges coincide there; what is seen wins over what is hidden (ISO 128).
 */
export class PaperLines {
  readonly #gaze: Gaze;
  readonly #directions: readonly (Direction | undefined)[];
  readonly #lines = new Map<string, Line>();

  constructor(gaze: Gaze) {
    this.#gaze = gaze;
    this.#directions = directionsOf(gaze);
  }

  /** Adds a stick with the stretches of it that can be seen. One that is seen end on adds nothing. */
  add({ axis, through, from, to }: Stick, seen: readonly Span[]): void {
    const direction = this.#directions[axis];
    if (direction === undefined) return;
    const zero = paperOf(
      through.map((value, i) => (i === axis ? 0 : value)),
      this.#gaze,
    );
    const [gx, gy] = generator(axis, this.#gaze);
    const off = direction.x * zero[1] - direction.y * zero[0];
    const start = direction.x * zero[0] + direction.y * zero[1];
    const rate = direction.x * gx + direction.y * gy;
    const place = ([a, b]: Span): Span => {
      const ends = [start + a * rate, start + b * rate] as const;
      return [Math.min(...ends), Math.max(...ends)];
    };
    const line = this.#lineAt(direction, off);
    line.all.push(place([from, to]));
    for (const span of seen) line.visible.push(place(span));
  }

  settle(): { visible: Segment[]; hidden: Segment[] } {
    const visible: Segment[] = [];
    const hidden: Segment[] = [];
    const long = ([from, to]: Span): boolean => to - from > SAME_LINE;
    for (const { direction, off, visible: seen, all } of this.#lines.values()) {
      const merged = mergeSpans(seen).filter(long);
      const make = ([from, to]: Span): Segment => ({
        x1: direction.x * from - direction.y * off,
        y1: direction.y * from + direction.x * off,
        x2: direction.x * to - direction.y * off,
        y2: direction.y * to + direction.x * off,
      });
      visible.push(...merged.map(make));
      hidden.push(...subtractSpans(mergeSpans(all), merged).filter(long).map(make));
    }
    return { visible, hidden };
  }

  #lineAt(direction: Direction, off: number): Line {
    const key = `${this.#directions.indexOf(direction)} ${Math.round(off / SAME_LINE)}`;
    let line = this.#lines.get(key);
    if (line === undefined) {
      line = { direction, off, visible: [], all: [] };
      this.#lines.set(key, line);
    }
    return line;
  }
}

/** A point of space on the paper, mm. */
export function paperOf(point: readonly number[], { right, up }: Gaze): readonly [number, number] {
  const [x = 0, y = 0, z = 0] = point;
  return [x * right[0] + y * right[1] + z * right[2], x * up[0] + y * up[1] + z * up[2]];
}

const generator = (axis: number, { right, up }: Gaze): readonly [number, number] => [
  at(right, axis),
  at(up, axis),
];

/** The axes as the paper shows them; axes that fall on one line share one direction. */
function directionsOf(gaze: Gaze): (Direction | undefined)[] {
  const known: Direction[] = [];
  return [0, 1, 2].map((axis) => {
    const [x, y] = generator(axis, gaze);
    const length = Math.hypot(x, y);
    if (length < 1e-9) return undefined;
    const same = known.find((d) => Math.abs(d.x * y - d.y * x) < 1e-9 * length);
    if (same !== undefined) return same;
    const direction = { x: x / length, y: y / length };
    known.push(direction);
    return direction;
  });
}
