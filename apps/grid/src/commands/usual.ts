import { type At, columnName, type Edit, type Place } from '@kerfbook/workbook';
import { type Area, cellsOf } from '../session/area.ts';
import type { Session } from '../session/session.ts';

/** Numbers that are looked at above or left of a cell, at the most. */
const MOST = 10_000;

/** The numbers right above a cell, or where there are none those left of it, as they are written in a formula. */
export function numbersBeside({ book, at }: Session): string | undefined {
  const isNumber = (place: Place): boolean =>
    place.row >= 0 && place.column >= 0 && book.value({ ...at, ...place }).kind === 'number';
  for (const [rows, columns] of [
    [1, 0],
    [0, 1],
  ] as const) {
    const place = (n: number): Place => ({
      row: at.row - n * rows,
      column: at.column - n * columns,
    });
    let count = 0;
    while (count < MOST && isNumber(place(count + 1))) count += 1;
    if (count > 0) return written(place(count), place(1));
  }
  return undefined;
}

const address = ({ row, column }: Place): string => `${columnName(column)}${row + 1}`;
const written = (from: Place, to: Place): string => `${address(from)}:${address(to)}`;

/**
 * Puts the sum of every selected column under it, or of one row after it. False where one cell is selected: its sum
 * is written, to be looked at before it is taken over.
 */
export function sumSelected(session: Session): boolean {
  const [area] = session.areas;
  if (area === undefined || cellsOf(area) === 1) return false;
  const { book } = session;
  const { sheet } = session.at;
  const isRow = area.top === area.bottom;
  const isEmpty = (place: Place): boolean => book.value({ sheet, ...place }).kind === 'empty';
  const lines = linesOf(area, isRow);
  // An empty last line that is selected too takes the sums.
  const within = lines.every(({ last }) => isEmpty(last));
  const sums = lines.map(({ first, last, before, after }) => {
    const [to, end] = within ? [last, before] : [after, last];
    return { to, text: `=SUM(${written(first, end)})` };
  });
  const full = sums.find(({ to }) => !isEmpty(to));
  if (full !== undefined) {
    session.say(
      `${address(full.to)} holds something already. Clear it, or select an empty cell for the sum too.`,
    );
    return true;
  }
  const cells = sums.map(({ to, text }) => ({ ...to, text }));
  session.apply({ do: 'enter', sheet, cells });
  return true;
}

function linesOf({ top, left, bottom, right }: Area, isRow: boolean) {
  if (isRow) {
    const at = (column: number): Place => ({ row: top, column });
    return [{ first: at(left), last: at(right), before: at(right - 1), after: at(right + 1) }];
  }
  return Array.from({ length: right - left + 1 }, (_, i) => {
    const at = (row: number): Place => ({ row, column: left + i });
    return { first: at(top), last: at(bottom), before: at(bottom - 1), after: at(bottom + 1) };
  });
}

/** Today as it is written year first, by the device's own clock. */
export function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Puts today's date into the current cell, where it takes one. */
export function enterToday(session: Session): void {
  const { at } = session;
  const { quantity } = session.current();
  if (quantity !== undefined && quantity !== 'date' && quantity !== 'text') {
    session.say(
      'This cell takes no date. Today goes into a blank cell, or one whose format is a date.',
    );
    return;
  }
  session.apply({ do: 'enter', sheet: at.sheet, cells: [{ ...placeOf(at), text: today() }] });
}

const placeOf = ({ row, column }: At): Place => ({ row, column });

/** Names the current cell and says so. */
export function nameCurrent(session: Session, name: string): string | undefined {
  const { at } = session;
  const edit: Edit = { do: 'nameCell', at, name };
  const { address: here, name: before } = session.current();
  const says =
    before === undefined ? `${here} is called ${name} now.` : `${before} is called ${name} now.`;
  const result = session.apply(edit, says);
  return result.ok ? undefined : result.says;
}
