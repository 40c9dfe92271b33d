import { readParts } from '../parts.ts';
import type { PartProblem, PartsSource } from '../parts-source.ts';
import { buildScene, type Scene } from '../scene.ts';
import type { Format } from '../units.ts';
import { type MarkedPieces, markedPieces } from './marking.ts';
import { readJoints } from './read.ts';
import { resolveJoints } from './resolve.ts';
import type { JointWork } from './work.ts';

/** Everything that the joints table of a workbook comes to. */
export interface JointsOfBook {
  /** False: the workbook has no joints table. */
  readonly found: boolean;
  /** The pieces as they stand, before they are cut. */
  readonly scene: Scene;
  /** Cuts and hardware. */
  readonly work: JointWork;
  /** What is marked out on each piece. */
  readonly marked: readonly MarkedPieces[];
  /** What could not be read or made, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** Reads the joints of a workbook and works out what they cut into its parts. */
export function jointsOf(source: PartsSource, format: Format): JointsOfBook {
  const parts = readParts(source);
  const scene = buildScene(parts.parts);
  const { found, joints, problems } = readJoints(source, parts);
  const work = resolveJoints(scene.pieces, joints, { format, units: source.units });
  return {
    found,
    scene,
    work,
    marked: markedPieces(scene.pieces, work),
    problems: [...problems, ...work.problems],
  };
}
