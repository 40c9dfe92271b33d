import type { At, CellValue, OpenWorkbook } from '@kerfbook/workbook';

/** A value as JSON holds it; an empty cell is `null`. */
export type Plain = number | string | boolean | null;

/** An error as JSON holds it. */
export interface PlainError {
  readonly error: string;
  readonly says: string;
}

/** Where a cell is, with its sheet: `Base!B7`. */
export const cellOf = (book: OpenWorkbook, at: At): string =>
  `${book.sheet(at.sheet)?.name ?? ''}!${book.addressOf(at)}`;

/** The value without its wrapping; an error has none and gives `null`. */
export function plainValue(value: CellValue): Plain {
  switch (value.kind) {
    case 'number':
      return value.number;
    case 'text':
      return value.text;
    case 'logical':
      return value.logical;
    default:
      return null;
  }
}
