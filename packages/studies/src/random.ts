import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Numbers from 0 up to 1, the same ones for the same seed. */
export function numbersFrom(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () => uniformFloat64(generator);
}

/**
 * A number of a triangular distribution, by its inverse: least where `chance` is 0, most where it is 1.
 * Source: Evans, Hastings, Peacock, Statistical Distributions (3rd ed., 2000), triangular; formula from memory.
 */
export function triangular(
  { low, likely, high }: { readonly low: number; readonly likely: number; readonly high: number },
  chance: number,
): number {
  const wide = high - low;
  if (wide <= 0) return likely;
  const turn = (likely - low) / wide;
  return chance < turn
    ? low + Math.sqrt(chance * wide * (likely - low))
    : high - Math.sqrt((1 - chance) * wide * (high - likely));
}
