import type { At } from '@kerfbook/workbook';

/** A part's cell as the `data-part` attribute carries it: sheet, row and column, counted from 0. */
export const placeKey = ({ sheet, row, column }: At): string => `${sheet}:${row}:${column}`;

/** The cell a `data-part` attribute points at; undefined for any other text. */
export function placeOfKey(key: string): At | undefined {
  const [, sheet, row, column] = /^([^:]+):(\d+):(\d+)$/.exec(key) ?? [];
  if (sheet === undefined || row === undefined || column === undefined) return undefined;
  return { sheet, row: Number(row), column: Number(column) };
}
