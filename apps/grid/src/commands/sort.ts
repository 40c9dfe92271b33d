import {
  carryRead,
  columnName,
  type Edit,
  type OpenWorkbook,
  shiftedCell,
} from '@kerfbook/workbook';
import { type Area, columnsOf, placesOf, rowsOf, within } from '../session/area.ts';
import type { Session } from '../session/session.ts';

/** The rows that would be sorted, and the column they go by: that of the current cell. */
export function sortable(
  session: Session,
): { readonly area: Area; readonly by: number } | undefined {
  const { rows = 0, columns = 0 } = session.book.sheet(session.at.sheet) ?? {};
  const selected = session.areas.at(-1);
  const area = selected === undefined ? undefined : within(selected, rows, columns);
  if (area === undefined || rowsOf(area) < 2) return undefined;
  return { area, by: session.at.column };
}

export const columnInWords = (column: number): string => `column ${columnName(column)}`;

/** What stands in an area once its rows are in another order: whole cells, their formulas meaning what they meant. */
export function cellsInOrder(
  book: OpenWorkbook,
  sheet: string,
  area: Area,
  rows: readonly number[],
): (Edit & { readonly do: 'place' })['cells'] {
  return rows.flatMap((from, i) => {
    const to = area.top + i;
    return placesOf([{ ...area, top: from, bottom: from }]).map(({ row, column }) => {
      const copied = book.copyOf({ sheet, row, column }) ?? {};
      const { name } = book.cell({ sheet, row, column });
      const moved = shiftedCell(copied, to - from, 0);
      const cell = name === undefined ? moved : carryRead(moved, { ...moved, name });
      return { row: to, column, cell: Object.keys(cell).length === 0 ? null : cell };
    });
  });
}

/**
 * Puts the rows of what is selected in order, numbers before words, empty ones last. What stands in a
 * row goes along, its formulas meaning what they meant; formulas elsewhere keep looking where they
 * looked (G43).
 */
export function sortRows(session: Session, most: 'last' | 'first'): void {
  const found = sortable(session);
  if (found === undefined) return;
  const { area, by } = found;
  const { at } = session;
  const book = session.settled();
  const rows = Array.from({ length: rowsOf(area) }, (_, i) => area.top + i);
  const sorted = [...rows].sort((a, b) => compare(a, b) || a - b);
  const cells = cellsInOrder(book, at.sheet, area, sorted);
  if (cells.length !== rowsOf(area) * columnsOf(area)) return;
  session.apply({ do: 'place', sheet: at.sheet, cells }, `Sorted ${rows.length} rows.`);

  function compare(a: number, b: number): number {
    const [x, y] = [key(a), key(b)];
    // Empty ones stay last whichever way the others go.
    if (x.rank === 2 || y.rank === 2) return x.rank - y.rank;
    const order =
      x.rank - y.rank ||
      x.number - y.number ||
      x.text.localeCompare(y.text, 'en', { numeric: true });
    return most === 'last' ? order : -order;
  }

  function key(row: number): { rank: number; number: number; text: string } {
    const value = book.value({ sheet: at.sheet, row, column: by });
    if (value.kind === 'number') return { rank: 0, number: value.number, text: '' };
    if (value.kind === 'empty') return { rank: 2, number: 0, text: '' };
    const text = book.cell({ sheet: at.sheet, row, column: by }).shown.text;
    return { rank: 1, number: 0, text };
  }
}
