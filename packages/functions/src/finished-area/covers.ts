import type { AxisIndex } from '../joints/index.ts';
import type { BoxCut, BoxPiece } from './boxes.ts';
import type { Length } from './lengths.ts';

/**
 * A side of a rectangle: where it is now, mm, and what it rests on. Where two lie side by side each of them may come to
 * be the one: of low sides the highest, of high ones the lowest.
 */
export interface Side {
  readonly at: number;
  readonly lengths: readonly Length[];
}

/** A rectangle in a face, by its sides along the two axes of the face. */
export interface Rectangle {
  readonly low: readonly [Side, Side];
  readonly high: readonly [Side, Side];
}

/** What is cut out of a face or lies against it. */
export interface Cover extends Rectangle {
  /** Rows of the parts table that it rests on. */
  readonly rows: readonly number[];
}

/** Sides nearer than this are one, mm. */
export const SAME = 1e-3;
/** What ends at the edge of a face ends there whatever is typed. */
const FLUSH = 0;

/** The sides of a box as sums: low along x, y and z, then high. */
export type Sides = readonly Length[];

/** One face of a piece. */
export interface Face {
  readonly axis: AxisIndex;
  readonly isHigh: boolean;
}

export const FACES: readonly Face[] = ([0, 1, 2] as const).flatMap((axis) => [
  { axis, isHigh: false },
  { axis, isHigh: true },
]);

const inFace = (axis: AxisIndex): readonly [number, number] =>
  axis === 0 ? [1, 2] : axis === 1 ? [0, 2] : [0, 1];

/** A box as a rectangle in a face. */
export function rectangleOf(
  { low, high }: { readonly low: readonly number[]; readonly high: readonly number[] },
  sides: Sides,
  axis: AxisIndex,
): Rectangle {
  const [u, v] = inFace(axis);
  const lowSide = (one: number): Side => ({ at: low[one] ?? 0, lengths: [sides[one] ?? []] });
  const highSide = (one: number): Side => ({ at: high[one] ?? 0, lengths: [sides[one + 3] ?? []] });
  return { low: [lowSide(u), lowSide(v)], high: [highSide(u), highSide(v)] };
}

/**
 * What two rectangles have in common; undefined where that is nothing.
 * @param aside how near two sides may be to each other for either to come to be the one, mm
 */
export function shared(one: Rectangle, other: Rectangle, aside: number): Rectangle | undefined {
  const most = (a: Side, b: Side): Side => firstOf(a, b, a.at - b.at, aside);
  const least = (a: Side, b: Side): Side => firstOf(a, b, b.at - a.at, aside);
  const low = [most(one.low[0], other.low[0]), most(one.low[1], other.low[1])] as const;
  const high = [least(one.high[0], other.high[0]), least(one.high[1], other.high[1])] as const;
  const isThere = high[0].at - low[0].at > SAME && high[1].at - low[1].at > SAME;
  return isThere ? { low, high } : undefined;
}

/** The side that is further by so much, or both where they lie side by side. */
function firstOf(a: Side, b: Side, by: number, aside: number): Side {
  if (Math.abs(by) < SAME && aside === FLUSH) return a;
  const at = by >= 0 ? a.at : b.at;
  if (Math.abs(by) > aside) return { at, lengths: (by > 0 ? a : b).lengths };
  const more = b.lengths.filter((one) => !a.lengths.some((known) => isOne(known, one)));
  return { at, lengths: [...a.lengths, ...more] };
}

const isOne = (one: Length, other: Length): boolean =>
  one.every((times, cell) => Math.abs(times - (other[cell] ?? 0)) < 1e-9);

/** Whether one rectangle lies within another and stays there. */
const within = (one: Rectangle, other: Rectangle, aside: number): boolean =>
  ([0, 1] as const).every((axis) => {
    const [low, high] = [one.low[axis], one.high[axis]];
    const [below, above] = [other.low[axis], other.high[axis]];
    return (
      isBeyond(low, below, low.at - below.at, aside) &&
      isBeyond(high, above, above.at - high.at, aside)
    );
  });

const isBeyond = (one: Side, other: Side, by: number, aside: number): boolean =>
  by > aside ||
  (Math.abs(by) < SAME &&
    one.lengths.length === 1 &&
    other.lengths.length === 1 &&
    isOne(one.lengths[0] ?? [], other.lengths[0] ?? []));

/** Whether a rectangle that rests on nothing lies within another. */
export const liesWithin = (one: Rectangle, other: Rectangle): boolean =>
  ([0, 1] as const).every(
    (axis) =>
      one.low[axis].at > other.low[axis].at - SAME &&
      one.high[axis].at < other.high[axis].at + SAME,
  );

/** Pairs of sides of a face and a cover that lie in one place, and rest on other cells. */
export function flush(face: Rectangle, cover: Rectangle): readonly (readonly [Length, Length])[] {
  return ([0, 1] as const).flatMap((axis) =>
    (['low', 'high'] as const).flatMap((end) => {
      const [own, its] = [face[end][axis], cover[end][axis]];
      if (Math.abs(own.at - its.at) > SAME) return [];
      return its.lengths.map((one) => [own.lengths[0] ?? [], one] as const);
    }),
  );
}

/** Whether a cut takes something of a face. */
export function reaches(cut: BoxCut, piece: BoxPiece, { axis, isHigh }: Face): boolean {
  const at = (isHigh ? piece.high : piece.low)[axis] ?? 0;
  return (cut.low[axis] ?? 0) < at + SAME && (cut.high[axis] ?? 0) > at - SAME;
}

/** Whether another piece lies against a face, or the face lies in it. */
export function hides(other: BoxPiece, piece: BoxPiece, { axis, isHigh }: Face): boolean {
  const at = (isHigh ? piece.high : piece.low)[axis] ?? 0;
  const [low, high] = [other.low[axis] ?? 0, other.high[axis] ?? 0];
  return isHigh ? low < at + SAME && high > at + SAME : high > at - SAME && low < at - SAME;
}

/** Most rectangles that are told apart in one face. */
const MOST = 4000;

/**
 * What all covers of a face take of it together: each by itself, less what two have in common, and so on.
 * @param aside how near two of their sides may be to each other for either to come to be the further one, mm
 * @returns rectangles to be taken (1) and given back (-1); undefined where there are too many
 */
export function taken(
  face: Rectangle,
  covers: readonly Cover[],
  aside: number,
):
  | readonly { readonly sign: 1 | -1; readonly of: Rectangle; readonly rows: readonly number[] }[]
  | undefined {
  const there = covers.flatMap((one): Cover[] => {
    const part = shared(face, one, FLUSH);
    return part === undefined ? [] : [{ ...part, rows: one.rows }];
  });
  const own = there.filter(
    (one, at) =>
      !there.some(
        (other, which) =>
          which !== at && within(one, other, aside) && (!within(other, one, aside) || which < at),
      ),
  );
  const found: { sign: 1 | -1; of: Rectangle; rows: readonly number[] }[] = [];
  const add = (from: number, of: Rectangle, rows: readonly number[], sign: 1 | -1): void => {
    for (let at = from; at < own.length && found.length <= MOST; at += 1) {
      const cover = own[at];
      const part = cover && shared(of, cover, aside);
      if (cover === undefined || part === undefined) continue;
      const both = [...new Set([...rows, ...cover.rows])];
      found.push({ sign, of: part, rows: both });
      add(at + 1, part, both, sign === 1 ? -1 : 1);
    }
  };
  add(0, face, [], 1);
  return found.length > MOST ? undefined : found;
}
