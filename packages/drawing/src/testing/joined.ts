import {
  type Joint,
  type JointsReading,
  type JointWork,
  resolveJoints,
} from '@kerfbook/functions/joints';
import { placementOf } from '@kerfbook/functions/shaped';
import { placed, problemSays, type Solid, shaped } from '@kerfbook/solids';
import { readJoints } from '../joints/read.ts';
import { type PartsReading, readParts } from '../parts.ts';
import type { PartsSource } from '../parts-source.ts';
import { buildScene, type Scene } from '../scene.ts';
import { type Fake, fakeBook } from './fake-book.ts';

/** A workbook with a parts table and a joints table, without an engine. */
export function joinedBook(
  parts: readonly (readonly Fake[])[],
  joints: readonly (readonly Fake[])[],
  units: PartsSource['units'] = 'us',
): PartsSource {
  const [first, second] = [fakeBook(parts, units), fakeBook(joints, units)];
  return {
    units,
    tables: () => [
      ...first.tables(),
      { id: 't2', kind: 'joints', sheet: 's2', header: 0, last: joints.length - 1 },
    ],
    sheet: (id) => (id === 's2' ? second.sheet('s1') : first.sheet(id)),
    value: (at) => (at.sheet === 's2' ? second.value({ ...at, sheet: 's1' }) : first.value(at)),
  };
}

/** What a workbook's joints come to, and its pieces as they are cut. */
export interface Joined {
  readonly parts: PartsReading;
  readonly reading: JointsReading;
  readonly scene: Scene;
  readonly work: JointWork;
  /** Each piece where it stands, with its cuts. */
  readonly solids: readonly Solid[];
}

const round = (mm: number): string => `${Math.round(mm * 100) / 100} mm`;

/** Reads, resolves and cuts. */
export function joined(source: PartsSource): Joined {
  const parts = readParts(source);
  const scene = buildScene(parts.parts);
  const reading = readJoints(source, parts);
  if (reading === undefined) throw new Error('there is no joints table');
  const work = resolveJoints(scene.pieces, reading.joints, { format: round, units: source.units });
  const solids = scene.pieces.map(({ part, copy }, index) => {
    const { length, width, thickness, placing } = part;
    const cuts = (work.cuts.get(index) ?? []).map(({ cut }) => cut);
    const made = shaped({ blank: { kind: 'box', length, width, thickness }, cuts });
    if (!made.ok)
      throw new Error(`${part.name}: ${problemSays(made.problem)} ${JSON.stringify(cuts)}`);
    if (placing === undefined) throw new Error(`${part.name} has no place`);
    return placed(made.solid, placementOf(part, placing, copy));
  });
  return { parts, reading, scene, work, solids };
}

/** What all that joints say, in their order. */
export const saidOf = ({ reading, work }: Joined): readonly string[] =>
  [...reading.problems, ...work.problems].map(({ says }) => says);

export type { Joint };
