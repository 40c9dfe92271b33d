import type { BinarySign } from '@kerfbook/document';
import {
  type Computing,
  type Given,
  Matrix,
  type Size,
  type Taken,
  taken,
} from '@kerfbook/functions/computing';
import type { Frame } from './frame.ts';
import { elementOf } from './operators.ts';
import { Failure, SAYS, settled, toNumber, type Value } from './values.ts';

/** What a part of a formula comes to that may be several values. */
export type Many = (frame: Frame) => Given;

export const ONE: Size = { columns: 1, rows: 1 };
export const cellsOf = ({ columns, rows }: Size): number => columns * rows;
export const isMany = (size: Size): boolean => cellsOf(size) !== 1;

/** The size of what goes together with a value for each value. */
export const largest = (sizes: readonly Size[]): Size => ({
  columns: sizes.reduce((most, { columns }) => Math.max(most, columns), 1),
  rows: sizes.reduce((most, { rows }) => Math.max(most, rows), 1),
});

/** A single value is one, whatever it came as. */
const single = (given: Given): Given =>
  given instanceof Matrix && given.cells.length === 1 ? given.at(0, 0) : given;

/** What was worked out, as the next function gets it. */
export const came = (given: Given): Given =>
  given instanceof Matrix ? single(given) : settled(given);

/** The cells of a range as they stand. */
export const rangeOf =
  (slots: Int32Array, columns: number): Many =>
  (frame) => {
    const cells = new Array<Value>(slots.length);
    for (let i = 0; i < slots.length; i += 1) cells[i] = frame.get(slots[i] as number);
    return new Matrix(columns, slots.length / columns, cells, true);
  };

/** Several values with a sign before or after each. */
export function signedMany(sign: '+' | '-' | '%', of: Many): Many {
  const each = (value: Value): Value => {
    if (sign === '+') return value;
    const number = toNumber(value);
    if (typeof number !== 'number') return number;
    return sign === '-' ? -number : number / 100;
  };
  return (frame) => {
    const given = of(frame);
    if (!(given instanceof Matrix)) return settled(each(given));
    return new Matrix(given.columns, given.rows, given.cells.map(each));
  };
}

/** Several values with a sign between them: one goes with all, others go one by one. */
export function joinedMany(sign: BinarySign, left: Many, right: Many): Many {
  const each = elementOf(sign);
  return (frame) => {
    const [a, b] = [left(frame), right(frame)];
    if (a instanceof Failure) return a;
    if (b instanceof Failure) return b;
    if (!(a instanceof Matrix) && !(b instanceof Matrix)) return settled(each(a, b));
    return together(
      a instanceof Matrix ? a : Matrix.of(a),
      b instanceof Matrix ? b : Matrix.of(b),
      each,
    );
  };
}

function together(a: Matrix, b: Matrix, each: (a: Value, b: Value) => Value): Matrix {
  const [columns, rows] = [Math.max(a.columns, b.columns), Math.max(a.rows, b.rows)];
  const cells: Value[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const [left, right] = [elementAt(a, row, column), elementAt(b, row, column)];
      const isThere = left !== undefined && right !== undefined;
      cells.push(isThere ? each(left, right) : new Failure('NA'));
    }
  }
  return new Matrix(columns, rows, cells);
}

/** A value by its place; a single row or column goes with all of them. */
function elementAt(matrix: Matrix, row: number, column: number): Value | undefined {
  const [i, j] = [matrix.rows === 1 ? 0 : row, matrix.columns === 1 ? 0 : column];
  return i < matrix.rows && j < matrix.columns ? matrix.at(i, j) : undefined;
}

/** Rows of values that are written out; nothing may be of another height than what stands beside it. */
export function laidOut(lines: readonly (readonly Many[])[]): Many {
  return (frame) => {
    const rows: Value[][] = [];
    for (const line of lines) {
      const parts = line.map((part) => {
        const given = part(frame);
        return given instanceof Matrix ? given : Matrix.of(given);
      });
      const height = parts[0]?.rows ?? 0;
      if (parts.some((part) => part.rows !== height)) return new Failure('REF', SAYS.mismatch);
      for (let i = 0; i < height; i += 1) rows.push(parts.flatMap((part) => part.row(i)));
    }
    const width = rows[0]?.length ?? 0;
    if (rows.some((row) => row.length !== width)) return new Failure('REF', SAYS.mismatch);
    return single(Matrix.rows(rows));
  };
}

export interface Argument {
  readonly work: Many;
  /** Nothing stands in its place. */
  readonly isEmpty: boolean;
}

/** What is taken in each place of so many arguments; nothing where there are too many or too few. */
export function placesOf(
  { takes, again }: Pick<Computing, 'takes' | 'again'>,
  count: number,
): readonly Taken[] | undefined {
  const all = [...takes];
  if (again !== undefined) while (count > all.length) all.push(...all.slice(all.length - again));
  if (count > all.length) return undefined;
  const mayBeLeft = ({ leftOut, optional }: Taken): boolean => optional || leftOut !== undefined;
  return all.slice(count).every(mayBeLeft) ? all : undefined;
}

const isSingle = ({ as }: Taken): boolean => as !== 'range' && as !== 'either';

/**
 * A function of arguments that may be several values each: where it takes one and several come, it is asked
 * for each of them.
 *
 * @param spend counts what it costs for what it is given
 */
export function called(
  about: Computing,
  args: readonly Argument[],
  spend?: (given: readonly unknown[]) => void,
): Many {
  if (about.spread) return spreadOver(about, args, spend);
  const places = placesOf(about, args.length);
  if (places === undefined) return () => new Failure('NA', SAYS.arguments);
  return (frame) => {
    const given = args.map(({ work }) => work(frame));
    const over = given.filter(
      (one, i): one is Matrix => one instanceof Matrix && isSingle(places[i] as Taken),
    );
    const ask = (row: number, column: number): Given => {
      const values = places.map((take, i): Given | undefined => {
        const value = given[i];
        if (value === undefined) return undefined;
        const isEach = value instanceof Matrix && isSingle(take);
        if (isEach) return elementAt(value, row, column);
        return args[i]?.isEmpty && take.emptyIsLeftOut ? undefined : value;
      });
      return answered(about, places, values, spend);
    };
    if (over.length === 0) return came(ask(0, 0));
    const columns = over.reduce((most, one) => Math.max(most, one.columns), 1);
    const rows = over.reduce((most, one) => Math.max(most, one.rows), 1);
    const cells: Value[] = [];
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) cells.push(ask(row, column) as Value);
    }
    return new Matrix(columns, rows, cells);
  };
}

/** One answer. What does not fit is an error, or nothing where `passes` says so. */
function answered(
  { run }: Computing,
  places: readonly Taken[],
  given: readonly (Given | undefined)[],
  spend: ((given: readonly unknown[]) => void) | undefined,
  passes: (place: number) => boolean = () => false,
): Given {
  const values: (Given | undefined)[] = [];
  for (const [i, take] of places.entries()) {
    const value = given[i] ?? (given[i] === null ? null : take.leftOut);
    if (value === undefined) {
      values.push(undefined);
      continue;
    }
    const fit = fitting(value, take);
    if (fit === undefined && !passes(i)) return new Failure('VALUE', SAYS.wrongType);
    if (fit instanceof Failure && take.as !== 'any') return fit;
    values.push(fit);
  }
  spend?.(values);
  return (run as (...values: (Given | undefined)[]) => Given)(...values);
}

function fitting(value: Given, take: Taken): Given | undefined {
  if (value instanceof Matrix) return value;
  if (take.as === 'range') return value instanceof Failure ? value : Matrix.of(value);
  return take.as === 'either' ? value : taken(value, take);
}

/** A function over all values as one list, ranges cell by cell. */
function spreadOver(
  about: Computing,
  args: readonly Argument[],
  spend: ((given: readonly unknown[]) => void) | undefined,
): Many {
  const [take] = about.takes;
  if (take === undefined || args.length === 0) return () => new Failure('NA', SAYS.arguments);
  return (frame) => {
    const values: Value[] = [];
    const passed: boolean[] = [];
    for (const { work } of args) {
      const given = work(frame);
      if (!(given instanceof Matrix)) values.push(given);
      else for (const value of given.cells) values.push(value);
      while (passed.length < values.length) passed.push(given instanceof Matrix);
    }
    const places = values.map(() => take);
    return came(answered(about, places, values, spend, (i) => passed[i] === true));
  };
}
