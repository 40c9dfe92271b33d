import { conditionOf, type Meets } from './criteria.ts';
import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import { type Aids, type Computing, type Family, noError, range } from './takes.ts';
import { added, Failure, fail, type Value } from './values.ts';

type Spend = Aids['spend'];

interface Condition {
  readonly where: Matrix;
  readonly meets: Meets;
}

/** Ranges and what is asked of them, in turn; why that cannot be, instead. */
function conditionsOf(
  values: Matrix,
  given: readonly (Matrix | Value)[],
  spend: Spend,
): readonly Condition[] | Failure {
  const conditions: Condition[] = [];
  for (let i = 0; i < given.length; i += 2) {
    const meets = conditionOf(given[i + 1] as Value, spend);
    if (meets === undefined) return fail('VALUE', SAYS.criterion);
    conditions.push({ where: given[i] as Matrix, meets });
  }
  const differs = conditions.some(
    ({ where }) => where.rows !== values.rows || where.columns !== values.columns,
  );
  return differs ? fail('VALUE', SAYS.sameSize) : conditions;
}

/** Goes through the values whose cells meet all conditions. */
function chosen(
  values: Matrix,
  given: readonly (Matrix | Value)[],
  spend: Spend,
  take: (value: Value) => void,
): Failure | undefined {
  const conditions = conditionsOf(values, given, spend);
  if (conditions instanceof Failure) return conditions;
  for (let i = 0; i < values.cells.length; i += 1) {
    if (conditions.every(({ where, meets }) => meets(where.cells[i] as Value))) {
      take(values.cells[i] as Value);
    }
  }
  return undefined;
}

const criterion = { ...noError };
const optionalRange = { ...range, optional: true } as const;

/** The sum of the numbers that are chosen, or the first error among them. */
function summed(values: Matrix, given: readonly (Matrix | Value)[], spend: Spend): Value {
  let sum: number | Failure = 0;
  const failure = chosen(values, given, spend, (value) => {
    if (sum instanceof Failure) return;
    if (value instanceof Failure) sum = value;
    else if (typeof value === 'number') sum = added(sum, value);
  });
  return failure ?? sum;
}

function counted(values: Matrix, given: readonly (Matrix | Value)[], spend: Spend): Value {
  let count = 0;
  const failure = chosen(values, given, spend, () => {
    count += 1;
  });
  return failure ?? count;
}

function averaged(values: Matrix, given: readonly (Matrix | Value)[], spend: Spend): Value {
  let [sum, count] = [0, 0];
  const failure = chosen(values, given, spend, (value) => {
    if (typeof value !== 'number') return;
    sum += value;
    count += 1;
  });
  if (failure !== undefined) return failure;
  return count === 0 ? fail('DIV_BY_ZERO') : sum / count;
}

/** The least or the most of what is chosen; an error among it is no number that could be compared. */
function outermost(
  values: Matrix,
  given: readonly (Matrix | Value)[],
  spend: Spend,
  from: number,
  join: (a: number, b: number) => number,
): Value {
  let most = from;
  const failure = chosen(values, given, spend, (value) => {
    if (typeof value === 'number') most = join(most, value);
    else if (value instanceof Failure) most = Number.NaN;
  });
  if (failure !== undefined) return failure;
  return Number.isFinite(most) ? most : 0;
}

type Work = (values: Matrix, given: readonly (Matrix | Value)[], spend: Spend) => Value;

/** Functions over the cells of a range that meet conditions. */
export function conditionFamily({ spend }: Pick<Aids, 'spend'>): Family {
  const ofOne = (work: Work): Computing => ({
    whole: 'alike',
    takes: [range, criterion, optionalRange],
    run: (where: Matrix, wanted: Value, values: Matrix | undefined) =>
      work(values ?? where, [where, wanted], spend),
  });
  const ofMany = (work: Work): Computing => ({
    whole: 'alike',
    takes: [range, range, criterion],
    again: 2,
    run: (values: Matrix, ...given: (Matrix | Value)[]) => work(values, given, spend),
  });
  return {
    SUMIF: ofOne(summed),
    AVERAGEIF: ofOne(averaged),
    COUNTIF: {
      whole: 'counted',
      takes: [range, criterion],
      run: (where: Matrix, wanted: Value) => counted(where, [where, wanted], spend),
    },
    SUMIFS: ofMany(summed),
    COUNTIFS: {
      whole: 'counted',
      takes: [range, criterion],
      again: 2,
      run: (...given: (Matrix | Value)[]) => counted(given[0] as Matrix, given, spend),
    },
    MINIFS: ofMany((values, given, by) =>
      outermost(values, given, by, Number.POSITIVE_INFINITY, Math.min),
    ),
    MAXIFS: ofMany((values, given, by) =>
      outermost(values, given, by, Number.NEGATIVE_INFINITY, Math.max),
    ),
  };
}
