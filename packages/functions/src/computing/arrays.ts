import { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import {
  either,
  type Family,
  type Given,
  logical,
  number,
  range,
  type Size,
  whole,
} from './takes.ts';
import { compared, Failure, fail, toLogical, type Value } from './values.ts';

type Rows = readonly (readonly Value[])[];
/** A single value, no error. */
type Plain = Exclude<Value, Failure>;

const missing = (): Failure => fail('NA', SAYS.notFound);
const none = (): Failure => fail('NA', SAYS.emptyRange);
const errorIn = ({ cells }: Matrix): Failure | undefined =>
  cells.find((value): value is Failure => value instanceof Failure);

const columnsOf = (matrix: Matrix): Rows =>
  Array.from({ length: matrix.columns }, (_, column) => matrix.column(column));
const transposed = (matrix: Matrix): Matrix => Matrix.rows(columnsOf(matrix));

/** The values of one row or column that others of the same size say yes to. */
function filtered(values: Matrix, ...asked: Matrix[]): Given {
  const differs = asked.some(
    ({ columns, rows }) => columns !== values.columns || rows !== values.rows,
  );
  if (differs) return fail('NA', SAYS.sameSize);
  if (values.columns > 1 && values.rows > 1) return fail('NA', SAYS.dimension);
  const kept = values.cells.filter((_, i) =>
    asked.every(({ cells }) => toLogical(cells[i] as Value) === true),
  );
  if (kept.length === 0) return none();
  return values.rows === 1 ? new Matrix(kept.length, 1, kept) : new Matrix(1, kept.length, kept);
}

/** Empty cells come last, whichever way the rest goes. */
function before(a: Plain, b: Plain, way: number): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  const order = compared(a, b);
  return order < 0 ? -way : order > 0 ? way : 0;
}

function sorted(values: Matrix, by: number, way: number, byColumn: boolean): Given {
  if (way !== 1 && way !== -1) return fail('VALUE', SAYS.mode);
  const error = errorIn(values);
  if (error !== undefined) return error;
  const key = Math.trunc(by);
  if (key < 1) return fail('VALUE', SAYS.belowOne);
  if (key > (byColumn ? values.rows : values.columns)) return fail('VALUE', SAYS.tooLarge);
  const lines = [...(byColumn ? columnsOf(values) : values.data)];
  lines.sort((a, b) => before(a[key - 1] as Plain, b[key - 1] as Plain, way));
  return byColumn ? transposed(Matrix.rows(lines)) : Matrix.rows(lines);
}

function unique(values: Matrix, byColumn: boolean, once: boolean): Given {
  const error = errorIn(values);
  if (error !== undefined) return error;
  const found: { readonly line: readonly Value[]; count: number }[] = [];
  for (const line of byColumn ? columnsOf(values) : values.data) {
    const known = found.find((one) =>
      one.line.every((value, i) => compared(value as Plain, line[i] as Plain) === 0),
    );
    if (known === undefined) found.push({ line, count: 1 });
    else known.count += 1;
  }
  const kept = found.filter(({ count }) => !once || count === 1).map(({ line }) => line);
  if (kept.length === 0) return none();
  return byColumn ? transposed(Matrix.rows(kept)) : Matrix.rows(kept);
}

function stackedDown(...parts: Matrix[]): Given {
  const width = parts.reduce((most, { columns }) => Math.max(most, columns), 1);
  return Matrix.rows(
    parts.flatMap(({ data }) =>
      data.map((row) => Array.from({ length: width }, (_, i) => row[i] ?? hole(row, i))),
    ),
  );
}

/** What stands at a place of a row: nothing in a cell is something else than no cell. */
const hole = (row: readonly Value[], at: number): Value => (at < row.length ? null : missing());

const stackedAcross = (...parts: Matrix[]): Given => {
  const height = parts.reduce((most, { rows }) => Math.max(most, rows), 1);
  return Matrix.rows(
    Array.from({ length: height }, (_, row) =>
      parts.flatMap((part) =>
        row < part.rows ? part.row(row) : Array.from({ length: part.columns }, missing),
      ),
    ),
  );
};

function sequence(rows: number, columns: number, start: number, step: number): Given {
  if (rows < 0 || columns < 0) return fail('VALUE', SAYS.belowOne);
  const [height, width] = [Math.trunc(rows), Math.trunc(columns)];
  if (height < 1 || width < 1) return fail('VALUE', SAYS.belowOne);
  const cells = Array.from({ length: height * width }, (_, i) => start + i * step);
  return new Matrix(width, height, cells);
}

/** Rows and columns that are written out; nothing where they are not, or are none. */
function written(rows: number | undefined, columns: number | undefined): Size | undefined {
  const [height, width] = [Math.trunc(rows ?? 0), Math.trunc(columns ?? 0)];
  if (height < 1 || width < 1 || height * width > MOST) return undefined;
  return { columns: width, rows: height };
}

/** Values that are made of nothing, at the most. */
const MOST = 20_000;
const ONE: Size = { columns: 1, rows: 1 };
const optional = { emptyIsLeftOut: true } as const;
const positive = { ...whole, least: 1 } as const;

/** Functions that come to several values. */
export const ARRAYS: Family = {
  ARRAYFORMULA: { takes: [either], size: ([first = ONE]) => first, run: (value: Given) => value },
  ARRAY_CONSTRAIN: {
    takes: [range, positive, positive],
    once: true,
    varies: true,
    size: ([first = ONE]) => first,
    run: (values: Matrix, rows: number, columns: number) =>
      Matrix.rows(values.data.slice(0, rows).map((row) => row.slice(0, columns))),
  },
  FILTER: {
    takes: [range, range],
    again: 1,
    varies: true,
    size: (given) => ({
      columns: Math.max(...given.map(({ columns }) => columns)),
      rows: Math.max(...given.map(({ rows }) => rows)),
    }),
    run: filtered,
  },
  SORT: {
    takes: [
      range,
      { ...number, ...optional, leftOut: 1 },
      { ...number, ...optional, leftOut: 1 },
      { ...logical, ...optional, leftOut: false },
    ],
    once: true,
    size: ([first = ONE]) => first,
    run: sorted,
  },
  UNIQUE: {
    takes: [
      range,
      { ...logical, ...optional, leftOut: false },
      { ...logical, ...optional, leftOut: false },
    ],
    once: true,
    varies: true,
    size: ([first = ONE]) => first,
    run: unique,
  },
  TRANSPOSE: {
    takes: [range],
    once: true,
    size: ([first = ONE]) => ({ columns: first.rows, rows: first.columns }),
    run: transposed,
  },
  VSTACK: {
    takes: [range],
    again: 1,
    size: (given) => ({
      columns: Math.max(...given.map(({ columns }) => columns)),
      rows: given.reduce((sum, { rows }) => sum + rows, 0),
    }),
    run: stackedDown,
  },
  HSTACK: {
    takes: [range],
    again: 1,
    size: (given) => ({
      columns: given.reduce((sum, { columns }) => sum + columns, 0),
      rows: Math.max(...given.map(({ rows }) => rows)),
    }),
    run: stackedAcross,
  },
  SEQUENCE: {
    takes: [
      number,
      { ...number, ...optional, leftOut: 1 },
      { ...number, ...optional, leftOut: 1 },
      { ...number, ...optional, leftOut: 1 },
    ],
    once: true,
    size: (given, [rows, columns]) => written(rows, given.length > 1 ? columns : 1),
    run: sequence,
  },
};
