import type { CellValue } from '@kerfbook/workbook';

/** A number as a sentence about a cell shows it. */
export const plainNumber = (value: number): string => String(Number(value.toPrecision(6)));

/** Nothing stands in a cell of this value, or nothing that is seen. */
export const isBlank = (value: CellValue): boolean =>
  value.kind === 'empty' || (value.kind === 'text' && value.text.trim() === '');

/** What a cell holds, as a sentence about it says. */
export function written(value: CellValue): string {
  switch (value.kind) {
    case 'number':
      return plainNumber(value.number);
    case 'text':
      return `"${value.text.trim()}"`;
    case 'logical':
      return value.logical ? 'TRUE' : 'FALSE';
    case 'error':
      return `in error (${value.error.word})`;
    case 'empty':
      return 'empty';
  }
}
