import { conditionOf, type Meets } from './criteria.ts';
import type { Matrix } from './matrix.ts';
import { Moments } from './moments.ts';
import { SAYS } from './says.ts';
import { type Aids, any, type Computing, type Family, range } from './takes.ts';
import { Failure, fail, type Value } from './values.ts';

const wrong = () => fail('VALUE', SAYS.wrongType);

/** The column that is asked for, by its head or its place from 1; counted from 0. */
function columnOf({ columns, cells }: Matrix, field: Value): number | Failure {
  if (field instanceof Failure) return field;
  if (typeof field === 'string') {
    const at = headed(cells.slice(0, columns), field);
    return at < 0 ? wrong() : at;
  }
  if (field === null) return wrong();
  const place = Math.trunc(Number(field));
  return Number.isFinite(place) && place >= 1 && place <= columns ? place - 1 : wrong();
}

const headed = (heads: readonly Value[], head: string): number =>
  heads.findIndex((one) => typeof one === 'string' && one.toLowerCase() === head.toLowerCase());

interface Asked {
  readonly column: number;
  readonly meets: Meets;
}

/** What each row of conditions asks; heads that the table has not are passed over. */
function conditionsOf(
  table: Matrix,
  wanted: Matrix,
  spend: Aids['spend'],
): readonly (readonly Asked[])[] | Failure {
  const heads = wanted.row(0);
  const error = heads.find((one) => one instanceof Failure);
  if (error instanceof Failure) return error;
  const columns = heads.map((head) => (typeof head === 'string' ? headed(table.row(0), head) : -1));
  const rows: Asked[][] = [];
  for (let i = 1; i < wanted.rows; i += 1) {
    const row: Asked[] = [];
    for (const [at, column] of columns.entries()) {
      const value = wanted.at(i, at);
      if (column < 0 || value === null) continue;
      if (value instanceof Failure) return value;
      const meets = conditionOf(value, spend);
      if (meets === undefined) return fail('VALUE', SAYS.criterion);
      row.push({ column, meets });
    }
    rows.push(row);
  }
  return rows;
}

/** The values of a column in the rows that meet all of one row of conditions. */
function chosen(
  table: Matrix,
  field: Value,
  wanted: Matrix,
  spend: Aids['spend'],
): readonly Value[] | Failure {
  const column = columnOf(table, field);
  if (column instanceof Failure) return column;
  const asked = conditionsOf(table, wanted, spend);
  if (asked instanceof Failure) return asked;
  const values: Value[] = [];
  for (let i = 1; i < table.rows; i += 1) {
    const row = table.row(i);
    const fits = asked.some((all) => all.every(({ column: at, meets }) => meets(row[at] as Value)));
    if (fits) values.push(row[column] as Value);
  }
  return values;
}

/** Functions over the rows of a table that meet conditions written in cells. */
export function databaseFamily({ spend }: Pick<Aids, 'spend'>): Family {
  const over = (run: (values: readonly Value[]) => Value): Computing => ({
    takes: [range, any, range],
    run: (table: Matrix, field: Value, wanted: Matrix) => {
      const values = chosen(table, field, wanted, spend);
      return values instanceof Failure ? values : run(values);
    },
  });
  const overAll = (run: (values: readonly Exclude<Value, Failure>[]) => Value): Computing =>
    over((values) => {
      const error = values.find((one) => one instanceof Failure);
      return error ?? run(values as readonly Exclude<Value, Failure>[]);
    });
  const overNumbers = (run: (numbers: readonly number[]) => Value): Computing =>
    overAll((values) => run(values.filter((one) => typeof one === 'number')));
  const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
  const most = (join: (a: number, b: number) => number): Computing =>
    overNumbers((numbers) => (numbers.length === 0 ? 0 : numbers.reduce((a, b) => join(a, b))));
  const moments = (asks: (all: Moments) => number | undefined): Computing =>
    overNumbers((numbers) => {
      const all = numbers.reduce((one, next) => one.with(Moments.of(next)), Moments.none());
      return asks(all) ?? fail('DIV_BY_ZERO');
    });
  return {
    DCOUNT: overNumbers((numbers) => numbers.length),
    DCOUNTA: overAll((values) => values.filter((one) => one !== null).length),
    DSUM: overNumbers(sum),
    DAVERAGE: overNumbers((numbers) =>
      numbers.length === 0 ? fail('DIV_BY_ZERO') : sum(numbers) / numbers.length,
    ),
    DPRODUCT: overNumbers((numbers) =>
      numbers.length === 0 ? 0 : numbers.reduce((all, one) => all * one, 1),
    ),
    DMAX: most(Math.max),
    DMIN: most(Math.min),
    DGET: over((values) => {
      if (values.length > 1) return fail('NUM', SAYS.tooLarge);
      return values.length === 0 ? wrong() : (values[0] ?? 0);
    }),
    DVAR: moments((all) => all.variance('sample')),
    DVARP: moments((all) => all.variance('all')),
    DSTDEV: moments((all) => all.deviation('sample')),
    DSTDEVP: moments((all) => all.deviation('all')),
  };
}
