import type { Place } from '@kerfbook/workbook';
import type { GridApi } from 'ag-grid-community';
import { cellsOf, regionAround } from '../session/area.ts';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import type { Session } from '../session/session.ts';
import { columnId, placeOf } from './context.ts';
import { type Line, ROW_HEIGHT } from './grid-looks.ts';

/** Rows and columns offered. */
interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** Selects the filled cells around the current one, and when they are selected already, all (G12). */
export function selectRegion(session: Session, { rows, columns }: Size): void {
  const region = regionAround(session.book, session.at);
  const [selected] = session.areas;
  const again =
    selected !== undefined &&
    cellsOf(selected) > 1 &&
    JSON.stringify(selected) === JSON.stringify(region);
  const whole = { top: 0, left: 0, bottom: rows - 1, right: columns - 1 };
  session.select(again || cellsOf(region) === 1 ? whole : region);
}

/**
 * A screenful on from a place.
 * @param heightOf how high a row is, px
 */
export function aPageFrom(
  host: HTMLElement,
  { row, column }: Place,
  by: 1 | -1,
  heightOf: (row: number) => number,
): Place {
  const viewport = host.querySelector('.ag-grid-viewport, .ag-body-viewport');
  let room = (viewport?.clientHeight ?? 560) - 2 * ROW_HEIGHT;
  let to = row;
  do {
    to += by;
    room -= heightOf(to);
  } while (room >= heightOf(to + by));
  return { row: to, column };
}

/** The first row that scrolls and is in view. */
export function firstShown(grid: GridApi<Line>): number {
  const first = grid.getFirstDisplayedRowIndex();
  return grid.getDisplayedRowAtIndex(first)?.data?.index ?? 0;
}

/**
 * Where keys lead from a column that scrolls back to one that is pinned, the first one beside it comes into sight too:
 * Enter ends a line there, and the next line is typed on from it.
 */
export function showLineStart(grid: GridApi<Line>, from: number, to: number): void {
  const isPinned = (column: number) => grid.getColumn(columnId(column))?.isPinned() === true;
  const [first] = grid.getDisplayedCenterColumns();
  if (first !== undefined && isPinned(to) && !isPinned(from)) grid.ensureColumnVisible(first);
}

/** Keeps the width that a column was given by its edge, px; none where it was pressed without being moved. */
export function widen(session: Session, sheet: string, colId: string, wanted: number): void {
  const at = placeOf(sheet, 0, colId);
  const { columns = 0, widths = [] } = session.book.sheet(sheet) ?? {};
  if (at === undefined || at.column >= columns) return;
  const width = Math.round(wanted);
  if (width === (widths[at.column] ?? USUAL_WIDTH)) return;
  session.apply({ do: 'setColumn', sheet, column: at.column, width });
}
