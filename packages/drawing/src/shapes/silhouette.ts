import type { Convex, Solid } from '@kerfbook/solids';
import type { Gaze } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import { mergeSpans, type Span, subtractSpans } from '../spans.ts';
import type { Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';

type Spot = readonly [number, number];

/** Nearer together than this is one place on the paper, mm. */
const ON = 1e-5;
/** What is left of a side and shorter than this is rounding, mm. */
const SPECK = 1e-4;

/** What a solid covers of the paper: the outline of each of its cells, anticlockwise; they may overlap. */
export const silhouetteOf = ({ cells }: Solid, gaze: Gaze): Outline[] =>
  cells.map((cell) => hullOf(cell, gaze)).filter((outline) => outline.length > 2);

/** The outline of a convex body. */
function hullOf({ facets }: Convex, gaze: Gaze): Outline {
  const spots = facets
    .flatMap(({ points }) => points.map((point) => paperOf(point, gaze)))
    .sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const lower = half(spots);
  const upper = half(spots.reverse());
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

function half(spots: readonly Spot[]): Spot[] {
  const chain: Spot[] = [];
  for (const spot of spots) {
    while (chain.length > 1 && !turnsLeft(chain.at(-2), chain.at(-1), spot)) chain.pop();
    const last = chain.at(-1);
    if (last === undefined || Math.hypot(last[0] - spot[0], last[1] - spot[1]) > ON) {
      chain.push(spot);
    }
  }
  return chain;
}

function turnsLeft([ax, ay]: Spot = [0, 0], [bx, by]: Spot = [0, 0], [cx, cy]: Spot): boolean {
  const base = Math.hypot(cx - ax, cy - ay);
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > ON * base;
}

/** The rim of what outlines cover together: what of their sides lies in none of the others. */
export function rimOf(outlines: readonly Outline[]): Segment[] {
  return outlines.flatMap((outline, index) =>
    sidesOf(outline).flatMap(([from, to]) => {
      const gone: Span[] = outlines.flatMap((other, place) =>
        place === index ? [] : (within(from, to, other, place < index) ?? []),
      );
      const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
      const left = subtractSpans([[0, 1]], mergeSpans(gone));
      // Where the corners of neighbours meet, rounding leaves specks.
      return left
        .filter(([a, b]) => (b - a) * long > SPECK)
        .map(
          ([a, b]): Segment => ({
            x1: from[0] + a * (to[0] - from[0]),
            y1: from[1] + a * (to[1] - from[1]),
            x2: from[0] + b * (to[0] - from[0]),
            y2: from[1] + b * (to[1] - from[1]),
          }),
        );
    }),
  );
}

const sidesOf = (outline: Outline): (readonly [Spot, Spot])[] =>
  outline.map((spot, index) => [spot, outline[(index + 1) % outline.length] ?? spot]);

/**
 * The share of a side that lies in an outline. On its rim a side is taken away where the two run
 * against each other, as the walls of neighbours do, and of two that run along only one is kept.
 */
function within(from: Spot, to: Spot, outline: Outline, first: boolean): Span[] | undefined {
  let [low, high] = [0, 1];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  for (const [a, b] of sidesOf(outline)) {
    const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
    const length = Math.hypot(ex, ey);
    const start = (ex * (from[1] - a[1]) - ey * (from[0] - a[0])) / length;
    const rate = (ex * dy - ey * dx) / length;
    if (Math.abs(start) < ON && Math.abs(start + rate) < ON) {
      if (ex * dx + ey * dy > 0 && !first) return undefined;
      continue;
    }
    if (Math.abs(rate) < 1e-12) {
      if (start < 0) return undefined;
      continue;
    }
    const cross = -start / rate;
    if (rate > 0) low = Math.max(low, cross);
    else high = Math.min(high, cross);
    if (low >= high) return undefined;
  }
  return [[low, high]];
}

/** Whether a place lies in a convex outline whose corners come anticlockwise. */
export const isWithin = (outline: Outline, x: number, y: number): boolean =>
  sidesOf(outline).every(([[ax, ay], [bx, by]]) => (bx - ax) * (y - ay) >= (by - ay) * (x - ax));
