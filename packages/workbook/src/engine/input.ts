import type { At, Token } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';

/** What a cell is given: nothing, a number, yes or no, words that stay words, an entry that is refused, or a formula. */
export type Content =
  | null
  | number
  | boolean
  | { readonly text: string }
  | RefusedContent
  | FormulaContent;

/** What may not be computed with: an error for all who use the cell, with its sentence (rule N4). */
export interface RefusedContent {
  /** Why. */
  readonly refused: string;
}

/** A formula by address, in its pieces. */
export interface FormulaContent {
  readonly formula: readonly Token[];
  /** Own tables the formula looks in first, as arguments of the engine's function for them. */
  readonly own?: readonly Token[];
  /** Results over several cells are an error: a check has one answer. */
  readonly one?: true;
}

/** A sheet as an engine is told it. */
export interface CalculatorSheet {
  readonly id: string;
  readonly name: string;
  /** Rows may be of different lengths. */
  readonly cells: readonly (readonly Content[])[];
}

/** All that an engine is told of a workbook at the start. */
export interface CalculatorInput {
  readonly system: UnitSystem;
  readonly sheets: readonly CalculatorSheet[];
  readonly names: readonly { readonly name: string; readonly at: At }[];
  /** The formula of a cell as its maker reads it; left out: as the engine does. */
  readonly formulaAt?: (at: At) => readonly Token[] | undefined;
  /** The sheets as they stand, without those that are not their maker's; left out: as they were told. */
  readonly order?: () => readonly { readonly id: string; readonly name: string }[];
}

/** How far a sheet is used, in rows and columns. */
export function reachOf({ cells }: CalculatorSheet): [rows: number, columns: number] {
  const filled = (cell: Content | undefined): boolean => cell !== null && cell !== undefined;
  const columns = cells.map((line) => line.findLastIndex(filled) + 1);
  const rows = columns.findLastIndex((count) => count > 0) + 1;
  return [rows, columns.reduce((most, count) => Math.max(most, count), 0)];
}

/** All cells that are not empty, sheet by sheet and row by row. */
export function* filledIn(
  sheets: readonly CalculatorSheet[],
): Generator<{ readonly at: At; readonly content: Exclude<Content, null> }> {
  for (const { id, cells } of sheets) {
    for (const [row, line] of cells.entries()) {
      for (const [column, content] of line.entries()) {
        if (content !== null) yield { at: { sheet: id, row, column }, content };
      }
    }
  }
}
