/**
 * What a formula looks at besides the values of the cells it names. The engine follows values; these
 * formulas it loses sight of (rule A2).
 */
export type Watch =
  /** Where cells stand, how far a sheet goes, how many sheets there are: no change of value tells it. */
  | 'shape'
  /** Also what cells hold: whether it is a formula, how it reads, whether anything is there. */
  | 'content';

const CONTENT = /\b(?:FORMULATEXT|ISFORMULA|COUNTBLANK)\s*\(/i;
const SHAPE = /\b(?:ROWS?|COLUMNS?|SHEETS?|ADDRESS|INDEX|AREAS|ISREF|OFFSET)\s*\(|[{]/i;
/** Whole columns and rows: `A:C`, `$1:$3`, `One!A:A`. */
const LINES =
  /(?:^|[^\w.$])\$?[A-Z]{1,3}:\$?[A-Z]{1,3}(?![\w(])|(?:^|[^\w.$])\$?\d+:\$?\d+(?![\w.])/i;

/** What has to be watched for a formula; words in quotes may look like it, which costs time only. */
export function watchOf(formula: string): Watch | undefined {
  if (CONTENT.test(formula)) return 'content';
  return SHAPE.test(formula) || LINES.test(formula) ? 'shape' : undefined;
}

/** Whether a formula may ask which sheet is which. */
export const asksForSheets = (formula: string): boolean => /\bSHEETS?\s*\(/i.test(formula);
