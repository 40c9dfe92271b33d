import {
  type At,
  type BookState,
  CHECKS_SHEET,
  columnName,
  writtenSheet,
} from '@kerfbook/document';

/** A place as people read it: `Base!B7`, or `check "name"` where it is the row of a check. */
export function placeWritten(state: BookState, { sheet, row, column }: At): string {
  if (sheet === CHECKS_SHEET) return `check "${state.checks[row]?.name ?? ''}"`;
  const name = state.sheetName(sheet) ?? '';
  return `${writtenSheet(name)}!${columnName(column)}${row + 1}`;
}
