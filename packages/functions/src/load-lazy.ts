import { numberFormats, shapedParts } from '#libraries';
import { LATE } from './catalogue.ts';

const NEEDS = new RegExp(`\\b(?:${LATE.join('|')})\\s*\\(`, 'i');

/**
 * Whether a saved text may hold formulas that need libraries that come late. Words that
 * only look like such a formula count too: then a workbook waits for what it does not need.
 */
export function needsLazy(saved: string): boolean {
  return NEEDS.test(saved);
}

/**
 * Loads the libraries that are not there yet; what was worked out without one has to be worked out anew
 * then. Rejects where one cannot be had.
 */
export async function loadLazy(): Promise<void> {
  await Promise.all([numberFormats.bring(), shapedParts.bring()]);
}
