import { cutting, numberFormats } from '#parts';
import { LATE } from './catalogue.ts';
import { timesMissed } from './part.ts';

const NEEDS = new RegExp(`\\b(?:${LATE.join('|')})\\s*\\(`, 'i');

/**
 * Whether a saved text may hold formulas that need parts of the engine which come late. Words that
 * only look like such a formula count too: then a workbook waits for what it does not need.
 */
export function needsParts(saved: string): boolean {
  return NEEDS.test(saved);
}

/**
 * Loads what of the engine is not there yet. Answers how often a formula had to do without since the
 * start: where that has grown, open workbooks have to be worked out anew. Rejects where a part cannot
 * be had.
 */
export async function bringParts(): Promise<number> {
  await Promise.all([cutting.bring(), numberFormats.bring()]);
  return timesMissed();
}
