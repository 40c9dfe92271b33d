import { blockMeetings, type Corner } from '@kerfbook/wood';
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

/** All pairs of pieces no farther apart than `gap` mm along any axis. */
export function meetingsOf(pieces: readonly Piece[], gap: number): Meeting[] {
  const solids = pieces.map(solidOf);
  return blockMeetings(solids, gap).flatMap(({ first, second, reach }) => {
    const [one, other] = [solids[first], solids[second]];
    if (one === undefined || other === undefined) return [];
    const byAxis = alongAxes(reach);
    const axis = AXES.reduce((least, name) => (byAxis[name] < byAxis[least] ? name : least));
    const lower = middle(one, axis) <= middle(other, axis) ? first : second;
    return [{ first, second, reach: byAxis, axis, lower }];
  });
}

const alongAxes = ([x, y, z]: Corner): Readonly<Record<Axis, number>> => ({ x, y, z });

/** Twice the middle of a piece along an axis. */
const middle = ({ low, high }: Solid, axis: Axis): number =>
  at(low, AXES.indexOf(axis)) + at(high, AXES.indexOf(axis));
