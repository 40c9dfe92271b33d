import { JOINT_COLUMNS } from '@kerfbook/functions/joints';
import { crossOf, type JointDetail, jointDetails } from '../details/detail.ts';
import { jointPlaces } from '../details/joint-places.ts';
import type { Cross } from '../details/sizes.ts';
import type { readJoints } from '../joints/read.ts';
import { type PartsReading, readParts } from '../parts.ts';
import { buildScene } from '../scene.ts';
import type { Fake } from './fake-book.ts';
import { joinedBook } from './joined.ts';

/** Parts in mm: name, thickness, width, length, where its low corner is, and how it is turned. */
export type Box = readonly [
  name: string,
  thickness: number,
  width: number,
  length: number,
  at: readonly [number, number, number],
  turn: string,
];

const PARTS: Fake[] = ['part', 'count', 'thickness', 'width', 'length', 'x', 'y', 'z', 'turn'];

/** A row of a joints table, by the heads it fills. */
export const jointRow = (cells: Partial<Record<string, Fake>>): Fake[] =>
  JOINT_COLUMNS.map((head) => cells[head] ?? null);

/** Room for a detail as a page of A4 has it, mm. */
export const ROOMS = { room: { width: 89, height: 100 }, wide: { width: 184, height: 100 } };

/** To a tenth of a mm. */
export const tenths = (mm: number): string => `${Math.round(mm * 10) / 10}`;

/** Joints of boxes cut open. */
export interface CutOpen {
  readonly reading: PartsReading;
  readonly says: readonly string[];
  readonly crosses: readonly Cross[];
  readonly details: readonly JointDetail[];
}

/** Reads boxes and joints, and cuts the joints open. */
export function cutOpen(boxes: readonly Box[], ...joints: readonly Fake[][]): CutOpen {
  const lines = boxes.map(([name, t, w, l, [x, y, z], turn]) => [name, 1, t, w, l, x, y, z, turn]);
  return opened(joinedBook([PARTS, ...lines], [[...JOINT_COLUMNS], ...joints], 'metric'));
}

/** The same of any workbook. */
export function opened(book: Parameters<typeof readJoints>[0]): CutOpen {
  const reading = readParts(book);
  if (reading.joints === undefined) throw new Error('there is no joints table');
  const { pieces } = buildScene(reading.parts);
  const { work } = reading.joints;
  return {
    reading,
    says: reading.problems.map(({ says }) => says),
    crosses: jointPlaces(pieces, work).flatMap((place) => crossOf(place) ?? []),
    details: jointDetails(pieces, work, { ...ROOMS, units: book.units, format: tenths }),
  };
}
