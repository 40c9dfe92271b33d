import type { CellView } from '@kerfbook/workbook';
import { type Asker, type Given, numberOf, outcomes, type Waiting } from './ask.ts';
import { StudyFault } from './fault.ts';
import { inputCell, type StudyBook, scalarIn, takes, wordsOf } from './inputs.ts';
import { numbersFrom, triangular } from './random.ts';

/** An input that is not known for sure, in the workbook's own units. */
export interface Uncertain {
  /** Its cell, which holds no formula. */
  readonly cell: CellView;
  /** It is never less. */
  readonly low: number;
  /** What is most likely. */
  readonly likely: number;
  /** It is never more. */
  readonly high: number;
}

/** Reads `hours_base 7, 9, 14`: low, likely and high. @throws StudyFault with a sentence */
export function uncertainOf(book: StudyBook, name: string, text: string): Uncertain {
  const cell = inputCell(book, name);
  const called = cell.name ?? name;
  const numbers = wordsOf(text).map((word) => scalarIn(book, cell, word));
  const [low, likely, high] = numbers;
  if (
    numbers.length !== 3 ||
    typeof low !== 'number' ||
    typeof likely !== 'number' ||
    typeof high !== 'number'
  ) {
    throw new StudyFault(
      `${called} needs three numbers, low, likely and high, such as ${called} 7, 9, 14.`,
    );
  }
  if (!(low <= likely && likely <= high && low < high)) {
    throw new StudyFault(
      `${called} should rise from low over likely to high; it got ${text.trim()}.`,
    );
  }
  for (const end of [low, likely, high]) takes(book, cell, end);
  return { cell, low, likely, high };
}

/** How one result is spread. */
export interface SpreadOf {
  /** The result. */
  readonly cell: CellView;
  /** Tries in which it came to a number. */
  readonly count: number;
  /** Tries in which it came to none. */
  readonly lost: number;
  /** The least that came of any try. */
  readonly least: number;
  /** One try in ten comes to less. */
  readonly p10: number;
  /** Half of the tries come to less. */
  readonly p50: number;
  /** Nine tries in ten come to less. */
  readonly p90: number;
  /** The most that came of any try. */
  readonly most: number;
  /** The mean of all tries. */
  readonly mean: number;
  /** How many tries came to each of as many equal steps from least to most. */
  readonly bins: readonly number[];
  /**
   * How far each input orders it, most first: Spearman's rank correlation, from -1 (the more of the one, the less of the
   * other) over 0 (nothing to do with it) to 1.
   */
  readonly matters: readonly { readonly cell: CellView; readonly rank: number }[];
}

/** What many tries came to. */
export interface Spread {
  /** What was not known for sure. */
  readonly inputs: readonly Uncertain[];
  /** How each result is spread, in the order asked for. */
  readonly results: readonly SpreadOf[];
  /** Checks that failed in at least one try, most often first. */
  readonly checks: readonly {
    readonly name: string;
    readonly state: 'care' | 'stop' | 'unknown';
    /** Share of the tries, 0 to 1. */
    readonly share: number;
  }[];
  /** Tries in which a check said stop. */
  readonly stopped: number;
  /** How many tries there were. */
  readonly draws: number;
  /** What they were drawn from. */
  readonly seed: number;
}

/** Tries where nothing is said, and the most there are. */
export const USUAL_DRAWS = 10_000;
/** The most tries there are. */
export const MOST_DRAWS = 1_000_000;
/** Tries that are asked for at once: what they came to is not kept but for the results' numbers. */
const BLOCK = 5_000;
const BINS = 24;

/**
 * Tries a workbook with inputs drawn at random, each from the triangle over low, likely and high and independent of the
 * others; whole numbers where an input takes no others. The same seed gives the same tries.
 *
 * @throws StudyFault for a number of tries that is none, or where it was stopped before the first block of them
 */
export async function spread(
  book: StudyBook,
  asker: Asker,
  {
    inputs,
    results,
    draws = USUAL_DRAWS,
    seed = 1,
  }: {
    readonly inputs: readonly Uncertain[];
    readonly results: readonly CellView[];
    readonly draws?: number;
    readonly seed?: number;
  },
  { hear, signal }: Waiting = {},
): Promise<Spread> {
  if (!Number.isInteger(draws) || draws < 2 || draws > MOST_DRAWS) {
    throw new StudyFault(`A spread takes 2 to ${MOST_DRAWS.toLocaleString('en-US')} tries.`);
  }
  if (inputs.length === 0 || results.length === 0) {
    throw new StudyFault('A spread needs an input that is not known for sure, and a result.');
  }
  const next = numbersFrom(seed);
  const drawn = inputs.map(() => new Float64Array(draws));
  const came = results.map(() => new Float64Array(draws).fill(Number.NaN));
  const checks = new Map<string, { state: 'care' | 'stop' | 'unknown'; count: number }>();
  let stopped = 0;
  let done = 0;
  while (done < draws && signal?.aborted !== true) {
    const from = done;
    const sets: Given[] = Array.from({ length: Math.min(BLOCK, draws - from) }, (_, i) =>
      inputs.map((input, place) => {
        const exact = triangular(input, next());
        const value = input.cell.allow?.whole === true ? wholeOf(input, exact) : exact;
        (drawn[place] as Float64Array)[from + i] = value;
        return value;
      }),
    );
    const waiting = {
      hear: (more: number) => hear?.(from + more),
      ...(signal === undefined ? {} : { signal }),
    };
    const asked = { inputs: inputs.map(({ cell }) => cell), results, sets };
    const rows = await outcomes(book, asker, asked, waiting);
    const end = rows.indexOf(undefined);
    for (const row of end < 0 ? rows : rows.slice(0, end)) {
      if (row === undefined) break;
      for (const [place, value] of row.values.entries()) {
        (came[place] as Float64Array)[done] = numberOf(value) ?? Number.NaN;
      }
      for (const { name, state } of row.failing) {
        const known = checks.get(name) ?? { state, count: 0 };
        checks.set(name, { state, count: known.count + 1 });
      }
      if (row.failing.some(({ state }) => state !== 'care')) stopped += 1;
      done += 1;
    }
    if (end >= 0) break;
  }
  if (done === 0) throw new StudyFault('The tries were stopped before there were any.');
  return {
    inputs,
    results: results.map((cell, place) =>
      spreadOf(cell, (came[place] as Float64Array).subarray(0, done), inputs, drawn),
    ),
    checks: [...checks]
      .map(([name, { state, count }]) => ({ name, state, share: count / done }))
      .sort((one, other) => other.share - one.share),
    stopped,
    draws: done,
    seed,
  };
}

/** The nearest whole number that is not beyond its ends. */
const wholeOf = ({ low, high }: Uncertain, exact: number): number =>
  Math.min(Math.floor(high), Math.max(Math.ceil(low), Math.round(exact)));

function spreadOf(
  cell: CellView,
  came: Float64Array,
  inputs: readonly Uncertain[],
  drawn: readonly Float64Array[],
): SpreadOf {
  const places = Array.from(came.keys()).filter((i) => !Number.isNaN(came[i] as number));
  const numbers = Float64Array.from(places, (i) => came[i] as number);
  const sorted = numbers.toSorted();
  const [least = Number.NaN, most = Number.NaN] = [sorted[0], sorted.at(-1)];
  const ranks = ranksOf(numbers);
  return {
    cell,
    count: numbers.length,
    lost: came.length - numbers.length,
    least,
    p10: percentile(sorted, 10),
    p50: percentile(sorted, 50),
    p90: percentile(sorted, 90),
    most,
    mean: numbers.reduce((sum, one) => sum + one, 0) / numbers.length,
    bins: binsOf(sorted, least, most),
    matters: inputs
      .map(({ cell: input }, i) => ({
        cell: input,
        rank: correlation(
          ranksOf(Float64Array.from(places, (place) => drawn[i]?.[place] ?? Number.NaN)),
          ranks,
        ),
      }))
      .sort((one, other) => Math.abs(other.rank) - Math.abs(one.rank)),
  };
}

/**
 * A percentile of numbers in order, between two of them in proportion.
 * Source: Hyndman and Fan, Sample Quantiles in Statistical Packages, The American Statistician 50 (1996), type 7.
 */
export function percentile(sorted: Float64Array, percent: number): number {
  const place = ((sorted.length - 1) * percent) / 100;
  const below = Math.floor(place);
  const [one = Number.NaN, other = one] = [sorted[below], sorted[below + 1]];
  return one + (other - one) * (place - below);
}

function binsOf(sorted: Float64Array, least: number, most: number): readonly number[] {
  const bins = new Array<number>(BINS).fill(0);
  if (!(most > least)) return sorted.length === 0 ? bins : [sorted.length];
  for (const one of sorted) {
    const bin = Math.min(BINS - 1, Math.floor(((one - least) / (most - least)) * BINS));
    bins[bin] = (bins[bin] ?? 0) + 1;
  }
  return bins;
}

/** The rank of each number among all; those alike share the mean of theirs. */
export function ranksOf(numbers: Float64Array): Float64Array {
  const order = Array.from(numbers.keys()).sort(
    (one, other) => (numbers[one] as number) - (numbers[other] as number),
  );
  const ranks = new Float64Array(numbers.length);
  for (let from = 0; from < order.length; ) {
    let end = from + 1;
    while (end < order.length && numbers[order[end] as number] === numbers[order[from] as number]) {
      end += 1;
    }
    for (let i = from; i < end; i += 1) ranks[order[i] as number] = (from + end + 1) / 2;
    from = end;
  }
  return ranks;
}

/** Pearson's correlation; of ranks, Spearman's. 0 where one of them does not vary. */
export function correlation(one: Float64Array, other: Float64Array): number {
  const count = one.length;
  const mean = (of: Float64Array): number => of.reduce((sum, x) => sum + x, 0) / count;
  const [a, b] = [mean(one), mean(other)];
  let [both, squares, others] = [0, 0, 0];
  for (let i = 0; i < count; i += 1) {
    const [x, y] = [(one[i] as number) - a, (other[i] as number) - b];
    both += x * y;
    squares += x * x;
    others += y * y;
  }
  return squares > 0 && others > 0 ? both / Math.sqrt(squares * others) : 0;
}
