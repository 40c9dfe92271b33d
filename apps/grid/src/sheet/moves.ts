import type { At } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import type { Leave } from './context.ts';

interface Size {
  readonly rows: number;
  readonly columns: number;
  /** Columns out of sight. */
  readonly hidden?: readonly number[];
  /** Rows out of sight. */
  readonly hiddenRows?: readonly number[];
}

/** A column, or the next one that can be seen on from it; never beyond what is offered. */
export const inSight = (column: number, by: 1 | -1, { columns, hidden = [] }: Size): number =>
  seenFrom(column, by, columns, hidden);

/** The same of a row. */
export const rowInSight = (row: number, by: 1 | -1, { rows, hiddenRows = [] }: Size): number =>
  seenFrom(row, by, rows, hiddenRows);

function seenFrom(at: number, by: 1 | -1, count: number, hidden: readonly number[]): number {
  const within = Math.max(0, Math.min(count - 1, at));
  let seen = within;
  while (hidden.includes(seen) && seen + by >= 0 && seen + by < count) seen += by;
  if (!hidden.includes(seen)) return seen;
  while (hidden.includes(seen) && seen - by >= 0 && seen - by < count) seen -= by;
  return seen;
}

/** Where the current cell goes next; never beyond the edge, never wrapping (G01, G06). */
export function nextPlace(session: Session, by: Leave, size: Size): At {
  const { at } = session;
  const inside = (row: number, column: number): At => ({
    sheet: at.sheet,
    row: rowInSight(row, row < at.row ? -1 : 1, size),
    column: inSight(column, column < at.column ? -1 : 1, size),
  });
  switch (by) {
    case 'next':
      session.tabbed(at.column);
      return inside(at.row, at.column + 1);
    case 'previous':
      session.tabbed(at.column);
      return inside(at.row, at.column - 1);
    case 'down':
      return inside(at.row + 1, session.entered(at.column));
    case 'up':
      return inside(at.row - 1, session.entered(at.column));
    case 'left':
      session.moved();
      return inside(at.row, at.column - 1);
    case 'right':
      session.moved();
      return inside(at.row, at.column + 1);
    case 'stay':
      return at;
  }
}

/** The last used cell of the row, or of the sheet (G02, G03). */
export function lastUsed(session: Session, whole: boolean): At {
  const { at, book } = session;
  const { rows = 0, columns = 0 } = book.sheet(at.sheet) ?? {};
  const used = (row: number, column: number): boolean =>
    book.value({ sheet: at.sheet, row, column }).kind !== 'empty';
  const lastIn = (row: number): number => {
    let column = columns - 1;
    while (column > 0 && !used(row, column)) column -= 1;
    return Math.max(0, column);
  };
  if (!whole) return { ...at, column: at.row < rows ? lastIn(at.row) : 0 };
  let row = rows - 1;
  while (
    row > 0 &&
    !Array.from({ length: columns }, (_, column) => used(row, column)).includes(true)
  ) {
    row -= 1;
  }
  let column = 0;
  for (let line = 0; line <= row; line += 1) column = Math.max(column, lastIn(line));
  return { sheet: at.sheet, row: Math.max(0, row), column };
}
