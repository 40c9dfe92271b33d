import { LIMITS } from '../format/schema.ts';
import { hasLoose, toIds } from '../formula/references.ts';
import { CHECKS_SHEET, formulaCells } from '../state/formulas.ts';
import type { BookState } from '../state/state.ts';

/**
 * Turns references by address in a workbook that is opened into ids (rule F7): kept as addresses they
 * would mean other cells as soon as a row is put in above them.
 */
export function keptByIds(state: BookState): BookState {
  for (const { at, cell } of [...formulaCells(state)]) {
    if (!hasLoose(cell.formula)) continue;
    const formula = toIds(cell.formula, at.sheet, state);
    // What is too long to be kept so is too long to be worked out, and means no cells.
    if (formula === cell.formula || formula.length > LIMITS.kept) continue;
    state.sheet(at.sheet)?.setCell(at.row, at.column, { ...cell, formula });
  }
  const checks = state.checks.map((check) => {
    if (!hasLoose(check.formula)) return check;
    const formula = toIds(check.formula, CHECKS_SHEET, state);
    const stays = formula === check.formula || formula.length > LIMITS.kept;
    return stays ? check : { ...check, formula };
  });
  if (checks.some((check, i) => check !== state.checks[i])) state.checks = checks;
  return state;
}
