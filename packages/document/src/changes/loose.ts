import { LIMITS } from '../format/schema.ts';
import { hasLoose, toIds } from '../formula/references.ts';
import { CHECKS_SHEET, formulaCells } from '../state/formulas.ts';
import type { At } from '../state/places.ts';
import type { BookState } from '../state/state.ts';
import type { CellChange, Change } from './types.ts';

/**
 * The changes that turn references by address into ids (rule F7): kept as addresses they would mean
 * other cells as soon as a row is put in above them. Left out: everywhere; else in these cells.
 */
export function cellsByIds(state: BookState, only?: readonly At[]): readonly Change[] {
  const bySheet = new Map<string, CellChange[]>();
  for (const { at, formula } of only === undefined ? everywhere(state) : among(state, only)) {
    const kept = byIds(formula, at.sheet, state);
    const [row, column] = [state.rowId(at.sheet, at.row), state.columnId(at.sheet, at.column)];
    if (kept === formula || row === undefined || column === undefined) continue;
    const cells = bySheet.get(at.sheet) ?? [];
    bySheet.set(at.sheet, cells);
    cells.push({ row, column, cell: { ...state.cell(at), formula: kept } });
  }
  return [...bySheet].map(([sheet, cells]) => ({ change: 'cells', sheet, cells }));
}

function* everywhere(state: BookState): Generator<{ at: At; formula: string }> {
  for (const { at, cell } of formulaCells(state)) yield { at, formula: cell.formula };
}

function* among(state: BookState, only: readonly At[]): Generator<{ at: At; formula: string }> {
  for (const at of only) {
    const formula = state.cell(at)?.formula;
    if (formula !== undefined) yield { at, formula };
  }
}

/** The same of the formulas of checks. */
export function checksByIds(state: BookState): readonly Change[] {
  return state.checks.flatMap(({ id, formula }): Change[] => {
    const kept = byIds(formula, CHECKS_SHEET, state);
    return kept === formula ? [] : [{ change: 'set', list: 'checks', id, set: { formula: kept } }];
  });
}

/** A formula by ids; what is too long to be kept so is too long to be worked out, and means no cells. */
function byIds(formula: string, sheet: string, state: BookState): string {
  if (!hasLoose(formula)) return formula;
  const kept = toIds(formula, sheet, state);
  return kept.length > LIMITS.kept ? formula : kept;
}
