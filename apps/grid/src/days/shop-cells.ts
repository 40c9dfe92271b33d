import { type DaysOff, dayOf, sayDay, written } from '@kerfbook/days';
import { knownTable } from '@kerfbook/drawing';
import {
  type CellDocument,
  type Edit,
  type OpenWorkbook,
  type RowDocument,
  randomId,
} from '@kerfbook/workbook';

/** A named cell that says when the work begins and when the shop works. */
export type ShopCell = 'start_day' | 'hours_a_day' | 'day_begins' | 'days_worked' | 'days_off';

const CELLS: Readonly<Record<ShopCell, { readonly label: string; readonly cell: CellDocument }>> = {
  start_day: {
    label: 'The work begins on',
    cell: {
      quantity: 'date',
      remark: 'The first day of work. Blank: the days are planned from tomorrow.',
    },
  },
  hours_a_day: {
    label: 'Hours in a working day',
    cell: { quantity: 'duration', remark: 'Hours at the bench, not hours in the shop.' },
  },
  day_begins: {
    label: 'Hour at which a working day begins',
    cell: { quantity: 'number', remark: 'Hours since midnight: 7.5 is half past seven.' },
  },
  days_worked: {
    label: 'Days of the week that are worked',
    cell: { quantity: 'text', remark: 'Such as Mon-Fri, or Tue, Wed, Sat.' },
  },
  days_off: {
    label: 'Days off',
    cell: { quantity: 'text', remark: 'Such as 2026-12-24..2027-01-01, 2027-01-06.' },
  },
};

/**
 * The edit that writes into such a cell. Where the workbook has none, a row for it comes below the sheet that the
 * operations are on.
 */
export function shopCellEdit(book: OpenWorkbook, name: ShopCell, text: string): Edit | undefined {
  const at = book.find(name);
  if (at !== undefined) {
    const { sheet, row, column } = at;
    return { do: 'enter', sheet, cells: [{ row, column, text }] };
  }
  const table = knownTable(book, 'operations');
  if (table === undefined || text === '') return undefined;
  const { sheet, columns, first } = table;
  const [label, value] = [columns.get('operation') ?? 0, columns.get('hands-on') ?? 1];
  const rows = book.sheet(sheet)?.rows ?? first;
  const id = (column: number): string =>
    book.idsAt({ sheet, row: first - 1, column })?.column ?? '';
  const about = CELLS[name];
  const row: RowDocument = {
    id: randomId('r'),
    cells: {
      [id(label)]: { value: about.label },
      [id(value)]: { ...about.cell, name, role: 'input' },
    },
  };
  return {
    do: 'batch',
    edits: [
      { do: 'insertRows', sheet, at: rows, rows: [row] },
      { do: 'enter', sheet, cells: [{ row: rows, column: value, text }] },
    ],
  };
}

/** Days off as a cell holds them. */
export const offText = (off: readonly DaysOff[]): string =>
  off
    .toSorted((one, other) => one.from - other.from)
    .map(({ from, to }) => (from === to ? written(from) : `${written(from)}..${written(to)}`))
    .join(', ');

/** Days off as they are said. */
export const offSaid = ({ from, to }: DaysOff): string =>
  from === to ? sayDay(from) : `${sayDay(from)} to ${sayDay(to)}`;

/** Days earlier than this are a year that is still being typed. */
const EARLIEST = dayOf('2000-01-01') ?? 0;

/** The day in a date field; undefined while it is being typed. */
export function dayIn(text: string): number | undefined {
  const day = dayOf(text);
  return day === undefined || day < EARLIEST ? undefined : day;
}
