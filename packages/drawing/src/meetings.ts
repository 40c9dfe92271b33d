import { AXES, type Axis, type Piece } from './scene.ts';
import { at, type Solid, solidOf } from './solid.ts';

/** How two pieces stand to each other; `first` and `second` count the pieces given. */
export interface Meeting {
  readonly first: number;
  readonly second: number;
  /** For each axis, how far they reach into each other, mm; negative is the gap between them. */
  readonly reach: Readonly<Record<Axis, number>>;
  /** The axis along which they reach into each other least: the one they are pulled apart along. */
  readonly axis: Axis;
  /** The lower piece along that axis: `first` or `second`. */
  readonly lower: number;
}

/**
 * All pairs of pieces no farther apart than `gap` mm along any axis. Pieces are sorted along x, so
 * that each is only compared with those that begin before it ends.
 */
export function meetingsOf(pieces: readonly Piece[], gap: number): Meeting[] {
  const sorted = pieces
    .map((piece, index) => ({ solid: solidOf(piece), index }))
    .sort((a, b) => a.solid.low[0] - b.solid.low[0] || a.index - b.index);
  const found: Meeting[] = [];
  for (const [place, one] of sorted.entries()) {
    for (let next = place + 1; next < sorted.length; next++) {
      const other = sorted[next];
      if (other === undefined || other.solid.low[0] > one.solid.high[0] + gap) break;
      const [a, b] = one.index < other.index ? [one, other] : [other, one];
      const meeting = meetingOf(a, b, gap);
      if (meeting !== undefined) found.push(meeting);
    }
  }
  return found.sort((a, b) => a.first - b.first || a.second - b.second);
}

interface Counted {
  readonly solid: Solid;
  readonly index: number;
}

function meetingOf(one: Counted, other: Counted, gap: number): Meeting | undefined {
  const x = reachOf(one.solid, other.solid, 0);
  if (x < -gap) return undefined;
  const y = reachOf(one.solid, other.solid, 1);
  if (y < -gap) return undefined;
  const z = reachOf(one.solid, other.solid, 2);
  if (z < -gap) return undefined;
  const reach = { x, y, z };
  const axis = AXES.reduce((least, name) => (reach[name] < reach[least] ? name : least));
  const middle = ({ low, high }: Solid): number =>
    at(low, AXES.indexOf(axis)) + at(high, AXES.indexOf(axis));
  const lower = middle(one.solid) <= middle(other.solid) ? one.index : other.index;
  return { first: one.index, second: other.index, reach, axis, lower };
}

/** Rounded to nanometres, so that faces that meet are neither apart nor inside each other. */
function reachOf(a: Solid, b: Solid, axis: number): number {
  const end = Math.min(at(a.high, axis), at(b.high, axis));
  const begin = Math.max(at(a.low, axis), at(b.low, axis));
  return Math.round((end - begin) * 1e6) / 1e6;
}
