/** The most digits that are shown of a number: beyond them lies the noise of binary fractions. */
const MOST_DIGITS = 10;

/** A rounded number stands for the value itself when they differ by less than this part of it. */
const SAME = 1e-9;
/** Both under this, they are what binary fractions leave of 0. */
const NOTHING = 1e-12;

/** Whether two numbers are the same but for noise. */
export function near(a: number, b: number): boolean {
  const size = Math.max(Math.abs(a), Math.abs(b));
  return size < NOTHING || Math.abs(a - b) <= SAME * size;
}

/** Noise of binary fractions taken off: 1.005 × 100 is 100.5, not 100.49999999999999. */
export const settled = (value: number): number => Number(value.toPrecision(15));

/** Rounded to decimals; a half goes away from zero, as written: 1.005 → 1.01. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const shifted = settled(Math.abs(value) * scale);
  if (!(shifted < 1e15)) return value;
  const size = Math.round(shifted) / scale;
  return (value < 0 ? -size : size) + 0;
}

/** Digits that converting a number to another unit and back leaves as they are. */
const SURE_DIGITS = 13;

/** A number with up to so many decimals; zeros at the end only where `fixed`. */
export function writeDecimal(value: number, decimals: number, fixed = false): string {
  if (Math.abs(value) >= 1e15) return writePlain(value);
  const sure = Math.min(decimals, Math.max(0, SURE_DIGITS - wholeDigits(value)));
  const text = rounded(value, sure).toFixed(sure);
  return fixed ? padded(text, decimals - sure, sure) : withoutZeros(text);
}

function wholeDigits(value: number): number {
  const size = Math.abs(value);
  return size < 10 ? 1 : Math.floor(Math.log10(size)) + 1;
}

function padded(text: string, zeros: number, decimals: number): string {
  if (zeros === 0) return text;
  return `${text}${decimals === 0 ? '.' : ''}${'0'.repeat(zeros)}`;
}

/** A number with up to six decimals and ten digits; very small and very large ones by powers. */
export function writePlain(value: number): string {
  const size = Math.abs(value);
  if (size >= 1e15) return value.toExponential(MOST_DIGITS - 1).replace(/\.?0+e/, 'e');
  if (size !== 0 && size < 1e-3) return String(Number(value.toPrecision(6)));
  return writeDecimal(value, Math.min(6, Math.max(0, MOST_DIGITS - wholeDigits(value))));
}

/** A number with all the digits that mean something. */
export function writeExact(value: number): string {
  if (Math.abs(value) >= 1e15) return writePlain(value);
  return String(Number(value.toPrecision(MOST_DIGITS)));
}

function withoutZeros(text: string): string {
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Groups of three: `1,250.5`. */
export function grouped(text: string): string {
  const [whole = '', rest] = text.split('.');
  const parted = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return rest === undefined ? parted : `${parted}.${rest}`;
}
