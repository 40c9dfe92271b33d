import { Matrix } from './matrix.ts';
import type { Given } from './takes.ts';
import { Failure, toNumber, type Value } from './values.ts';

/**
 * The numbers among arguments: single values have to be numbers, of ranges those that are count, or those
 * that can be made numbers; the first error instead.
 */
export function gathered(
  given: readonly Given[],
  ranges: 'numbers' | 'coerced',
): number[] | Failure {
  const singles: (number | Matrix)[] = [];
  for (const one of given) {
    const value = one instanceof Matrix ? one : toNumber(one);
    if (value instanceof Failure) return value;
    singles.push(value);
  }
  const all: number[] = [];
  for (const one of singles) {
    if (!(one instanceof Matrix)) {
      all.push(one);
      continue;
    }
    const inside = numbersIn(one, ranges);
    if (inside instanceof Failure) return inside;
    for (const value of inside) all.push(value);
  }
  return all;
}

/** The numbers of a range; the first error in it instead. */
export function numbersIn(
  { cells }: Matrix,
  which: 'numbers' | 'coerced' = 'numbers',
): number[] | Failure {
  const all: number[] = [];
  for (const value of cells) {
    if (value instanceof Failure) return value;
    const number = which === 'coerced' && value !== null ? toNumber(value) : value;
    if (typeof number === 'number') all.push(number);
  }
  return all;
}

interface Pairs {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Where two ranges have a number both, one by one; the first error instead. */
export function pairsOf(x: Matrix, y: Matrix): Pairs | Failure {
  const pairs = { x: [] as number[], y: [] as number[] };
  for (let i = 0; i < Math.min(x.cells.length, y.cells.length); i += 1) {
    const [a, b] = [x.cells[i] as Value, y.cells[i] as Value];
    if (a instanceof Failure) return a;
    if (b instanceof Failure) return b;
    if (typeof a !== 'number' || typeof b !== 'number') continue;
    pairs.x.push(a);
    pairs.y.push(b);
  }
  return pairs;
}
