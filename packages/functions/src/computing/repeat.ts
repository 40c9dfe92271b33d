import { snap } from '../rounding.ts';

/**
 * Words again and again, no longer than a cell holds: repetitions of repetitions would fill the memory.
 *
 * @returns why there is no answer, where there is none
 */
export function repeated(
  words: string,
  times: number,
  longest: number,
): { readonly words: string } | 'negative' | 'too long' {
  if (times < 0) return 'negative';
  const count = Math.trunc(snap(times));
  return words.length * count > longest ? 'too long' : { words: words.repeat(count) };
}
