import { type CellView, type DecimalMark, withDecimalPoint } from '@kerfbook/workbook';

/**
 * Which sign this device's maker writes before decimals. It belongs to the hand that types and not to
 * the workbook, whose saved numbers are the same everywhere (G21).
 */
let chosen: DecimalMark = usualIn(globalThis.navigator?.language ?? 'en-US');

function usualIn(language: string): DecimalMark {
  const parts = new Intl.NumberFormat(language).formatToParts(1.5);
  return parts.some(({ type, value }) => type === 'decimal' && value === ',') ? 'comma' : 'point';
}

/** Which sign stands before decimals that are typed here. */
export const decimalMark = (): DecimalMark => chosen;

export function setDecimalMark(mark: DecimalMark): void {
  chosen = mark;
}

/**
 * An entry as the engine reads it in a cell: formulas are the same in every hand, and a cell for words
 * keeps what was typed.
 */
export function asRead(
  text: string,
  cell: () => Pick<CellView, 'quantity'>,
  by: DecimalMark = chosen,
): string {
  if (by === 'point' || /^\s*[='"]/.test(text)) return text;
  return cell().quantity === 'text' ? text : (dayFirst(text) ?? withDecimalPoint(text));
}

/** Who writes a comma before decimals writes the day before the month (common practice, no source): `3/4/2026`. */
function dayFirst(text: string): string | undefined {
  const found = /^\s*(\d{1,2})\/(\d{1,2})\/(\d{4}|\d{2})\s*$/.exec(text);
  if (found === null) return undefined;
  const [, day = '', month = '', year = ''] = found;
  // The other way round it can be meant in one way only.
  if (Number(day) > 12 || Number(month) > 12) return undefined;
  return `${day}.${month}.${year.length === 2 ? '20' : ''}${year}`;
}
