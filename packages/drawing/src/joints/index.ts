import {
  JOINT_SAYS,
  type JointCut,
  type JointWork,
  resolveJoints,
} from '@kerfbook/functions/joints';
import { joinedPiece } from '@kerfbook/functions/shaped';
import type { Cut } from '@kerfbook/solids';
import type { Part, PartsReading } from '../parts.ts';
import type { PartProblem, PartsSource } from '../parts-source.ts';
import { buildScene } from '../scene.ts';
import { bookFormat, type Format } from '../units.ts';
import { type MarkedPieces, markedPieces } from './marking.ts';
import { readJoints } from './read.ts';

/** Everything that the joints table of a workbook comes to. */
export interface JointsOfBook {
  /** Cuts by the index of the piece, and hardware. */
  readonly work: JointWork;
  /** What is marked out on each piece. */
  readonly marked: readonly MarkedPieces[];
  /** What could not be read or made, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** The parts with what their joints cut from each of their pieces; what will not do is among the problems. */
export function withJoints(source: PartsSource, reading: PartsReading): PartsReading {
  const read = readJoints(source, reading);
  if (read === undefined) return reading;
  const { joints, problems: unread } = read;
  // No money is written.
  const format = bookFormat({ units: source.units, currency: '' });
  const { pieces } = buildScene(reading.parts);
  const work = resolveJoints(pieces, joints, { format, units: source.units });
  const problems = [...unread, ...work.problems];
  const cuts = new Map<Part, (readonly Cut[])[]>();
  for (const [index, own] of work.cuts) {
    const piece = pieces[index];
    if (piece === undefined) continue;
    const { part, copy } = piece;
    const all = cuts.get(part) ?? Array.from({ length: part.count }, () => []);
    cuts.set(part, all);
    all[copy] = makeable(part, copy, own, format, problems);
  }
  const parts = reading.parts.map((part) => {
    const own = cuts.get(part);
    return own === undefined ? part : { ...part, cuts: own };
  });
  return {
    ...reading,
    parts,
    problems: [...reading.problems, ...problems],
    joints: { work, marked: markedPieces(pieces, work), problems },
  };
}

/** Cuts that are drawn in one piece: past it a change would cost its pace. */
export const MOST_DRAWN = 60;

/** Cuts of a piece that can be made; the others are said once at their rows. */
function makeable(
  part: Part,
  copy: number,
  own: readonly JointCut[],
  format: Format,
  problems: PartProblem[],
): readonly Cut[] {
  const say = (at: PartProblem['at'], says: string): void => {
    const isTold = problems.some((one) => one.at.row === at.row && one.says === says);
    if (!isTold) problems.push({ at, says });
  };
  const beyond = own[MOST_DRAWN]?.joint.at;
  if (beyond !== undefined) say(beyond, JOINT_SAYS.manyCuts(part.name, MOST_DRAWN));
  const all = own.slice(0, MOST_DRAWN).map(({ cut }) => cut);
  if (part.placing === undefined) return [];
  const { wrong = [] } = joinedPiece(part, part.placing, copy, all, format) ?? {};
  for (const { cut, says } of wrong) {
    const at = own[cut]?.joint.at;
    if (at !== undefined) say(at, `${part.name}: ${says}`);
  }
  const bad = new Set(wrong.map(({ cut }) => cut));
  return all.filter((_, index) => !bad.has(index));
}
