import type { FunctionDescription } from '@kerfbook/wood';

type Words = Partial<Pick<FunctionDescription, 'answers' | 'source' | 'example' | 'notes'>>;

/** By the names of the functions. The app's build fills it with what it takes out of the first load. */
const WORDS: ReadonlyMap<string, Words> = new Map();

/** A function with all that is read of it; the app's build takes this in the place of `function-words.ts`. */
export const withWords = (one: FunctionDescription): FunctionDescription => ({
  ...one,
  ...WORDS.get(one.name),
});
