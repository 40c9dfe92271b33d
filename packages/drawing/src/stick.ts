import type { Gaze, Triple } from './eye.ts';
import {
  across,
  at,
  bandsOf,
  inFrontOf,
  ON_OUTLINE,
  others,
  replaced,
  type Solid,
  seenEndOn,
} from './solid.ts';
import { mergeSpans, type Span, subtractSpans } from './spans.ts';

/** A straight line along an axis, such as an edge of a box; mm. */
export interface Stick {
  readonly axis: number;
  /** A point on its line; its coordinate along the axis says nothing. */
  readonly through: Triple;
  readonly from: number;
  readonly to: number;
}

/** The stretches of a stick that boxes in front of it hide, in order, along its axis. */
export function hiddenOf(stick: Stick, solids: readonly Solid[], gaze: Gaze): Span[] {
  const gone: Span[] = [];
  for (const solid of solids) {
    const span = hiddenBy(stick, solid, gaze);
    if (span !== undefined) gone.push(span);
  }
  return mergeSpans(gone);
}

export const seenOf = (stick: Stick, hidden: readonly Span[]): Span[] =>
  subtractSpans([[stick.from, stick.to]], hidden);

/**
 * Only what of the box is nearer than the stick counts, and as the line of sight runs off from the
 * stick in one direction along each axis, that is the box cut by two planes: a box again. The
 * stick is hidden where it lies within that box's outline; on the outline two lines coincide.
 */
function hiddenBy(stick: Stick, solid: Solid, gaze: Gaze): Span | undefined {
  const { axis, through } = stick;
  const [i, j] = others(axis);
  const nearer = inFrontOf(solid, i, at(through, i), gaze);
  const both = nearer && inFrontOf(nearer, j, at(through, j), gaze);
  if (both === undefined) return undefined;
  const bands = bandsOf(both, gaze);
  const start = replaced(through, axis, 0);
  const along: Triple = replaced([0, 0, 0], axis, 1);
  let { from, to } = stick;
  for (const [side, [low, high]] of bands.entries()) {
    if (seenEndOn(side, gaze)) continue;
    const value = across(side, start, gaze);
    const rate = across(side, along, gaze);
    if (rate === 0) {
      if (value <= low + ON_OUTLINE || value >= high - ON_OUTLINE) return undefined;
      continue;
    }
    const ends = [(low - value) / rate, (high - value) / rate] as const;
    from = Math.max(from, Math.min(...ends));
    to = Math.min(to, Math.max(...ends));
    if (to - from <= ON_OUTLINE) return undefined;
  }
  return [from, to];
}
