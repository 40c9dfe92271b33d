import { LIMITS } from '../format/schema.ts';
import { type Formula, formulaOf, keptOf, turnedCell, withFormula } from '../formula/tree/read.ts';
import { withIds } from '../formula/tree/turns.ts';
import { CHECKS_SHEET, type FormulaCell, formulaCells } from '../state/formulas.ts';
import type { At } from '../state/places.ts';
import type { BookState } from '../state/state.ts';
import type { CellChange, Change } from './types.ts';

/**
 * The changes that turn references by address into ids (rule F7): kept as addresses they would mean
 * other cells as soon as a row is put in above them. Left out: everywhere; else in these cells.
 */
export function cellsByIds(state: BookState, only?: readonly At[]): readonly Change[] {
  const bySheet = new Map<string, CellChange[]>();
  for (const { at, cell } of only === undefined ? formulaCells(state) : among(state, only)) {
    const kept = turnedCell(cell, (formula) => byIds(formula, at.sheet, state));
    if (kept === cell) continue;
    const row = state.rowId(at.sheet, at.row);
    const column = state.columnId(at.sheet, at.column);
    if (row === undefined || column === undefined) continue;
    const cells = bySheet.get(at.sheet) ?? [];
    if (cells.length === 0) bySheet.set(at.sheet, cells);
    cells.push({ row, column, cell: kept });
  }
  return [...bySheet].map(([sheet, cells]) => ({ change: 'cells', sheet, cells }));
}

function* among(state: BookState, only: readonly At[]): Generator<FormulaCell> {
  for (const at of only) {
    const cell = state.cell(at);
    if (cell?.formula !== undefined) yield { at, cell: cell as FormulaCell['cell'] };
  }
}

/** The same of the formulas of checks. */
export function checksByIds(state: BookState): readonly Change[] {
  return state.checks.flatMap((check): Change[] => {
    const formula = formulaOf(check);
    const kept = byIds(formula, CHECKS_SHEET, state);
    if (kept === formula) return [];
    return [{ change: 'set', list: 'checks', id: check.id, set: withFormula({}, kept) }];
  });
}

/** A formula by ids; what is too long to be kept so is too long to be worked out, and means no cells. */
function byIds(formula: Formula, sheet: string, state: BookState): Formula {
  const kept = withIds(formula, sheet, state);
  return kept === formula || keptOf(kept).length > LIMITS.kept ? formula : kept;
}
