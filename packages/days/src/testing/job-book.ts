import { type CellDocument, SHOP_COLUMNS, Workbook } from '@kerfbook/workbook';
import type { Operation } from '../plan/operation.ts';

/** A row of the operations table by its heads; a text that begins with `=` is a formula. */
export type JobRow = Readonly<Record<string, string | number>>;

/** An invented job: a workbook with an operations table, and named cells beside it. */
export function jobBook(
  rows: readonly JobRow[],
  named: Readonly<Record<string, string | number>> = {},
): Workbook {
  const columns = SHOP_COLUMNS.operations;
  const cell = (
    value: string | number,
    quantity: NonNullable<CellDocument['quantity']>,
  ): CellDocument => ({
    ...(typeof value === 'string' && value.startsWith('=') ? { formula: value } : { value }),
    quantity,
  });
  const lines = rows.map((row, i) => ({
    id: `r${i + 1}`,
    cells: Object.fromEntries(
      columns.flatMap(({ heads, quantity }, c) => {
        const value = row[heads];
        return value === undefined ? [] : [[`c${c}`, cell(value, quantity)]];
      }),
    ),
  }));
  return Workbook.open({
    kerfbook: 8,
    title: 'An invented job',
    units: 'us',
    sheets: [
      {
        id: 'days',
        name: 'Days',
        columns: columns.map((_, i) => ({ id: `c${i}` })),
        rows: [
          {
            id: 'r0',
            cells: Object.fromEntries(columns.map(({ heads }, i) => [`c${i}`, { value: heads }])),
          },
          ...lines,
        ],
      },
      {
        id: 'shop',
        name: 'Shop',
        columns: [{ id: 'c1' }],
        rows: Object.entries(named).map(([name, value], i) => ({
          id: `r${i + 1}`,
          cells: {
            c1: {
              ...cell(
                value,
                typeof value === 'string' ? 'text' : name === 'days_off' ? 'date' : 'number',
              ),
              name,
            },
          },
        })),
      },
    ],
    checks: [],
    tables: [
      { id: 't1', kind: 'operations', sheet: 'days', header: 'r0', last: `r${rows.length}` },
    ],
  });
}

/** An operation of which only what matters is said. */
export const operation = (
  id: string,
  handsOn: number,
  { after = [], ...more }: Partial<Operation> = {},
): Operation => ({
  id,
  name: id,
  handsOn,
  waiting: 0,
  after,
  who: [],
  machines: [],
  least: handsOn,
  most: handsOn,
  ...more,
});
