/** A number as a maker writes it, and what is wrong when it is nearly one. */
export type NumberReading =
  | {
      readonly kind: 'number';
      readonly value: number;
      readonly form: 'decimal' | 'fraction';
      readonly denominator?: number;
    }
  | { readonly kind: 'ambiguous'; readonly meant: string }
  | { readonly kind: 'zero-fraction' }
  | { readonly kind: 'huge' }
  | { readonly kind: 'none' };

const GLYPHS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅐': '1/7',
  '⅑': '1/9',
  '⅒': '1/10',
};

/** Fraction glyphs, slashes, minus signs and spaces of every kind in their plain forms. */
export function plainText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒]/g, (glyph) => ` ${GLYPHS[glyph]}`)
    .replace(/[⁄∕]/g, '/')
    .replace(/[−–]/g, '-')
    .replace(/[\s\u00a0\u2007\u2009\u202f]+/g, ' ')
    .trim();
}

const FRACTION = /^([+-]?)(?:(\d+)(?: +| ?- ?))?(\d+) ?\/ ?(\d+)$/;
const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const GROUPED = /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?$/;
const COMMA = /^[+-]?\d+,\d+$/;

/** `66.375`, `1,250.5`, `1 1/2`, `1-1/2`, `3/4`; text was made plain before. */
export function readNumber(text: string): NumberReading {
  const fraction = FRACTION.exec(text);
  if (fraction !== null) return mixed(fraction);
  if (DECIMAL.test(text)) return finite(Number(text));
  if (GROUPED.test(text)) return finite(Number(text.replaceAll(',', '')));
  if (COMMA.test(text)) return { kind: 'ambiguous', meant: text.replace(',', '.') };
  return { kind: 'none' };
}

function finite(value: number): NumberReading {
  return Number.isFinite(value)
    ? { kind: 'number', value: value + 0, form: 'decimal' }
    : { kind: 'huge' };
}

function mixed([, sign, whole = '0', over, under]: RegExpExecArray): NumberReading {
  const denominator = Number(under);
  if (denominator === 0) return { kind: 'zero-fraction' };
  // One division of whole numbers: 66 3/8 is exactly 66.375.
  const value = (Number(whole) * denominator + Number(over)) / denominator;
  if (!Number.isFinite(value)) return { kind: 'huge' };
  return {
    kind: 'number',
    value: (sign === '-' ? -value : value) + 0,
    form: 'fraction',
    denominator,
  };
}
