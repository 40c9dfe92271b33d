import type { SheetView } from '@kerfbook/workbook';

/** Empty rows and columns beyond the sheet's edge, to type on. */
const SPARE = { rows: 20, columns: 4, leastRows: 40, leastColumns: 8 };
const MOST = { rows: 10_000, columns: 702 };

/** How many rows and columns a sheet's grid offers: as many as are there and somewhat more; grows by steps. */
export function offered({
  rows = 0,
  columns = 0,
}: Partial<Pick<SheetView, 'rows' | 'columns'>> = {}): {
  readonly rows: number;
  readonly columns: number;
} {
  const stepped = (used: number, spare: number): number =>
    Math.ceil((used + spare) / spare) * spare;
  return {
    rows: Math.min(MOST.rows, Math.max(SPARE.leastRows, stepped(rows, SPARE.rows))),
    columns: Math.min(MOST.columns, Math.max(SPARE.leastColumns, stepped(columns, SPARE.columns))),
  };
}
