import type { Solid } from '@kerfbook/solids';
import type { PlacedPart } from '@kerfbook/wood';
import type { FormedPart } from '../shaped/index.ts';

/** A place in the room, mm. */
interface RoomPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** One piece in its place, as joints need it. */
export interface Piece {
  /** The row it comes from. */
  readonly part: FormedPart & {
    readonly material?: string;
    readonly placing?: PlacedPart;
  };
  /** Which of the row's pieces, from 0. */
  readonly copy: number;
  /** The near corner of the box around it. */
  readonly from: RoomPoint;
  /** The far corner of the box around it. */
  readonly to: RoomPoint;
  /** As it is shaped, where it stands, before its joints; left out where it is just the box. */
  readonly solid?: Solid;
}

/** Where a cell of the joints table stands. */
export interface JointAt {
  /** Its sheet. */
  readonly sheet: string;
  /** Its row, from 0. */
  readonly row: number;
  /** Its column, from 0. */
  readonly column: number;
}

/** What is wrong with a joint, at its cell. */
export interface JointProblem {
  /** The cell to look at. */
  readonly at: JointAt;
  /** One sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
}
