import { facesOnto, type Triple, touching } from '@kerfbook/solids';
import { type BlockMeeting, blockMeetings, type Corner } from '@kerfbook/wood';
import { AXES, type Axis, type Piece, type Point } from './scene.ts';
import { solidOf as shapeOf } from './shapes/scene-solids.ts';
import { at, type Solid, solidOf } from './solid.ts';

/** How two pieces stand to each other; `first` and `second` count the pieces given. */
export interface Meeting {
  readonly first: number;
  readonly second: number;
  /**
   * For each axis, how far they reach into each other, mm; negative is the gap between them. Of shaped pieces,
   * how far the place goes at which they touch.
   */
  readonly reach: Readonly<Record<Axis, number>>;
  /** The middle of the place where they meet, mm. */
  readonly middle: Point;
  /** Whether one of them is shaped: its box tells nothing of what it shares with the other. */
  readonly shaped: boolean;
}

/** How two pieces that meet come apart. */
export interface Parting {
  /** The axis along which they are pulled apart. */
  readonly axis: Axis;
  /** The lower piece along that axis: `first` or `second`. */
  readonly lower: number;
}

/** All pairs of pieces no farther apart than `gap` mm: boxes along any axis, shaped pieces as they are. */
export function meetingsOf(pieces: readonly Piece[], gap: number): Meeting[] {
  const solids = pieces.map(solidOf);
  return blockMeetings(solids, gap).flatMap((meeting) => {
    const [one, other] = [pieces[meeting.first], pieces[meeting.second]];
    if (one === undefined || other === undefined) return [];
    if (one.solid !== undefined || other.solid !== undefined) {
      return shapedMeeting(meeting, one, other, gap);
    }
    const { first, second, reach } = meeting;
    const middle = pointOf(AXES.map((axis) => middleOf(one, other, axis)));
    return [{ first, second, reach: alongAxes(reach), middle, shaped: false }];
  });
}

function shapedMeeting(
  { first, second }: BlockMeeting,
  one: Piece,
  other: Piece,
  gap: number,
): Meeting[] {
  const met = touching(shapeOf(one), shapeOf(other), gap);
  if (met === undefined) return [];
  const { low, high } = met;
  // What touches lies within the gap of both: a plane that both lie in is as thick as the gap.
  const reach = AXES.map((_, k) => (high[k] ?? 0) - (low[k] ?? 0) - gap);
  const middle = pointOf(AXES.map((_, k) => ((high[k] ?? 0) + (low[k] ?? 0)) / 2));
  return [{ first, second, reach: pointOf(reach), middle, shaped: true }];
}

/**
 * Boxes are pulled apart along the axis on which they reach into each other least. Shaped pieces go the way that
 * leads away from the faces they touch on, as a tenon goes out of its mortise; if none does, as boxes.
 */
export function partingOf(meeting: Meeting, pieces: readonly Piece[], gap: number): Parting {
  const { first, second, reach, shaped } = meeting;
  const [one, other] = [pieces[first], pieces[second]];
  if (one === undefined || other === undefined) throw new Error('a meeting is of two pieces');
  const out = shaped ? wayOut(facesOnto(shapeOf(one), shapeOf(other), gap)) : undefined;
  if (out !== undefined) return { axis: out.axis, lower: out.up ? second : first };
  const axis = AXES.reduce((least, name) => (reach[name] < reach[least] ? name : least));
  const lower =
    twiceMiddle(solidOf(one), axis) <= twiceMiddle(solidOf(other), axis) ? first : second;
  return { axis, lower };
}

/** A face may lean back by as much and still be slid along: the sine of half a degree. */
const SLIDES = 0.009;

/** The axis and sense that lead back from all faces, the most directly of those; undefined where none does. */
function wayOut(faces: readonly Triple[]): { axis: Axis; up: boolean } | undefined {
  let best: { axis: Axis; up: boolean } | undefined;
  let most = 0;
  for (const [k, axis] of AXES.entries()) {
    for (const sign of [1, -1]) {
      const away = faces.map((face) => -sign * (face[k] ?? 0));
      if (away.some((one) => one < -SLIDES)) continue;
      const directly = away.reduce((sum, one) => sum + one, 0);
      if (directly > most + SLIDES) {
        most = directly;
        best = { axis, up: sign > 0 };
      }
    }
  }
  return best;
}

const alongAxes = ([x, y, z]: Corner): Readonly<Record<Axis, number>> => ({ x, y, z });

const pointOf = ([x = 0, y = 0, z = 0]: readonly number[]): Point => ({ x, y, z });

const middleOf = (one: Piece, other: Piece, axis: Axis): number =>
  (Math.max(one.from[axis], other.from[axis]) + Math.min(one.to[axis], other.to[axis])) / 2;

/** Twice the middle of a piece along an axis. */
const twiceMiddle = ({ low, high }: Solid, axis: Axis): number =>
  at(low, AXES.indexOf(axis)) + at(high, AXES.indexOf(axis));
