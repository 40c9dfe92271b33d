import { nearNames } from '@kerfbook/wood';

/** The known word nearest to a misspelt one, when it is near enough to be meant. */
export const nearest = (word: string, known: readonly string[]): string | undefined =>
  nearNames(word, known, 1)[0];
