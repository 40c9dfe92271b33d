import type { CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { formulaOf } from '../formula/tree/read.ts';
import { usesName } from '../formula/tree/uses.ts';
import type { At } from './places.ts';
import type { BookState } from './state.ts';

/** The sheet of the engine that holds the checks' formulas; no maker's sheet can be called so. */
export const CHECKS_SHEET = '#checks';

/** A cell with a formula. */
export interface FormulaCell {
  /** Where it stands now. */
  readonly at: At;
  /** The whole cell; its formula as it is kept. */
  readonly cell: CellDocument & { formula: string };
}

/** Every formula of the workbook, those under overrides included. */
export function* formulaCells(state: BookState): Generator<FormulaCell> {
  for (const sheet of state.sheets) {
    for (let row = 0; row < sheet.rows.length; row += 1) {
      for (const [id, cell] of sheet.rows[row]?.cells ?? []) {
        if (cell.formula === undefined) continue;
        const column = sheet.columnIndex(id) ?? 0;
        const at = { sheet: sheet.id, row, column };
        yield { at, cell: cell as CellDocument & { formula: string } };
      }
    }
  }
}

/** Cells whose formula uses the name. */
export function usersOfName(state: BookState, name: string): FormulaCell[] {
  const wanted = nameKey(name);
  const found: FormulaCell[] = [];
  for (const entry of formulaCells(state)) {
    if (usesName(formulaOf(entry.cell), wanted)) found.push(entry);
  }
  return found;
}
