import { type BookState, CHECKS_SHEET, formulaOf, type SheetState } from '@kerfbook/document';
import type { Content } from '../engine/input.ts';
import { contentOf, formulaContent } from './content.ts';

/** The cells of a sheet as the engine takes them. */
export function sheetContents(sheet: SheetState, state: BookState): Content[][] {
  return sheet.rows.map((row) => {
    const line: Content[] = [];
    for (const [id, cell] of row.cells) {
      line[sheet.columnIndex(id) ?? 0] = contentOf(cell, sheet.id, state);
    }
    return Array.from(line, (content) => content ?? null);
  });
}

/** The formula of a check as the engine takes it. */
export function checkContent(state: BookState, index: number): Content {
  const check = state.checks[index];
  if (check === undefined) return null;
  return { ...formulaContent(formulaOf(check), CHECKS_SHEET, state), one: true };
}
