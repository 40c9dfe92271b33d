import {
  by,
  type Double,
  divided,
  minus,
  over,
  plus,
  rounded,
  scaled,
  shifted,
  ZERO,
} from './doubles.ts';

/** Beyond two to this power, numbers are scaled before they are squared. */
const POWER = 400;

const asDouble = (high: number): Double => ({ high, low: 0 });
const total = (values: readonly number[]): Double =>
  values.reduce((sum, value) => plus(sum, asDouble(value)), ZERO);
const products = (a: readonly Double[], b: readonly Double[]): Double =>
  a.reduce((sum, value, i) => plus(sum, by(value, b[i] as Double)), ZERO);

function mean(values: readonly number[]): Double {
  const sum = total(values);
  if (Number.isFinite(sum.high)) return over(sum, values.length);
  const scale = 2 ** Math.ceil(Math.log2(values.length));
  return scaled(over(total(values.map((value) => value / scale)), values.length), scale);
}

interface Deviations {
  readonly from: readonly Double[];
  readonly power: number;
}

function deviationsOf(values: readonly number[], down: boolean): Deviations {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const power = powerFor(largest, down);
  const all = power === 0 ? values : values.map((value) => value * 2 ** -power);
  const middle = mean(all);
  return { from: all.map((value) => minus(asDouble(value), middle)), power };
}

function powerFor(largest: number, down: boolean): number {
  if (largest > 0 && largest < 2 ** -POWER) return Math.floor(Math.log2(largest)) + POWER;
  if (down && largest > 2 ** POWER && Number.isFinite(largest)) {
    return Math.floor(Math.log2(largest)) - POWER;
  }
  return 0;
}

/** The squares of what numbers are away from their mean, added up. */
export function squaredDeviations(values: readonly number[]): number {
  const { from, power } = deviationsOf(values, false);
  return shifted(rounded(products(from, from)), 2 * power);
}

interface Paired {
  readonly sums: readonly Double[];
  readonly powers: readonly [number, number];
}

function paired(
  x: readonly number[],
  y: readonly number[],
  work: (x: readonly Double[], y: readonly Double[]) => readonly Double[],
): Paired {
  const tried = (down: boolean): Paired => {
    const [a, b] = [deviationsOf(x, down), deviationsOf(y, down)];
    return { sums: work(a.from, b.from), powers: [a.power, b.power] };
  };
  const first = tried(false);
  return first.sums.some(({ high }) => !Number.isFinite(high)) ? tried(true) : first;
}

export function covariance(x: readonly number[], y: readonly number[], freedom: 0 | 1): number {
  const { sums, powers } = paired(x, y, (a, b) => [products(a, b)]);
  return shifted(rounded(over(sums[0] ?? ZERO, x.length - freedom)), powers[0] + powers[1]);
}

/** Of the line through points its slope, or how far points are from it; nothing where all x are equal. */
export function line(
  y: readonly number[],
  x: readonly number[],
  asks: 'slope' | 'apart',
): number | undefined {
  const { sums, powers } = paired(x, y, (a, b) => {
    const [squares, both] = [products(a, a), products(b, a)];
    return [squares, both, asks === 'apart' ? left(b, a, squares, both) : ZERO];
  });
  const [squares = ZERO, both = ZERO, rest = ZERO] = sums;
  if (squares.high === 0) return undefined;
  return asks === 'slope'
    ? shifted(rounded(divided(both, squares)), powers[1] - powers[0])
    : shifted(Math.sqrt(rounded(rest) / (x.length - 2)), powers[1]);
}

/** What is left of y beside a line, squared and added up. */
function left(y: readonly Double[], x: readonly Double[], squares: Double, both: Double): Double {
  if (squares.high === 0) return ZERO;
  const slope = divided(both, squares);
  const rest = y.map((value, i) => minus(value, by(slope, x[i] as Double)));
  const middle = over(rest.reduce(plus, ZERO), rest.length);
  const centred = rest.map((value) => minus(value, middle));
  return products(centred, centred);
}
