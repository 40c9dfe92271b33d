import {
  type Aggregate as Keeping,
  Matrix,
  NUMBER_AGGREGATES,
  type NumberAggregate,
} from '@kerfbook/functions/computing';
import type { Closure } from './closure.ts';
import type { Frame } from './frame.ts';
import type { Many } from './many.ts';
import { Failure, finished, toNumber, type Value } from './values.ts';

export type Aggregate = NumberAggregate;

/** Functions that go through all their values and join numbers. */
export const AGGREGATES: ReadonlyMap<string, Aggregate> = NUMBER_AGGREGATES;

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

/** What an argument makes of what those before it came to. */
export type Input = (frame: Frame, all: number) => number | Failure;

/** Arguments one after the other. */
export function inTurn({ from, last }: Aggregate, inputs: readonly Input[]): Closure {
  return (frame) => {
    let all = from;
    for (const input of inputs) {
      const next = input(frame, all);
      if (typeof next !== 'number') return next;
      all = next;
    }
    return finished(last === undefined ? all : last(all));
  };
}

/** A range beside others; `shared` is the node that keeps what it comes to by itself. */
export function overRange(
  aggregate: Aggregate,
  cells: Int32Array,
  shared: number | undefined,
): Input {
  return (frame, all) => {
    const value =
      shared === undefined
        ? joined(aggregate, frame, cells)
        : (frame.get(shared) as number | Failure);
    return typeof value === 'number' ? aggregate.join(value, all) : value;
  };
}

/** What a part comes to that is one value, beside others. */
export function overOne(aggregate: Aggregate, work: Closure, isCell: boolean): Input {
  return (frame, all) => {
    const value = counted(aggregate, work(frame), isCell);
    if (value === undefined) return all;
    return typeof value === 'number' ? aggregate.join(all, value) : value;
  };
}

/** What a part comes to that may be several values, beside others. */
export function overMany(aggregate: Aggregate, work: Many): Input {
  return (frame, all) => {
    const given = work(frame);
    let next = all;
    for (const one of given instanceof Matrix ? given.cells : [given]) {
      const value = counted(aggregate, one, given instanceof Matrix);
      if (value === undefined) continue;
      if (typeof value !== 'number') return value;
      next = aggregate.join(next, value);
    }
    return next;
  };
}

/** What is gone through one after the other: the cells of a range, or what a part comes to. */
export type AggregateArgument =
  | { readonly cells: Int32Array }
  | { readonly work: Many; readonly isCell: boolean };

/** The same for functions that keep more than a number on their way. */
export function aggregated<A>(
  { from, join, counts, one, last }: Keeping<A>,
  parts: readonly AggregateArgument[],
): (frame: Frame) => Value {
  const over = (all: A, values: Iterable<Value>): A | Failure => {
    let next = all;
    for (const value of values) {
      const number = counts(value);
      if (number instanceof Failure) return number;
      if (number !== undefined) next = join(next, one(number));
    }
    return next;
  };
  return (frame) => {
    let all = from;
    for (const part of parts) {
      let next: A | Failure;
      if ('cells' in part) {
        const inside = over(from, valuesAt(frame, part.cells));
        next = inside instanceof Failure ? inside : join(inside, all);
      } else {
        const given = part.work(frame);
        if (given instanceof Matrix) next = over(all, given.cells);
        else next = over(all, [part.isCell ? given : toNumber(given)]);
      }
      if (next instanceof Failure) return next;
      all = next;
    }
    const result = last(all);
    return typeof result === 'number' ? finished(result) : result;
  };
}

function* valuesAt(frame: Frame, cells: Int32Array): Generator<Value> {
  for (const slot of cells) yield frame.get(slot);
}

/** The same of numbers alone, of so many cells from a place on; NaN where any value is none. */
export function joinedNumbers(
  { from, join }: Aggregate,
  numbers: Float64Array,
  cells: Int32Array,
  first: number,
  count: number,
): number {
  let all = from;
  for (let i = first; i < first + count; i += 1) {
    const value = numbers[cells[i] as number] as number;
    if (Number.isNaN(value)) return value;
    all = join(all, value);
  }
  return all;
}
