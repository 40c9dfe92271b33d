import type { Cut } from '@kerfbook/solids';
import { alongAxes, cornerOf, type TableArgument } from '@kerfbook/wood';
import { type AxisIndex, axesInFace, jointsOf, Stand, sideOf } from '../joints/index.ts';
import { tableOfBoxes } from '../parts.ts';

/** A box in the room by its sides along x, y and z, mm. */
export interface Box {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** A cut of a joint, as the room has it. */
export interface BoxCut extends Box {
  /** Its row of the joints table, from 0. */
  readonly row: number;
  readonly what: string;
  readonly cut: Cut;
  /** The face it is cut into: the axis it is square to, and whether it is at the far end. */
  readonly axis: AxisIndex;
  readonly isHigh: boolean;
  /** The part on the other side; left out for a cut in one part. */
  readonly other?: string;
  /** What its rim takes up of that face, where it is a hole. */
  readonly rim?: Box;
}

/** One piece of a parts table. */
export interface BoxPiece extends Box {
  /** Its row of the parts table, from 0. */
  readonly row: number;
  readonly name: string;
  /** The axis of the room that its thickness runs along. */
  readonly thin: AxisIndex;
  /** Others by their places in the list, which a joint joins it to. */
  readonly joined: readonly number[];
  readonly cuts: readonly BoxCut[];
}

/** All that is in a parts table, and what its joints table cuts. */
export interface Boxes {
  /** Rows of the parts table and how many pieces they count, those without a place among them. */
  readonly rows: readonly { readonly row: number; readonly count: number }[];
  /** Pieces that have a place. */
  readonly pieces: readonly BoxPiece[];
}

const NO_JOINTS: TableArgument = { heads: ['joint', 'part'], rows: [], units: 'us' };

/**
 * The pieces of a parts table; undefined where one is no box, or a joint cannot be made.
 * @param joints left out where only places are asked for
 */
export function boxesOf(parts: TableArgument, joints = NO_JOINTS): Boxes | undefined {
  const table = tableOfBoxes(parts);
  if (table === undefined) return undefined;
  const rowOf = new Map(table.placed.map(({ row, part }) => [part, row] as const));
  const all = table.placed.map(({ part }) => part);
  const { pieces, work, unread } = jointsOf(all, joints, table.names);
  if (unread.length > 0 || work.unmade.size > 0) return undefined;
  const found = pieces.flatMap((piece, index): BoxPiece[] => {
    const { part, copy } = piece;
    const stand = Stand.of(index, piece);
    if (stand === undefined || part.placing === undefined) return [];
    const low = cornerOf(part.placing, copy);
    const sides = alongAxes(part.placing.turn, part);
    return [
      {
        row: rowOf.get(part as (typeof all)[number]) ?? 0,
        name: part.name,
        low,
        high: low.map((one, axis) => one + (sides[axis] ?? 0)),
        thin: stand.inRoom(2).room as AxisIndex,
        joined: [...(work.joined.get(index) ?? [])],
        cuts: (work.cuts.get(index) ?? []).map((one): BoxCut => {
          const { axis, isHigh } = sideOf(one.face);
          const { room, sign } = stand.inRoom(axis);
          const rim = rimOf(one.cut, stand);
          return {
            ...stand.toRoom(one.box),
            row: one.joint.at.row - 1,
            what: one.what,
            cut: one.cut,
            axis: room as AxisIndex,
            isHigh: sign > 0 === isHigh,
            ...(one.other === undefined ? {} : { other: one.other }),
            ...(rim === undefined ? {} : { rim }),
          };
        }),
      },
    ];
  });
  return { rows: table.rows, pieces: found };
}

/** What the rim of a hole takes up of the face that it is drilled into, in the room. */
function rimOf(cut: Cut, stand: Stand): Box | undefined {
  if (cut.kind !== 'hole') return undefined;
  const { axis } = sideOf(cut.face);
  const [first, second] = axesInFace(axis);
  const half = cut.diameter / 2;
  const lean = Math.cos(((cut.lean ?? 0) * Math.PI) / 180);
  const isAlong = Math.abs(cut.turn ?? 0) % 180 < 1e-9;
  const halves = isAlong ? [half / lean, half] : [half, half / lean];
  const low = [0, 0, 0];
  const high = [...stand.size];
  for (const [which, one] of [first, second].entries()) {
    low[one] = (cut.at[which] ?? 0) - (halves[which] ?? 0);
    high[one] = (cut.at[which] ?? 0) + (halves[which] ?? 0);
  }
  return stand.toRoom({ low: low as never, high: high as never });
}
