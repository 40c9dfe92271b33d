import type { Gaze, Triple } from './eye.ts';
import { at, least, most, ON_OUTLINE, others, type Solid } from './solid.ts';
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
 *
 * Plain numbers throughout, as this runs for every edge with every box that may be before it.
 */
function hiddenBy(stick: Stick, { low, high }: Solid, { toEye }: Gaze): Span | undefined {
  const k = stick.axis;
  const [i, j] = others(k);
  const [ei, ej, ek] = [at(toEye, i), at(toEye, j), at(toEye, k)];
  const [pi, pj] = [at(stick.through, i), at(stick.through, j)];
  let [lowI, highI, lowJ, highJ] = [at(low, i), at(high, i), at(low, j), at(high, j)];
  if (ei > 0) lowI = Math.max(lowI, pi);
  if (ei < 0) highI = Math.min(highI, pi);
  if (ej > 0) lowJ = Math.max(lowJ, pj);
  if (ej < 0) highJ = Math.min(highJ, pj);
  if (lowI >= highI || lowJ >= highJ) return undefined;
  // The sides of the outline along the stick's own axis: within or without them as a whole.
  const place = ej * pi - ei * pj;
  const nearest = least(ej, lowI, highI) + least(-ei, lowJ, highJ);
  const farthest = most(ej, lowI, highI) + most(-ei, lowJ, highJ);
  if (place <= nearest + ON_OUTLINE || place >= farthest - ON_OUTLINE) return undefined;
  const [lowK, highK] = [at(low, k), at(high, k)];
  const one = crossing(ek, pj, lowJ, highJ, -ej, lowK, highK, stick);
  const two = one && crossing(-ek, pi, lowI, highI, ei, lowK, highK, one);
  return two === undefined ? undefined : [two.from, two.to];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The part of a stretch between the two sides of an outline that are parallel to another axis: for
 * which t does `a·p + rate·t` lie among the values `a·[low, high] + rate·[lowK, highK]`?
 */
function crossing(
  a: number,
  p: number,
  low: number,
  high: number,
  rate: number,
  lowK: number,
  highK: number,
  stretch: Stretch,
): Stretch | undefined {
  // Looked at along that axis, it is a point on the paper and the outline has no such sides.
  if (a === 0 && rate === 0) return stretch;
  const first = least(a, low, high) + least(rate, lowK, highK) - a * p;
  const last = most(a, low, high) + most(rate, lowK, highK) - a * p;
  if (rate === 0) return first < -ON_OUTLINE && last > ON_OUTLINE ? stretch : undefined;
  const from = Math.max(stretch.from, (rate > 0 ? first : last) / rate);
  const to = Math.min(stretch.to, (rate > 0 ? last : first) / rate);
  return to - from > ON_OUTLINE ? { from, to } : undefined;
}
