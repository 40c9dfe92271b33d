import { Moments } from './moments.ts';
import { added, Failure, fail, type Value } from './values.ts';

/** A function that goes through all its values: cells of ranges one by one, the rest as they stand. */
export interface Aggregate<A = unknown> {
  /** What is there before any value. */
  readonly from: A;
  /** Two parts of what is there as one. */
  readonly join: (left: A, right: A) => A;
  /** What a value counts as; nothing where it is passed over. */
  readonly counts: (value: Value) => number | Failure | undefined;
  /** What is joined of a number that counts. */
  readonly one: (value: number) => A;
  /** What all of it comes to. */
  readonly last: (all: A) => number | Failure;
}

/** Of numbers, which are joined as they are. */
export interface NumberAggregate {
  /** What is there before any value. */
  readonly from: number;
  /** Two numbers as one. */
  readonly join: (left: number, right: number) => number;
  /** What a value counts as; nothing where it is passed over. */
  readonly counts: (value: Value) => number | Failure | undefined;
  /** What all of it comes to, where that is another number. */
  readonly last?: (all: number) => number;
  /** Every number counts as itself. */
  readonly numeric?: true;
}

const numbersOnly = (value: Value): number | Failure | undefined =>
  typeof value === 'number' || value instanceof Failure ? value : undefined;

/** Yes counts as 1, no and words as 0. */
const whatever = (value: Value): number | Failure | undefined => {
  if (typeof value === 'boolean') return value ? 1 : 0;
  return typeof value === 'string' ? 0 : numbersOnly(value);
};

const finite = (value: number): number => (Number.isFinite(value) ? value : 0);
const plus = (left: number, right: number): number => left + right;

type Counts = NumberAggregate['counts'];

const extreme = (join: typeof Math.min, from: number, counts: Counts): NumberAggregate => ({
  from,
  join,
  counts,
  last: finite,
});

/** Those that come to a number by joining numbers. */
export const NUMBER_AGGREGATES: ReadonlyMap<string, NumberAggregate> = new Map(
  Object.entries<NumberAggregate>({
    SUM: { from: 0, join: added, counts: numbersOnly, numeric: true },
    PRODUCT: { from: 1, join: (left, right) => left * right, counts: numbersOnly, numeric: true },
    MIN: { ...extreme(Math.min, Number.POSITIVE_INFINITY, numbersOnly), numeric: true },
    MAX: { ...extreme(Math.max, Number.NEGATIVE_INFINITY, numbersOnly), numeric: true },
    MINA: extreme(Math.min, Number.POSITIVE_INFINITY, whatever),
    MAXA: extreme(Math.max, Number.NEGATIVE_INFINITY, whatever),
    COUNT: { from: 0, join: plus, counts: (value) => (typeof value === 'number' ? 1 : 0) },
    COUNTA: { from: 0, join: plus, counts: (value) => (value === null ? 0 : 1) },
  }),
);

const SQUARES: Aggregate<number> = {
  from: 0,
  join: added,
  counts: numbersOnly,
  one: (value) => value ** 2,
  last: (all) => all,
};

interface Mean {
  readonly sum: number;
  readonly count: number;
}

const mean = (counts: Counts): Aggregate<Mean> => ({
  from: { sum: 0, count: 0 },
  join: (a, b) => ({ sum: a.sum + b.sum, count: a.count + b.count }),
  counts,
  one: (sum) => ({ sum, count: 1 }),
  last: ({ sum, count }) => (count > 0 ? sum / count : fail('DIV_BY_ZERO')),
});

const spread = (
  counts: Counts,
  asks: (all: Moments) => number | undefined,
): Aggregate<Moments> => ({
  from: Moments.none(),
  join: (a, b) => a.with(b),
  counts,
  one: Moments.of,
  last: (all) => asks(all) ?? fail('DIV_BY_ZERO'),
});

const variance = (counts: Counts, of: 'all' | 'sample') =>
  spread(counts, (all) => all.variance(of));
const deviation = (counts: Counts, of: 'all' | 'sample') =>
  spread(counts, (all) => all.deviation(of));

const [varSample, varAll] = [variance(numbersOnly, 'sample'), variance(numbersOnly, 'all')];
const [devSample, devAll] = [deviation(numbersOnly, 'sample'), deviation(numbersOnly, 'all')];

/** Those that keep more than a number on their way. */
export const AGGREGATES: ReadonlyMap<string, Aggregate> = new Map(
  Object.entries({
    SUMSQ: SQUARES,
    AVERAGE: mean(numbersOnly),
    AVERAGEA: mean(whatever),
    VAR: varSample,
    'VAR.S': varSample,
    VARS: varSample,
    VARP: varAll,
    'VAR.P': varAll,
    VARA: variance(whatever, 'sample'),
    VARPA: variance(whatever, 'all'),
    STDEV: devSample,
    'STDEV.S': devSample,
    STDEVS: devSample,
    STDEVP: devAll,
    'STDEV.P': devAll,
    STDEVA: deviation(whatever, 'sample'),
    STDEVPA: deviation(whatever, 'all'),
  }) as Iterable<readonly [string, Aggregate]>,
);

/** What SUBTOTAL asks for by its first argument. */
export const SUBTOTALS: ReadonlyMap<number, string> = new Map(
  'AVERAGE COUNT COUNTA MAX MIN PRODUCT STDEV.S STDEV.P SUM VAR.S VAR.P'
    .split(' ')
    .flatMap((name, i) => [[i + 1, name] as const, [i + 101, name] as const]),
);
