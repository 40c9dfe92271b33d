import type { NumberSaid } from '../api.ts';
import { type Sources, sentence } from './checks.ts';

/**
 * What a check that fires says in other words, its names filled in as they are now; undefined where there is no such check.
 * @param say puts its sentence, names of cells in braces, and words that those cells hold into other words
 * @param said how its numbers are said where that is rougher than they are shown
 */
export function checkInWords(
  sources: Sources,
  id: string,
  say: (words: string) => string,
  said?: NumberSaid,
): string | undefined {
  const check = sources.state.checks.find((one) => one.id === id);
  return check === undefined ? undefined : sentence(sources, say(check.says), say, said);
}
