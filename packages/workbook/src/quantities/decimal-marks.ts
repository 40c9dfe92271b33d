import { plainText } from './numbers.ts';

/** Which sign stands before the decimals: `1,234.5` or `1.234,5`. */
export type DecimalMark = 'point' | 'comma';

/** How a text's points and commas can be meant; `none`: it has no number with such a sign. */
export type DecimalMarksIn = DecimalMark | 'either' | 'none';

/** One number with points or commas in it, a sign or a currency before it, a unit after it. */
const WITH_SIGNS = /^([^\p{L}\d.,]{0,4})(\d[\d.,]*\d)([^\d,]{0,12})$/u;

/**
 * How the number in an entry can be read: `1,5` and `1.234,5` with a comma before the decimals only,
 * `1.5` and `1,234.5` with a point only, `1,234` and `1.234` either way, to two different values.
 */
export function decimalMarksIn(text: string): DecimalMarksIn {
  const digits = WITH_SIGNS.exec(plainText(text))?.[2];
  if (digits === undefined) return 'none';
  const asPoint = grouped(digits, ',', '.');
  const asComma = grouped(digits, '.', ',');
  if (asPoint && asComma) return /[.,]/.test(digits) ? 'either' : 'none';
  if (asPoint) return 'point';
  return asComma ? 'comma' : 'none';
}

/** Whether digits are a number with one sign between thousands and the other before the decimals. */
function grouped(digits: string, group: string, decimal: string): boolean {
  const [whole = '', decimals, ...more] = digits.split(decimal);
  if (more.length > 0 || decimals?.includes(group) === true) return false;
  const [first = '', ...groups] = whole.split(group);
  if (groups.length === 0) return true;
  return /^[1-9]\d{0,2}$/.test(first) && groups.every((one) => one.length === 3);
}

/** An entry with a comma before its decimals as the engine reads it: `1.234,5 mm` → `1234.5 mm`. */
export function withDecimalPoint(text: string): string {
  const plain = plainText(text);
  const found = WITH_SIGNS.exec(plain);
  if (found === null) return text;
  const [, before = '', digits = '', after = ''] = found;
  if (!grouped(digits, '.', ',')) return text;
  const meant = digits.replaceAll('.', '').replace(',', '.');
  return meant === digits ? text : before + meant + after;
}
