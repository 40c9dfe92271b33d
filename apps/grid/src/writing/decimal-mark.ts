import { type DecimalMark, withDecimalPoint } from '@kerfbook/workbook';

/**
 * Which sign this device's maker writes before decimals. It belongs to the hand that types and not to
 * the workbook, whose saved numbers are the same everywhere (G21).
 */
let mark: DecimalMark = markOf(globalThis.navigator?.language ?? 'en-US');

function markOf(language: string): DecimalMark {
  const parts = new Intl.NumberFormat(language).formatToParts(1.5);
  return parts.some(({ type, value }) => type === 'decimal' && value === ',') ? 'comma' : 'point';
}

export const decimalMark = (): DecimalMark => mark;

export function setDecimalMark(chosen: DecimalMark): void {
  mark = chosen;
}

/** An entry as the engine reads it: formulas are the same in every hand. */
export function asRead(text: string, by: DecimalMark = mark): string {
  return by === 'point' || /^\s*[='"]/.test(text) ? text : withDecimalPoint(text);
}
