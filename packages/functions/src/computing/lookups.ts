import { ofWords } from './criteria.ts';
import { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import { placeOf, plain, type Search } from './search.ts';
import {
  type Aids,
  any,
  type Family,
  type Given,
  logical,
  noError,
  number,
  range,
  type Size,
} from './takes.ts';
import { fail, type Value } from './values.ts';

const notFound = () => fail('NA', SAYS.notFound);

/** Looks for a key among values; words with `*` and `?` where these count. */
function found(
  key: Value,
  values: readonly Value[],
  search: Search,
  isRange: boolean,
  signs: false | Aids['spend'],
): number {
  if (signs === false || typeof key !== 'string' || !/[*?]/.test(key)) {
    return placeOf(plain(key), values, search, isRange);
  }
  const meets = ofWords('=', key, signs);
  // Where nothing is said of it, the last one is taken.
  return search.take === 'first' ? values.findIndex(meets) : values.findLastIndex(meets);
}

/** VLOOKUP by columns, HLOOKUP by rows. */
const lookup =
  (by: 'columns' | 'rows', spend: Aids['spend']) =>
  (given: Value, table: Matrix, which: number, sorted: boolean): Value => {
    if (!table.isRange) return fail('VALUE', SAYS.wrongType);
    if (which < 1) return fail('VALUE', SAYS.belowOne);
    if (which > table[by]) return fail('REF', SAYS.indexLarge);
    const search: Search = sorted
      ? { order: 'up', instead: 'below' }
      : { order: 'none', instead: 'nothing' };
    const values = by === 'columns' ? table.column(0) : table.row(0);
    const at = found(given ?? 0, values, search, true, sorted ? false : spend);
    if (at === -1) return notFound();
    // Between two columns there is an empty place to HyperFormula.
    if (!Number.isInteger(which)) return 0;
    return (by === 'columns' ? table.at(at, which - 1) : table.at(which - 1, at)) ?? 0;
  };

function matched(given: Value, where: Matrix, kind: number): Value {
  if (kind !== -1 && kind !== 0 && kind !== 1) return fail('VALUE', SAYS.mode);
  if (where.columns > 1 && where.rows > 1) return fail('NA');
  const search: Search =
    kind === 0
      ? { order: 'none', instead: 'nothing' }
      : kind === 1
        ? { order: 'up', instead: 'below' }
        : { order: 'down', instead: 'above' };
  const at = placeOf(plain(given ?? 0), where.cells, search, where.isRange);
  return at === -1 ? notFound() : at + 1;
}

/** A word of the standard's: nothing was given for what is not there. */
const NOTHING_GIVEN = 'NA';

const crossLookup =
  (spend: Aids['spend']) =>
  (
    given: Value,
    where: Matrix,
    from: Matrix,
    missing: Value,
    matching: number,
    searching: number,
  ): Given => {
    if (![0, -1, 1, 2].includes(matching)) return fail('VALUE', SAYS.mode);
    if (![1, -1, 2, -2].includes(searching)) return fail('VALUE', SAYS.mode);
    const isDown = where.columns === 1 && from.rows === where.rows;
    const isAcross = where.rows === 1 && from.columns === where.columns;
    if (!isDown && !isAcross) return fail('VALUE', SAYS.dimension);
    const search: Search = {
      order: searching === 2 ? 'up' : searching === -2 ? 'down' : 'none',
      instead: matching === -1 ? 'below' : matching === 1 ? 'above' : 'nothing',
      take: searching === -1 ? 'last' : 'first',
    };
    const at = found(given ?? 0, where.cells, search, where.isRange, matching === 2 && spend);
    if (at === -1) return missing === NOTHING_GIVEN ? notFound() : missing;
    const values = isDown ? from.row(at) : from.column(at);
    return new Matrix(
      isDown ? values.length : 1,
      isDown ? 1 : values.length,
      values.map((value) => value ?? 0),
    );
  };

const ONE: Size = { columns: 1, rows: 1 };

function crossSize(where = ONE, from = ONE): Size {
  if (where.columns === 1 && from.rows === where.rows) return { columns: from.columns, rows: 1 };
  if (where.rows === 1 && from.columns === where.columns) return { columns: 1, rows: from.rows };
  return ONE;
}

function indexed(where: Matrix, row: number, column: number): Value {
  if (column < 1 || row < 1) return fail('VALUE', SAYS.belowOne);
  if (column > where.columns || row > where.rows) return fail('NUM', SAYS.tooLarge);
  // A place between two cells is none, and the first cell is taken.
  const isPlace = Number.isInteger(row) && Number.isInteger(column);
  return isPlace ? where.at(row - 1, column - 1) : where.at(0, 0);
}

/** Functions that look for a value, or take one from its place. */
export const lookupFamily = ({ spend }: Pick<Aids, 'spend'>): Family => ({
  INDEX: { takes: [range, number, { ...number, leftOut: 1 }], run: indexed },
  MATCH: { whole: 'any', takes: [noError, range, { ...number, leftOut: 1 }], run: matched },
  VLOOKUP: {
    whole: 'columns',
    takes: [noError, range, number, { ...logical, leftOut: true }],
    run: lookup('columns', spend),
  },
  HLOOKUP: {
    whole: 'rows',
    takes: [noError, range, number, { ...logical, leftOut: true }],
    run: lookup('rows', spend),
  },
  XLOOKUP: {
    takes: [
      noError,
      range,
      range,
      { ...any, leftOut: NOTHING_GIVEN },
      { ...number, leftOut: 0 },
      { ...number, leftOut: 1 },
    ],
    size: ([, where, from]) => crossSize(where, from),
    run: crossLookup(spend),
  },
});
