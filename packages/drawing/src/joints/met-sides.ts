import {
  type AxisIndex,
  axesInFace,
  extent,
  highOf,
  type JointCut,
  type JointWork,
  lowOf,
  type Span,
  Stand,
  sharedSpan,
  sideOf,
} from '@kerfbook/functions/joints';
import { meetingsOf } from '../meetings.ts';
import type { Piece } from '../scene.ts';
import { TOLERANCE } from '../units.ts';
import {
  type AlikePieces,
  alikePieces,
  type Marked,
  type MeasuringFace,
  markFrom,
  measuringFaces,
  middleOf,
  outsideOf,
  sideWord,
  startOf,
} from './marking.ts';

/** Where the end of a piece stands against the side of another. */
export interface MetSide {
  /** The part whose end it is. */
  readonly part: string;
  /** The face or edge that it stands against. */
  readonly on: string;
  /** From where to where it goes along the piece that is met. */
  readonly along: Marked;
  /** From where to where it goes across that; left out where it is as wide as the side. */
  readonly across?: Marked;
}

/**
 * Where ends of pieces meet the sides of others, told of the piece that is met. Left out is what a joint marks out
 * on that piece, what sits in a groove of it, what comes flush with its end over the whole width, and what stands
 * under the piece that is laid on last.
 * @param work of the joints table, where there is one
 */
export function metSides(
  pieces: readonly Piece[],
  work?: Pick<JointWork, 'cuts'>,
): readonly AlikePieces<readonly MetSide[]>[] {
  const middle = middleOf(pieces);
  const highest = Math.max(...pieces.map(({ to }) => to.z));
  const stands = pieces.map((piece, index) => Stand.of(index, piece));
  const cutsOf = (index: number) => work?.cuts.get(index) ?? [];
  const isMarked = (index: number, other: Stand): boolean =>
    cutsOf(index).some((cut) => cut.other === other.name);
  const met = new Map<number, MetSide[]>();
  for (const { first, second } of meetingsOf(pieces, TOLERANCE)) {
    for (const [a, b] of [
      [stands[first], stands[second]],
      [stands[second], stands[first]],
    ]) {
      if (a === undefined || b === undefined || !a.isSquare || !b.isSquare) continue;
      const against = endAgainst(a, b);
      if (against === undefined || isMarked(b.index, a) || isDone(a, against.end, cutsOf)) continue;
      const isUnder = against.room === 2 && !against.isHigh;
      if (isUnder && b.piece.to.z > highest - TOLERANCE) continue;
      const faces = measuringFaces(pieces, b, cutsOf(b.index));
      if (sitsInCut(b, against, cutsOf(b.index))) continue;
      const says = sideSaid(a, b, against, { middle, faces });
      if (says === undefined) continue;
      const known = met.get(b.index) ?? [];
      met.set(b.index, known);
      known.push(says);
    }
  }
  return alikePieces(pieces, (_, index) =>
    met.get(index)?.sort((one, other) => one.along.from - other.along.from),
  );
}

const ROOM = [0, 1, 2] as const satisfies readonly AxisIndex[];

interface Against {
  /** The axis of the room that the end looks along. */
  readonly room: AxisIndex;
  /** Whether it stands against the side of the other piece that is farther along that. */
  readonly isHigh: boolean;
  /** Which end, in its own frame. */
  readonly end: 'start' | 'end';
  /** What it takes up of the other piece, in the room. */
  readonly span: Span;
}

/** How the end of `a` stands against a side of `b`, or reaches in there; undefined where it does not. */
function endAgainst(a: Stand, b: Stand): Against | undefined {
  const { room } = a.inRoom(0);
  if (b.own(room) === 0) return undefined;
  const span = sharedSpan(a.room, b.room);
  if (ROOM.some((axis) => axis !== room && extent(span, axis) <= TOLERANCE)) {
    return undefined;
  }
  const [low, high] = [lowOf(a.room, room), highOf(a.room, room)];
  const [near, far] = [lowOf(b.room, room), highOf(b.room, room)];
  const comesUp = low < near - TOLERANCE && high < far - TOLERANCE;
  const comesDown = high > far + TOLERANCE && low > near + TOLERANCE;
  if (!comesUp && !comesDown) return undefined;
  const face = a.facing(room, comesUp);
  return { room, isHigh: comesDown, end: face === 'start' ? 'start' : 'end', span };
}

/** Whether a joint holds that end already: what it stands against besides tells nothing. */
function isDone(
  { index }: Stand,
  end: Against['end'],
  cutsOf: (index: number) => readonly { readonly face: string; readonly what: string }[],
): boolean {
  return cutsOf(index).some(({ face }) => face === end);
}

/** Whether a cut in one part alone, such as a groove, goes by there all along: that marks the place. */
function sitsInCut(b: Stand, { room, isHigh, span }: Against, cuts: readonly JointCut[]): boolean {
  const side = b.facing(room, isHigh);
  const box = b.toOwn(span);
  return cuts.some(
    (cut) =>
      cut.other === undefined &&
      cut.face === side &&
      lowOf(cut.box, 0) < lowOf(box, 0) + TOLERANCE &&
      highOf(cut.box, 0) > highOf(box, 0) - TOLERANCE &&
      axesInFace(sideOf(side).axis).every(
        (axis) => extent(sharedSpan(cut.box, box), axis) > TOLERANCE,
      ),
  );
}

function sideSaid(
  a: Stand,
  b: Stand,
  { room, isHigh, span }: Against,
  frame: { readonly middle: readonly number[]; readonly faces: readonly MeasuringFace[] },
): MetSide | undefined {
  const { middle } = frame;
  const box = b.toOwn(span);
  const { axis, isHigh: isFar } = sideOf(b.facing(room, isHigh));
  const [across] = axesInFace(axis).filter((one) => one !== 0);
  if (across === undefined) return undefined;
  const isWhole = isAtLow(box, across) && isAtHigh(box, across, b);
  if (isWhole && (isAtLow(box, 0) || isAtHigh(box, 0, b))) return undefined;
  return {
    part: a.name,
    on: sideWord(b, axis, isFar, middle),
    along: markFrom(b, box, 0, middle, false),
    ...(isWhole
      ? {}
      : { across: markFrom(b, box, across, middle, isFromFar(a, b, box, across, frame)) }),
  };
}

/** From the face that the piece's cuts are measured from, so that one face is marked; else from the edge it is flush with. */
function isFromFar(
  a: Stand,
  b: Stand,
  box: Span,
  axis: AxisIndex,
  {
    middle,
    faces,
  }: { readonly middle: readonly number[]; readonly faces: readonly MeasuringFace[] },
): boolean {
  return (
    faces.find((face) => face.axis === axis)?.isHigh ??
    outsideOf(b, axis, middle) ??
    startOf(a, b, axis) ??
    (isAtHigh(box, axis, b) && !isAtLow(box, axis))
  );
}

const isAtLow = (box: Span, axis: AxisIndex): boolean => lowOf(box, axis) < TOLERANCE;

const isAtHigh = (box: Span, axis: AxisIndex, { size }: Stand): boolean =>
  highOf(box, axis) > (size[axis] ?? 0) - TOLERANCE;
