import { type CellDocument, carryRead, type Place, shiftedCell } from '@kerfbook/workbook';
import { type Area, columnsOf, didWith, holds, placesOf, rowsOf } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { seriesOf } from './series.ts';

/**
 * Goes on with what stands in an area into the larger one around it (G42): a series by its step
 * (`seriesOf`), formulas as if copied, anything else over again.
 */
export function fill(session: Session, from: Area, to: Area): boolean {
  const { sheet } = session.at;
  const down = to.bottom > from.bottom || to.top < from.top;
  const back = down ? to.top < from.top : to.left < from.left;
  const lines = down ? columnsOf(from) : rowsOf(from);
  const cells: (Place & { cell: CellDocument | null })[] = [];
  for (let line = 0; line < lines; line += 1) {
    const source = placesOf([lineOf(from, down, line)]);
    const target = placesOf([lineOf(to, down, line)]).filter((place) => !holds(from, place));
    if (back) {
      source.reverse();
      target.reverse();
    }
    const next = series(session, source);
    target.forEach((place, k) => {
      const name = session.book.cell({ sheet, ...place }).name;
      const cell = { ...next(k, place), ...(name === undefined ? {} : { name }) };
      cells.push({ ...place, cell: Object.keys(cell).length === 0 ? null : cell });
    });
  }
  const result = session.apply({ do: 'place', sheet, cells }, didWith('Filled', cells.length));
  if (result.ok) session.select(to, session.at);
  return result.ok;
}

/**
 * An area made to reach as far down as the filled column at its left goes, or at its right where there is none;
 * undefined where neither goes on, or something stands right under the area.
 */
export function downAsNeighbour({ book, at }: Session, area: Area): Area | undefined {
  const filled = (row: number, column: number): boolean =>
    column >= 0 && book.value({ sheet: at.sheet, row, column }).kind !== 'empty';
  const below = area.bottom + 1;
  const beside = [area.left - 1, area.right + 1].find((column) => filled(below, column));
  if (beside === undefined) return undefined;
  const free = (row: number): boolean =>
    !placesOf([{ ...area, top: row, bottom: row }]).some((place) =>
      filled(place.row, place.column),
    );
  let bottom = area.bottom;
  while (filled(bottom + 1, beside) && free(bottom + 1)) bottom += 1;
  return bottom === area.bottom ? undefined : { ...area, bottom };
}

const lineOf = (area: Area, down: boolean, line: number): Area =>
  down
    ? { ...area, left: area.left + line, right: area.left + line }
    : { ...area, top: area.top + line, bottom: area.top + line };

type Next = (k: number, place: Place) => CellDocument;

/** What follows a line of cells. */
function series(session: Session, source: readonly Place[]): Next {
  const { sheet } = session.at;
  const cells = source.map((place) => session.book.copyOf({ sheet, ...place }) ?? {});
  const last = cells.at(-1) ?? {};
  const plain = cells.every(
    ({ formula, override }) => formula === undefined && override === undefined,
  );
  const following = plain ? seriesOf(cells) : undefined;
  if (following !== undefined) return (k) => ({ ...bare(last), value: following(k) });
  return (k, place) => {
    const i = k % cells.length;
    const [cell = {}, from = place] = [cells[i], source[i]];
    return shiftedCell(cell, place.row - from.row, place.column - from.column);
  };
}

/** What is said of a cell, without what it holds. */
function bare({
  value: _v,
  typed: _t,
  formula: _f,
  override: _o,
  ...traits
}: CellDocument): CellDocument {
  return traits;
}

/** Fills the selection from its first row or column; a single one from what is before it (G42). */
export function fillByKey(session: Session, by: 'down' | 'right'): void {
  const [area] = session.areas;
  if (area === undefined) return;
  const alone = by === 'down' ? area.top === area.bottom : area.left === area.right;
  const first = by === 'down' ? area.top - (alone ? 1 : 0) : area.left - (alone ? 1 : 0);
  if (first < 0) return;
  const to = by === 'down' ? { ...area, top: first } : { ...area, left: first };
  const from = by === 'down' ? { ...to, bottom: first } : { ...to, right: first };
  copyDown(session, from, to, area);
}

/** By key the first cell is copied, never counted on: that is what the key is for. */
function copyDown(session: Session, from: Area, to: Area, selected: Area): void {
  const { sheet } = session.at;
  const cells = placesOf([to])
    .filter((place) => !holds(from, place))
    .map((place) => {
      const source = {
        row: Math.min(place.row, from.bottom),
        column: Math.min(place.column, from.right),
      };
      const copied = session.book.copyOf({ sheet, ...source }) ?? {};
      const name = session.book.cell({ sheet, ...place }).name;
      const moved = shiftedCell(copied, place.row - source.row, place.column - source.column);
      const cell = name === undefined ? moved : carryRead(moved, { ...moved, name });
      return { ...place, cell: Object.keys(cell).length === 0 ? null : cell };
    });
  const result = session.apply({ do: 'place', sheet, cells }, didWith('Filled', cells.length));
  if (result.ok && cells.length > 1) session.select(selected, session.at);
}
