import type { FunctionDescription } from '@kerfbook/wood';

/** A function with all that is read of it. `function-words-late.ts` is the same for the app. */
export const withWords = (one: FunctionDescription): FunctionDescription => one;
