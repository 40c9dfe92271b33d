/** What stands in the place of a formula that no engine is shown (rule F6), as an error's message. */
export const REFUSED_NAME = 'KERFBOOK_REFUSED';

/** What stands in the place of an entry that may not be computed with (rule N4), as an error's message. */
export const REFUSED_ENTRY = 'KERFBOOK_REFUSED_ENTRY';

/**
 * Messages of errors by which is told what happened. They are HyperFormula's own, whose other signs are
 * the same for several of them; `engine/inside.ts` holds that it still says them.
 */
export const SAID = {
  unreadable: /^Parsing error/,
  wrongCount: /^Wrong number of arguments\.$/,
  noFunction: /^Function name (.+) not recognized\.$/,
  noName: /^Named expression (.+) not recognized\.$/,
} as const;
