import { person } from './sentences.ts';

/** What one formula may cost (rule B1). */
export const BUDGET = {
  /** Cells of all its ranges together. */
  cells: 200_000,
  /** Steps: cells read and made, numbers gone through, comparisons; about a fifth of a microsecond each. */
  steps: 500_000,
  /** Values given to one function: more would not fit on the stack of every machine. */
  values: 50_000,
  /** Cells that its results fill. */
  results: 20_000,
  /** What the formulas of a workbook cost together, counted before they are worked out (rule B2). */
  together: 4_000_000,
} as const;

/** Text a formula may come to, in characters. */
export const LONGEST_TEXT = 32_767;

/** Ends a formula that costs too much; its message is the sentence for a person. */
export class TooMuch extends Error {}

let cells = 0;
let steps = 0;
let metered = false;

/** What follows is one formula, up to {@link endMeter}. */
export function beginMeter(): void {
  cells = 0;
  steps = 0;
  metered = true;
}

export function endMeter(): void {
  metered = false;
}

/**
 * Counts steps before they are taken. The count depends on the formula and on what it uses alone, never
 * on what the engine has kept from before: the same workbook gives the same values everywhere.
 *
 * @throws TooMuch where the formula may not take them
 */
export function spend(count: number): void {
  if (!metered) return;
  steps += count;
  if (!(steps <= BUDGET.steps)) throw new TooMuch(person('E24', BUDGET.steps));
}

/** Counts the cells of a range that a formula reads. */
export function spendCells(count: number): void {
  if (!metered) return;
  cells += count;
  if (cells > BUDGET.cells) throw new TooMuch(person('E23', BUDGET.cells));
}
