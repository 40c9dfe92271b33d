/** Errors that office programs have as well. */
const THERE: ReadonlySet<string> = new Set([
  '#DIV/0!',
  '#N/A',
  '#NAME?',
  '#NUM!',
  '#REF!',
  '#VALUE!',
]);

/** An error by its word there; what they do not have is not available. */
export const errorThere = (word: string): string => (THERE.has(word) ? word : '#N/A');
