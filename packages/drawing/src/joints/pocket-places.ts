import { type Joint, type JointWork, resolveJoints } from '@kerfbook/functions/joints';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Piece } from '../scene.ts';
import type { Format } from '../units.ts';
import { type MarkedPieces, markedPieces } from './marking.ts';
import { metSides } from './met-sides.ts';

/** What pocket screws are set out with. */
export interface PocketScrews {
  /** How many go into one end of a piece. */
  readonly each: number;
  /** How long one is, mm. */
  readonly length: number;
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Format;
  /** Whose usual sizes are taken. */
  readonly units: OpenWorkbook['units'];
}

/** Where pocket screws go. */
export interface PocketPlaces {
  /** How many there are in all. */
  readonly count: number;
  /** The pockets of each piece, as they are marked out. */
  readonly marked: readonly MarkedPieces[];
}

/**
 * Where pocket screws go if they hold every end that stands against the side of another piece and that no joint of
 * the joints table holds; spaced as rows of pocket holes in that table are. Whether they hold all of those ends, who
 * asks has to see by the count.
 */
export function pocketPlaces(
  pieces: readonly Piece[],
  work: Pick<JointWork, 'cuts'> | undefined,
  { each, length, format, units }: PocketScrews,
): PocketPlaces {
  const joints = new Map<string, Joint>();
  for (const { part: into, told } of metSides(pieces, work)) {
    for (const { part } of told) {
      // No row of a table has it: what is wrong with it is said nowhere.
      const at = { sheet: '', row: joints.size, column: 0 };
      joints.set(JSON.stringify([part, into]), {
        at,
        cells: new Map(),
        kind: 'pocket holes',
        part,
        into,
        length,
        count: each,
      });
    }
  }
  const made = resolveJoints(pieces, [...joints.values()], { format, units });
  const pockets = [...made.cuts].map(
    ([index, cuts]) => [index, cuts.filter(({ what }) => what === 'pocket hole')] as const,
  );
  return {
    count: made.hardware
      .filter(({ kind }) => kind === 'pocket screw')
      .reduce((sum, { count }) => sum + count, 0),
    marked: markedPieces(pieces, { cuts: new Map(pockets) }),
  };
}
