import type { Frame } from './frame.ts';
import { added, Failure, toNumber, type Value } from './values.ts';

/** A function that goes through all its values: cells of ranges one by one, the rest as they stand. */
export interface Aggregate {
  readonly from: number;
  readonly join: (left: number, right: number) => number;
  /** What a value counts as; nothing where it is passed over. */
  readonly counts: (value: Value) => number | Failure | undefined;
  readonly last?: (all: number) => number;
  /** Every number counts as itself. */
  readonly numeric?: true;
}

const numbersOnly = (value: Value): number | Failure | undefined =>
  typeof value === 'number' || value instanceof Failure ? value : undefined;
const finite = (value: number): number => (Number.isFinite(value) ? value : 0);
const plus = (left: number, right: number): number => left + right;

export const AGGREGATES: ReadonlyMap<string, Aggregate> = new Map(
  Object.entries<Aggregate>({
    SUM: { from: 0, join: added, counts: numbersOnly, numeric: true },
    PRODUCT: { from: 1, join: (left, right) => left * right, counts: numbersOnly, numeric: true },
    MIN: {
      from: Number.POSITIVE_INFINITY,
      join: Math.min,
      counts: numbersOnly,
      numeric: true,
      last: finite,
    },
    MAX: {
      from: Number.NEGATIVE_INFINITY,
      join: Math.max,
      counts: numbersOnly,
      numeric: true,
      last: finite,
    },
    COUNT: { from: 0, join: plus, counts: (value) => (typeof value === 'number' ? 1 : 0) },
    COUNTA: { from: 0, join: plus, counts: (value) => (value === null ? 0 : 1) },
  }),
);

/** The values of a range together. */
export function joined(
  { from, join, counts }: Aggregate,
  frame: Frame,
  cells: Int32Array,
): number | Failure {
  let all = from;
  for (let i = 0; i < cells.length; i += 1) {
    const value = counts(frame.get(cells[i] as number));
    if (value === undefined) continue;
    if (typeof value !== 'number') return value;
    all = join(all, value);
  }
  return all;
}

/** One value beside others: a cell counts as it stands, anything else has to be a number. */
export function counted({ counts }: Aggregate, value: Value, isCell: boolean) {
  return counts(isCell ? value : toNumber(value));
}
