import type { Segment } from '@kerfbook/drawing';

/** Nearer to each other than this, two lines are one, mm. */
const SAME = 1e-3;

type Outline = readonly (readonly [number, number])[];
type Span = readonly [from: number, to: number];

/**
 * Of the lines that are drawn, what lies on sides of some outlines: the lines of a piece, of all lines of a scene. A face
 * is seen in convex outlines, and where two of them meet there is nothing to draw.
 */
export function linesOfOutlines(
  outlines: readonly Outline[],
  drawn: readonly Segment[],
): readonly Segment[] {
  const spans: Span[][] = drawn.map(() => []);
  const lines = drawn.map(lineOf);
  for (const outline of outlines) {
    for (let i = 0; i < outline.length; i += 1) {
      const from = outline[i] as readonly [number, number];
      const to = outline[(i + 1) % outline.length] as readonly [number, number];
      for (const [k, line] of lines.entries()) {
        const shared = common(line, from, to);
        if (shared !== undefined) spans[k]?.push(shared);
      }
    }
  }
  return drawn.flatMap(({ x1, y1, x2, y2 }, k) =>
    merged(spans[k] ?? []).map(
      ([from, to]): Segment => ({
        x1: x1 + from * (x2 - x1),
        y1: y1 + from * (y2 - y1),
        x2: x1 + to * (x2 - x1),
        y2: y1 + to * (y2 - y1),
      }),
    ),
  );
}

interface Line extends Segment {
  readonly dx: number;
  readonly dy: number;
  readonly long: number;
  readonly left: number;
  readonly right: number;
}

function lineOf({ x1, y1, x2, y2 }: Segment): Line {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const [left, right] = [Math.min(x1, x2) - SAME, Math.max(x1, x2) + SAME];
  return { x1, y1, x2, y2, dx, dy, long: Math.hypot(dx, dy), left, right };
}

/** The stretch of a line, as shares of it, along which a side runs; undefined where it does not. */
function common(
  { x1, y1, dx, dy, long, left, right }: Line,
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
): Span | undefined {
  if ((ax < left && bx < left) || (ax > right && bx > right) || long < SAME) return undefined;
  const off = SAME * long;
  if (Math.abs((ax - x1) * dy - (ay - y1) * dx) > off) return undefined;
  if (Math.abs((bx - x1) * dy - (by - y1) * dx) > off) return undefined;
  const a = ((ax - x1) * dx + (ay - y1) * dy) / (long * long);
  const b = ((bx - x1) * dx + (by - y1) * dy) / (long * long);
  const from = Math.max(0, Math.min(a, b));
  const to = Math.min(1, Math.max(a, b));
  return (to - from) * long < SAME ? undefined : [from, to];
}

function merged(spans: readonly Span[]): readonly Span[] {
  const whole: [number, number][] = [];
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    const last = whole.at(-1);
    if (last !== undefined && from <= last[1] + 1e-6) last[1] = Math.max(last[1], to);
    else whole.push([from, to]);
  }
  return whole;
}
