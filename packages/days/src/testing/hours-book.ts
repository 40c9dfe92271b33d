import { type CellDocument, SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import { dayOf } from '../calendar/day-numbers.ts';

/** A row of the hours table by its heads; a day is written `2026-12-01`, a text that begins with `=` is a formula. */
export type HoursRow = Readonly<Record<string, string | number | boolean>>;

/** An invented workbook with an hours table. */
export function hoursBook(rows: readonly HoursRow[]): Workbook {
  const columns = SHOP_COLUMNS.hours;
  const cell = (head: string, value: string | number | boolean): CellDocument => {
    if (typeof value === 'string' && value.startsWith('=')) return { formula: value };
    const day = head === 'day' && typeof value === 'string' ? dayOf(value) : undefined;
    return { value: day ?? value };
  };
  return Workbook.open({
    kerfbook: 8,
    title: 'An invented job',
    units: 'us',
    sheets: [
      {
        id: 'took',
        name: 'Hours worked',
        columns: columns.map((_, i) => ({ id: `c${i}` })),
        rows: [
          {
            id: 'r0',
            cells: Object.fromEntries(columns.map(({ heads }, i) => [`c${i}`, { value: heads }])),
          },
          ...[...rows, {}].map((row: HoursRow, i) => ({
            id: `r${i + 1}`,
            cells: Object.fromEntries(
              columns.flatMap(({ heads, quantity }, c) => {
                const value = row[heads];
                return value === undefined ? [] : [[`c${c}`, { ...cell(heads, value), quantity }]];
              }),
            ),
          })),
        ],
      },
    ],
    checks: [],
    tables: [{ id: 't1', kind: 'hours', sheet: 'took', header: 'r0', last: `r${rows.length + 1}` }],
  });
}
