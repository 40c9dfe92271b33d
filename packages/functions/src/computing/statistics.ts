import { covariance, line, squaredDeviations } from './deviations.ts';
import { gathered, numbersIn, pairsOf } from './gathered.ts';
import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import {
  alike,
  type Computing,
  either,
  type Family,
  type Given,
  least,
  number,
  range,
} from './takes.ts';
import { Failure, fail, type Value } from './values.ts';

type Numbers = readonly number[];

/** A function of all numbers there are. */
const ofAll = (run: (all: number[]) => Value): Computing => ({
  takes: [either],
  again: 1,
  run: (...given: Given[]) => {
    const all = gathered(given, 'numbers');
    return all instanceof Failure ? all : run(all);
  },
});

/** A function of the numbers of two ranges that stand beside each other. */
const ofPairs = (run: (x: Numbers, y: Numbers) => Value): Computing => ({
  takes: [range, range],
  run: (x: Matrix, y: Matrix) => {
    if (x.cells.length !== y.cells.length) return fail('NA', SAYS.sameSize);
    const pairs = pairsOf(x, y);
    return pairs instanceof Failure ? pairs : run(pairs.x, pairs.y);
  },
});

const sorted = (values: number[]): number[] => values.sort((a, b) => a - b);
// From the last to the first: sums of numbers depend on it.
const backward = (values: Numbers, from: number, join: (all: number, one: number) => number) =>
  values.reduceRight(join, from);
const sum = (values: Numbers): number => backward(values, 0, (all, one) => all + one);
const mean = (values: Numbers): number => sum(values) / values.length;

function deviation(values: Numbers, of: 'all' | 'sample'): number {
  const middle = mean(values);
  const squares = backward(values, 0, (all, one) => {
    const apart = one - middle;
    return all + apart * apart;
  });
  return Math.sqrt(squares / (values.length - (of === 'sample' ? 1 : 0)));
}

function median(all: number[]): Value {
  if (all.length === 0) return fail('NUM', SAYS.oneValue);
  const values = sorted(all);
  const half = values.length / 2;
  if (values.length % 2 === 1) return values[Math.floor(half)] as number;
  return ((values[half - 1] as number) + (values[half] as number)) / 2;
}

/** One of the numbers of a range in their order, counted from one end. */
const ranked = (end: 'least' | 'most'): Computing => ({
  whole: 'any',
  takes: [range, least(1)],
  run: (given: Matrix, which: number) => {
    const all = numbersIn(given);
    if (all instanceof Failure) return all;
    const place = Math.trunc(which);
    if (place > all.length) return fail('NUM', SAYS.tooLarge);
    return sorted(all)[end === 'least' ? place - 1 : all.length - place] as number;
  },
});

/** Where so much of a range is below. */
function percentile(given: Matrix, part: number, ends: 'in' | 'out'): Value {
  const all = numbersIn(given);
  if (all instanceof Failure) return all;
  if (all.length === 0) return fail('NUM', SAYS.oneValue);
  const values = sorted(all);
  const count = values.length;
  const rank = ends === 'in' ? part * (count - 1) : part * (count + 1);
  if (ends === 'out' && rank < 1) return fail('NUM', SAYS.tooSmall);
  if (ends === 'out' && rank > count) return fail('NUM', SAYS.tooLarge);
  const below = Math.floor(rank);
  const at = ends === 'in' ? below : below - 1;
  const value = values[at] as number;
  if (at + 1 >= count) return value;
  return value + (rank - below) * ((values[at + 1] as number) - value);
}

const quartile = (ends: 'in' | 'out', from: number, to: number): Computing => ({
  whole: 'any',
  takes: [range, number],
  run: (given: Matrix, which: number) => {
    const quarter = Math.trunc(which);
    if (quarter < from) return fail('NUM', SAYS.tooSmall);
    if (quarter > to) return fail('NUM', SAYS.tooLarge);
    return percentile(given, quarter / 4, ends);
  },
});

const positive = (all: Numbers, run: () => Value): Value => {
  if (all.length === 0) return fail('NUM', SAYS.oneValue);
  return all.some((value) => value <= 0) ? fail('NUM', SAYS.tooSmall) : run();
};

const skewed = (of: 'all' | 'sample'): Computing =>
  ofAll((all) => {
    const count = all.length;
    if (count < 3) return fail('DIV_BY_ZERO', SAYS.threeValues);
    const [middle, spread] = [mean(all), deviation(all, of)];
    if (spread === 0) return fail('DIV_BY_ZERO');
    const cubes = all.reduce((total, value) => total + ((value - middle) / spread) ** 3, 0);
    return of === 'all' ? cubes / count : (cubes * count) / (count - 1) / (count - 2);
  });

function correlation(x: Numbers, y: Numbers): number {
  const [a, b] = [mean(x), mean(y)];
  const both = sum(x.map((value, i) => (value - a) * ((y[i] as number) - b)));
  return both / (x.length - 1) / deviation(x, 'sample') / deviation(y, 'sample');
}

const two = (x: Numbers, run: () => Value): Value =>
  x.length <= 1 ? fail('DIV_BY_ZERO', SAYS.twoValues) : run();
const equalX = () => fail('DIV_BY_ZERO', SAYS.equalX);

/** What each pair of numbers comes to, added up. */
const overPairs = (each: (x: number, y: number) => number): Computing =>
  ofPairs((x, y) => x.reduce((total, value, i) => total + each(value, y[i] as number), 0));

const family: Family = {
  MEDIAN: ofAll(median),
  LARGE: ranked('most'),
  SMALL: ranked('least'),
  'PERCENTILE.INC': {
    whole: 'any',
    takes: [range, { as: 'number', least: 0, most: 1 }],
    run: (given: Matrix, part: number) => percentile(given, part, 'in'),
  },
  'PERCENTILE.EXC': {
    whole: 'any',
    takes: [range, { as: 'number', above: 0, below: 1 }],
    run: (given: Matrix, part: number) => percentile(given, part, 'out'),
  },
  'QUARTILE.INC': quartile('in', 0, 4),
  'QUARTILE.EXC': quartile('out', 1, 3),
  AVEDEV: ofAll((all) => {
    if (all.length === 0) return fail('DIV_BY_ZERO');
    const middle = mean(all);
    return all.reduce((total, value) => total + Math.abs(value - middle), 0) / all.length;
  }),
  DEVSQ: ofAll((all) => (all.length === 0 ? 0 : squaredDeviations(all))),
  GEOMEAN: ofAll((all) =>
    positive(all, () => backward(all, 1, (product, one) => product * one) ** (1 / all.length)),
  ),
  HARMEAN: ofAll((all) =>
    positive(all, () => all.length / all.reduce((total, value) => total + 1 / value, 0)),
  ),
  SKEW: skewed('sample'),
  'SKEW.P': skewed('all'),
  CORREL: ofPairs((x, y) => two(x, () => correlation(x, y))),
  RSQ: ofPairs((x, y) => two(x, () => correlation(x, y) ** 2)),
  'COVARIANCE.P': ofPairs((x, y) => {
    if (x.length < 1) return fail('DIV_BY_ZERO', SAYS.oneValue);
    return x.length === 1 ? 0 : covariance(x, y, 0);
  }),
  'COVARIANCE.S': ofPairs((x, y) => two(x, () => covariance(x, y, 1))),
  SLOPE: ofPairs((y, x) => two(x, () => line(y, x, 'slope') ?? equalX())),
  SUMX2MY2: overPairs((x, y) => x ** 2 - y ** 2),
  SUMX2PY2: overPairs((x, y) => x ** 2 + y ** 2),
  SUMXMY2: overPairs((x, y) => (x - y) ** 2),
  STEYX: ofPairs((y, x) =>
    x.length <= 2 ? fail('DIV_BY_ZERO', SAYS.threeValues) : (line(y, x, 'apart') ?? equalX()),
  ),
};

/** What many numbers say together. */
export const STATISTICS: Family = {
  ...family,
  ...alike(family, {
    PERCENTILE: 'PERCENTILE.INC',
    QUARTILE: 'QUARTILE.INC',
    SKEWP: 'SKEW.P',
    PEARSON: 'CORREL',
    COVAR: 'COVARIANCE.P',
    COVARIANCEP: 'COVARIANCE.P',
    COVARIANCES: 'COVARIANCE.S',
  }),
};
