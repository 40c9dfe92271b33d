import { near } from './digits.ts';

/** A number as whole and fraction, in lowest terms. */
export interface Fraction {
  readonly sign: '' | '-';
  readonly whole: number;
  readonly over: number;
  readonly under: number;
}

/** Finest fraction that is looked for where none is asked for. */
const FINEST = 128;
const USUAL = 16;
/** Two fractions up to the finest lie further apart than this. */
const DISTINCT = 1e-5;

/** Above this a fraction cannot be told from the noise of the number. */
export const LARGEST_FRACTION = 1e9;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** The nearest 1/denominator in lowest terms; a tie goes away from zero. */
export function nearestFraction(value: number, denominator: number): Fraction {
  // Twelve digits, as FRACTION does, so that noise decides no tie.
  const count = Math.round(Number((Math.abs(value) * denominator).toPrecision(12)));
  const common = divisor(denominator, count % denominator);
  return {
    sign: value < 0 && count > 0 ? '-' : '',
    whole: Math.floor(count / denominator),
    over: (count % denominator) / common,
    under: denominator / common,
  };
}

/** The fraction with the smallest denominator that is the value itself, else the nearest 1/16. */
export function fittingFraction(value: number): Fraction {
  const size = Math.abs(value);
  for (let denominator = 1; denominator <= FINEST; denominator += 1) {
    const stands = Math.round(size * denominator) / denominator;
    if (near(stands, size) && Math.abs(stands - size) < DISTINCT) {
      return nearestFraction(value, denominator);
    }
  }
  return nearestFraction(value, USUAL);
}

export function valueOfFraction({ sign, whole, over, under }: Fraction): number {
  const size = whole + over / under;
  return (sign === '-' ? -size : size) + 0;
}

/** `33 3/16`, `-1/2`, `7`. */
export function writeFraction({ sign, whole, over, under }: Fraction): string {
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}

/** `5' 6 3/8"`; under a foot only inches. */
export function writeFeet({ sign, whole, ...fraction }: Fraction): string {
  const inches = `${writeFraction({ sign: '', whole: whole % 12, ...fraction })}"`;
  return whole < 12 ? `${sign}${inches}` : `${sign}${Math.floor(whole / 12)}' ${inches}`;
}
