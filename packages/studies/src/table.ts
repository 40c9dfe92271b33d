import type { CellView } from '@kerfbook/workbook';
import { type Asker, type Given, numberOf, type Outcome, outcomes, type Waiting } from './ask.ts';
import { StudyFault } from './fault.ts';
import type { Axis, StudyBook } from './inputs.ts';

/** Sets of inputs in one table. */
export const MOST_SETS = 100_000;

/** Every set of values, the last input changing first. @throws StudyFault for more of them than are worked out */
export function setsOf(axes: readonly Axis[]): readonly Given[] {
  const count = axes.reduce((product, { values }) => product * values.length, 1);
  if (count > MOST_SETS) {
    throw new StudyFault(
      `These are ${count.toLocaleString('en-US')} sets of inputs; ${MOST_SETS.toLocaleString('en-US')} is the most. Take larger steps, or fewer inputs.`,
    );
  }
  return axes.reduce<readonly Given[]>(
    (sets, { values }) => sets.flatMap((set) => values.map((value) => [...set, value])),
    [[]],
  );
}

/** A table of results over one input or several. */
export interface TableRun {
  /** What it is over. */
  readonly axes: readonly Axis[];
  /** What it shows, in its order. */
  readonly results: readonly CellView[];
  /** In the order of {@link setsOf}; fewer where it was stopped. */
  readonly rows: readonly Outcome[];
  /** How many sets there are. */
  readonly of: number;
}

/**
 * Works a table out. What was done before it is stopped is kept as long as it is in one piece from its beginning.
 *
 * @throws StudyFault for too many sets
 */
export async function runTable(
  book: StudyBook,
  asker: Asker,
  axes: readonly Axis[],
  results: readonly CellView[],
  waiting: Waiting = {},
): Promise<TableRun> {
  const sets = setsOf(axes);
  const inputs = axes.map(({ cell }) => cell);
  const all = await outcomes(book, asker, { inputs, results, sets }, waiting);
  const end = all.indexOf(undefined);
  const rows = (end < 0 ? all : all.slice(0, end)).filter((row) => row !== undefined);
  return { axes, results, rows, of: sets.length };
}

/** How far each number lies between the least (0) and the most (1) of them; undefined for what is none. */
export function shades(rows: readonly Outcome[], result: number): readonly (number | undefined)[] {
  const numbers = rows.map(({ values }) => numberOf(values[result]));
  const known = numbers.filter((one) => one !== undefined);
  const low = known.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY);
  const high = known.reduce((most, one) => Math.max(most, one), Number.NEGATIVE_INFINITY);
  return numbers.map((one) =>
    one === undefined ? undefined : high > low ? (one - low) / (high - low) : 0,
  );
}
