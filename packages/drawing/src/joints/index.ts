import {
  type JointKind,
  type JointWork,
  ontoParts,
  resolveJoints,
} from '@kerfbook/functions/joints';
import type { PartsReading } from '../parts.ts';
import type { PartProblem, PartsSource } from '../parts-source.ts';
import { buildScene } from '../scene.ts';
import { bookFormat } from '../units.ts';
import { type MarkedPieces, markedPieces } from './marking.ts';
import { readJoints } from './read.ts';

/** Everything that the joints table of a workbook comes to. */
export interface JointsOfBook {
  /** Cuts by the index of the piece, and hardware. */
  readonly work: JointWork;
  /** Kinds of those that are made, in the order of the table. */
  readonly kinds: readonly JointKind[];
  /** What is marked out on each piece. */
  readonly marked: readonly MarkedPieces[];
  /** What could not be read or made, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** The parts with what their joints cut from each of their pieces; what will not do is among the problems. */
export function withJoints(source: PartsSource, reading: PartsReading): PartsReading {
  const read = readJoints(source, reading);
  if (read === undefined) return reading;
  // No money is written.
  const format = bookFormat({ units: source.units, currency: '' });
  const { pieces } = buildScene(reading.parts);
  const work = resolveJoints(pieces, read.joints, { format, units: source.units });
  const { parts, problems: unmade } = ontoParts(reading.parts, pieces, work, format);
  const problems = [...read.problems, ...work.problems, ...unmade];
  return {
    ...reading,
    parts,
    problems: [...reading.problems, ...problems],
    joints: {
      work,
      kinds: read.joints.filter((joint) => !work.unmade.has(joint)).map(({ kind }) => kind),
      marked: markedPieces(pieces, work),
      problems,
    },
  };
}
