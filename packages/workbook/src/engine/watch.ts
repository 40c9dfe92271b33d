/**
 * What a formula looks at besides the values of the cells it names. The engine follows values; these
 * formulas it loses sight of (rule A2).
 */
export type Watch =
  /** Where cells stand, how far a sheet goes, how many sheets there are: no change of value tells it. */
  | 'shape'
  /** Also what cells hold: whether it is a formula, how it reads, whether anything is there. */
  | 'content'
  /** Also how far the engine takes a sheet to be filled, which only grows while it is open. */
  | 'filled';

const CONTENT = /\b(?:FORMULATEXT|ISFORMULA|COUNTBLANK)\s*\(/i;
const SHAPE = /\b(?:ROWS?|COLUMNS?|SHEETS?|ADDRESS|INDEX|AREAS|ISREF|OFFSET)\s*\(|[{]/i;
/** Whole columns and rows: `A:C`, `$1:$3`, `One!A:A`. */
const LINES =
  /(?:^|[^\w.$])\$?[A-Z]{1,3}:\$?[A-Z]{1,3}(?![\w(])|(?:^|[^\w.$])\$?\d+:\$?\d+(?![\w.])/i;

/** What has to be watched for a formula; words in quotes may look like it, which costs time only. */
export function watchOf(formula: string): Watch | undefined {
  const lines = LINES.test(formula);
  if (CONTENT.test(formula)) return lines ? 'filled' : 'content';
  return lines || SHAPE.test(formula) ? 'shape' : undefined;
}

/** Whether a formula may ask which sheet is which. */
export const asksForSheets = (formula: string): boolean => /\bSHEETS?\s*\(/i.test(formula);
