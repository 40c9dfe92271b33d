import {
  by,
  type Double,
  minus,
  over,
  plus,
  rounded,
  scaled,
  shifted,
  sumOf,
  times,
  ZERO,
} from './doubles.ts';

const MOST_SQUARES = 2 ** 960;
const MOST_DIFFERENCE = 2 ** 470;
const LEAST_DIFFERENCE = 2 ** -450;
const LEAST_POWER = -600;

const powerToFit = (size: number, most: number): number =>
  size <= most ? 0 : Math.ceil(Math.log2(size / most));

function powerOfDifference(a: number, b: number): number {
  const difference = Math.abs(b - a);
  if (difference === 0) return Number.NEGATIVE_INFINITY;
  if (difference < LEAST_DIFFERENCE) {
    return Math.max(LEAST_POWER, Math.floor(Math.log2(difference)));
  }
  // Halves first: their difference is a number.
  return powerToFit(Math.abs(b / 2 - a / 2), MOST_DIFFERENCE / 2);
}

/**
 * Sums of numbers and of their squares, counted from the first of them and scaled, so that neither large nor
 * small numbers lose digits of their variance.
 */
export class Moments {
  readonly count: number;
  readonly #first: number;
  readonly #power: number;
  readonly #sum: Double;
  readonly #squares: Double;

  private constructor(count: number, first: number, power: number, sum: Double, squares: Double) {
    this.count = count;
    this.#first = first;
    this.#power = power;
    this.#sum = sum;
    this.#squares = squares;
  }

  /** Those of no numbers. */
  static none(): Moments {
    return new Moments(0, 0, 0, ZERO, ZERO);
  }

  static of(value: number): Moments {
    return new Moments(1, value, 0, ZERO, ZERO);
  }

  /** Those of these numbers and of others. */
  with(other: Moments): Moments {
    if (this.count === 0) return other;
    if (other.count === 0) return this;
    if (other.#power === this.#power || other.count === 1) {
      const scale = 2 ** -this.#power;
      const apart =
        this.#power === 0
          ? sumOf(other.#first, -this.#first)
          : sumOf(other.#first * scale, -this.#first * scale);
      const size = Math.abs(apart.high);
      const isPrecise =
        size >= LEAST_DIFFERENCE ||
        size === 0 ||
        this.#squares.high !== 0 ||
        other.#squares.high !== 0;
      if (size <= MOST_DIFFERENCE && isPrecise) {
        const sums = [this.#sum, this.#squares, other.#sum, other.#squares] as const;
        return this.#joined(other.count, this.#power, apart, ...sums);
      }
    }
    const power = Math.max(
      this.#squares.high === 0 ? Number.NEGATIVE_INFINITY : this.#power,
      other.#squares.high === 0 ? Number.NEGATIVE_INFINITY : other.#power,
      powerOfDifference(this.#first, other.#first),
    );
    const [mine, theirs] = [2 ** (this.#power - power), 2 ** (other.#power - power)];
    const scale = 2 ** -power;
    return this.#joined(
      other.count,
      power,
      sumOf(other.#first * scale, -this.#first * scale),
      scaled(this.#sum, mine),
      scaled(scaled(this.#squares, mine), mine),
      scaled(other.#sum, theirs),
      scaled(scaled(other.#squares, theirs), theirs),
    );
  }

  #joined(
    more: number,
    power: number,
    apart: Double,
    sum: Double,
    squares: Double,
    otherSum: Double,
    otherSquares: Double,
  ): Moments {
    const count = this.count + more;
    const square = by(apart, apart);
    if (more === 1) return this.#fitting(count, power, plus(sum, apart), plus(squares, square));
    const moved = plus(otherSum, times(apart, more));
    const movedSquares = plus(
      plus(otherSquares, times(by(apart, otherSum), 2)),
      times(square, more),
    );
    return this.#fitting(count, power, plus(sum, moved), plus(squares, movedSquares));
  }

  #fitting(count: number, power: number, sum: Double, squares: Double): Moments {
    const excess = powerToFit(Math.abs(squares.high), MOST_SQUARES);
    if (excess === 0) return new Moments(count, this.#first, power, sum, squares);
    const raise = Math.ceil(excess / 2);
    return new Moments(
      count,
      this.#first,
      power + raise,
      scaled(sum, 2 ** -raise),
      scaled(squares, 2 ** (-2 * raise)),
    );
  }

  /** The variance of numbers that are all there is, or of a sample; nothing of too few. */
  variance(of: 'all' | 'sample'): number | undefined {
    const divisor = this.#divisor(of);
    return divisor > 0 ? shifted(this.#scaledVariance(divisor), 2 * this.#power) : undefined;
  }

  deviation(of: 'all' | 'sample'): number | undefined {
    const divisor = this.#divisor(of);
    return divisor > 0 ? Math.sqrt(this.#scaledVariance(divisor)) * 2 ** this.#power : undefined;
  }

  #divisor(of: 'all' | 'sample'): number {
    return of === 'all' ? this.count : this.count - 1;
  }

  #scaledVariance(divisor: number): number {
    const squared = by(this.#sum, over(this.#sum, this.count));
    return rounded(over(minus(this.#squares, squared), divisor));
  }
}
