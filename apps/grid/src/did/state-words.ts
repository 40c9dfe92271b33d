import type { CheckState, OpenWorkbook } from '@kerfbook/workbook';
import { saidByWords } from '../page/words-for.ts';
import type { Digest } from './digest.ts';

/** The one word for each state of a check; shape and word say it without colour. */
export const STATE_WORDS: Readonly<Record<CheckState['state'], string>> = {
  stop: 'Problem',
  care: 'Warning',
  unknown: "Can't tell",
  pass: 'OK',
};

/** What is asked of a workbook to call its cells by their words. */
export type Calls = Pick<OpenWorkbook, 'labelOf' | 'sheet' | 'addressOf'>;

/**
 * A check that turned, in a line: what is wrong and not what the check is called, which says what should be and would
 * read as if it were so. One that cannot tell says that itself.
 */
export function turnedSays({ is }: { readonly is: CheckState }, book: Calls): string {
  const says = saidByWords(is, book);
  if (is.state === 'unknown') return says;
  return is.state === 'pass'
    ? `${is.name}: ${STATE_WORDS[is.state]}`
    : `${STATE_WORDS[is.state]}: ${says}`;
}

/** That a change took the place of formulas: it is done by accident, and looks like any other number. */
export const typedOver = ({ overridden }: Pick<Digest, 'overridden'>): string =>
  overridden.length === 1 ? 'Typed over a formula' : `Typed over ${overridden.length} formulas`;
