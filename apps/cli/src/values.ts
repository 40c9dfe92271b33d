import { type CellValue, showValue, unitShown } from '@kerfbook/workbook';

/** A value as JSON holds it; an empty cell is `null`. */
export type Plain = number | string | boolean | null;

/** An error as JSON holds it. */
export interface PlainError {
  readonly error: string;
  readonly says: string;
}

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

export type ShowContext = Parameters<typeof showValue>[1];

/** What a cell would show, with its unit beside it: `66 in`, `8 %`, `$12.50`. */
export function shownWithUnit(value: CellValue, context: ShowContext): string {
  const { text } = showValue(value, context);
  return value.kind === 'number' ? beside(text, unitShown(context)) : text;
}

/** A number's text and its unit, set as they are read: `66 in`, `45°`, `$8.50/bd ft`. */
export function beside(text: string, unit: string): string {
  if (unit === '') return text;
  return unit === '°' || unit.startsWith('/') ? `${text}${unit}` : `${text} ${unit}`;
}
