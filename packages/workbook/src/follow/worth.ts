import { lettersAtMost, type Step } from '@kerfbook/document';
import { growth } from '../book/over-limit.ts';

/** Rows, columns or sheets that come, go or move this often are not followed one by one. */
const MOST_STEPS = 40;
/** Letters that are always followed, whatever share of a workbook they are. */
const FEW_LETTERS = 10_000;

/** Whether changes do more to the shape of a workbook than an engine had better follow step by step. */
export const isManySteps = (steps: readonly Step[]): boolean =>
  steps.filter(({ change }) => 'list' in change && change.change !== 'set').length > MOST_STEPS;

/**
 * Whether changes bring so much of a workbook that an engine had better begin anew: a quarter, where
 * what a workbook takes at the most is about three times what it takes.
 */
export function isMuch(steps: readonly Step[]): boolean {
  const last = steps.at(-1);
  const letters = growth(steps.map(({ change }) => change));
  return last !== undefined && letters > FEW_LETTERS && letters > lettersAtMost(last.after) / 12;
}
