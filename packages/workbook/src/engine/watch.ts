import { isReference, type Token } from '@kerfbook/document';
import { standardFunction } from '@kerfbook/functions';

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

/** A range whose ends name no row, or no column. */
const LINES = /(?:^|!)\$?(?:[A-Za-z]+:|\d+:|[A-Za-z]+\$?\d+:\$?(?:[A-Za-z]+|\d+)$)/;

/** What has to be watched for a formula. */
export function watchOf(formula: readonly Token[]): Watch | undefined {
  let watch: Watch | undefined;
  let lines = false;
  for (const token of formula) {
    const { type, value } = token;
    // The engine takes a word with a space before its bracket for a function too.
    if (type === 'func' || type === 'range_named') {
      const name = value.replace(/^(_xlfn\.|_xlws\.)+/i, '').toUpperCase();
      const looksAt = standardFunction(name)?.looksAt;
      if (looksAt === 'content') watch = 'content';
      else watch ??= looksAt;
    } else if (isReference(token)) lines ||= LINES.test(value);
    else if (value === '{') watch ??= 'shape';
  }
  if (!lines) return watch;
  return watch === 'content' ? 'filled' : 'shape';
}
