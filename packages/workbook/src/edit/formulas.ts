import {
  type BookState,
  CHECKS_SHEET,
  formulaCells,
  mentions,
  type SheetState,
  type TableDocument,
} from '@kerfbook/document';
import { contentOf } from '../book/content.ts';
import { ownKindsIn } from '../book/own-tables.ts';
import type { Desk } from './desk.ts';

/** Tells the engine again what formulas that mention these ids say: ids that came back heal them. */
export function retell(desk: Desk, ids: ReadonlySet<string>): void {
  const again = [];
  for (const { at, cell } of formulaCells(desk.state)) {
    if (cell.override !== undefined || !mentions(cell.formula, ids)) continue;
    again.push({ ...at, content: contentOf(cell, at.sheet, desk.state) });
  }
  if (again.length > 0) desk.changes.add(desk.calculator.setCells(again));
  const checks = desk.state.checks;
  if (checks.some((check) => mentions(check.formula, ids))) tellChecks(desk, checks.length);
}

/** Tells the engine again what formulas look in first, where the workbook's own tables changed. */
export function retellOwn(desk: Desk, before: readonly TableDocument[]): void {
  const { state, calculator, changes } = desk;
  if (!before.concat(state.tables).some(({ kind }) => kind !== 'parts')) return;
  const again = [];
  for (const { at, cell } of formulaCells(state)) {
    if (cell.override !== undefined || ownKindsIn(cell.formula).size === 0) continue;
    again.push({ ...at, content: contentOf(cell, at.sheet, state) });
  }
  if (again.length > 0) changes.add(calculator.setCells(again));
  tellChecks(desk, state.checks.length);
}

/** Tells the engine the checks' formulas; `rows` is how many it may still hold from before. */
export function tellChecks(desk: Desk, rows: number): void {
  const { state, calculator } = desk;
  const count = Math.max(rows, state.checks.length);
  const cells = Array.from({ length: count }, (_, row) => ({
    sheet: CHECKS_SHEET,
    row,
    column: 0,
    content: checkContent(state, row),
  }));
  if (cells.length > 0) calculator.setCells(cells);
}

export function checkContent(state: BookState, index: number) {
  const check = state.checks[index];
  if (check === undefined) return null;
  const content = contentOf({ formula: check.formula }, CHECKS_SHEET, state);
  const isFormula = content !== null && typeof content === 'object' && 'formula' in content;
  return isFormula ? { ...content, one: true as const } : content;
}

/** Tells the engine the names that stand in these rows of a sheet. */
export function tellNames(desk: Desk, sheet: SheetState, from: number, count: number): void {
  for (let row = from; row < from + count; row += 1) {
    for (const [id, cell] of sheet.rows[row]?.cells ?? []) {
      if (cell.name === undefined) continue;
      const at = { sheet: sheet.id, row, column: sheet.columnIndex(id) ?? 0 };
      desk.state.noteName(at, cell.name);
      desk.changes.add(desk.calculator.setName(cell.name, at));
    }
  }
}
