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
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
};
const GLYPH = new RegExp(`(\\d?)(\\s*)([${Object.keys(GLYPHS).join('')}])(?![\\d/⁄])`, 'gu');

/** What a maker wrote, with every kind of prime, quote, dash, space and fraction glyph made plain. */
export function plainText(text: string): string {
  return text
    .replace(GLYPH, (_whole, digit: string, gap: string, glyph: string) => {
      const fraction = GLYPHS[glyph] ?? glyph;
      return digit === '' ? `${gap}${fraction}` : `${digit} ${fraction}`;
    })
    .replace(/[⁄∕]/g, '/')
    .replace(/[−–‐‑]/g, '-')
    .replace(/[″”“ʺ]|''|′′|’’/g, '"')
    .replace(/[′’‘ʹ]/g, "'")
    .replace(/º/g, '°')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A number as it was written. */
export interface Written {
  readonly value: number;
  /** Of a fraction or mixed number. */
  readonly denominator?: number;
}

type Scanned =
  | { readonly kind: 'number'; readonly number: Written; readonly end: number }
  | { readonly kind: 'zero-fraction' }
  | { readonly kind: 'huge' }
  | { readonly kind: 'none' };

const NONE: Scanned = { kind: 'none' };

/** `1 1/2`, `1-1/2`, `3/4` | `1,250.5` | `66.375`, `.5`, `1.78e6` */
const NUMBER =
  /(?:(\d+)(?: |-))?(\d+) ?\/ ?(\d+)|([1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?)|((?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)/iy;
/** What may not follow a number: it would be part of one, and of none that is read here. */
const GOES_ON = /[\d.]|,\d| ?\/ ?\d/y;

/** The number without a sign that stands in plain text at `index`. */
export function scanNumber(text: string, index: number): Scanned {
  NUMBER.lastIndex = index;
  const found = NUMBER.exec(text);
  if (found === null) return NONE;
  const end = NUMBER.lastIndex;
  GOES_ON.lastIndex = end;
  if (GOES_ON.test(text)) return NONE;
  const [, whole, over, under, grouped, decimal] = found;
  if (over !== undefined && under !== undefined) return fraction(whole, over, under, end);
  return finite({ value: Number(grouped?.replaceAll(',', '') ?? decimal) }, end);
}

function fraction(whole: string | undefined, over: string, under: string, end: number): Scanned {
  const denominator = Number(under);
  if (denominator === 0) return { kind: 'zero-fraction' };
  // `1 5/4` is a slip, or one board of 5/4: no number.
  if (whole !== undefined && Number(over) >= denominator) return NONE;
  // One division of whole numbers: 66 3/8 is exactly 66.375.
  const value = (Number(whole ?? 0) * denominator + Number(over)) / denominator;
  return finite({ value, denominator }, end);
}

function finite(number: Written, end: number): Scanned {
  return Number.isFinite(number.value) ? { kind: 'number', number, end } : { kind: 'huge' };
}

/** A sign in front, and where what follows it begins. */
export function scanSign(text: string): { readonly negative: boolean; readonly start: number } {
  const [sign = ''] = /^[+-] ?/.exec(text) ?? [];
  return { negative: sign.startsWith('-'), start: sign.length };
}

/** Plain text that is a number and nothing else. */
export function readNumber(text: string): Scanned {
  const { negative, start } = scanSign(text);
  const scanned = scanNumber(text, start);
  if (scanned.kind !== 'number') return scanned;
  if (scanned.end !== text.length) return NONE;
  return { ...scanned, number: signed(scanned.number, negative) };
}

export function signed(number: Written, negative: boolean): Written {
  // Adding nothing turns a negative zero into a plain one.
  return { ...number, value: (negative ? -number.value : number.value) + 0 };
}

/**
 * Text whose commas are not groups of three, as its writer may have meant it: `1,5` → `1.5`,
 * `1.234,5 mm` → `1234.5 mm`, `12,34` → `12.34`; `undefined` when there is no such comma.
 */
export function withPoint(plain: string): string | undefined {
  const found = /^([^\d]*)(\d[\d.,]*,[\d.,]*\d)(?=$|[^\d])/.exec(plain);
  if (found === null) return undefined;
  const [whole, before = '', digits = ''] = found;
  const commas = digits.split(',').length - 1;
  const decimalComma = commas === 1 && digits.lastIndexOf(',') > digits.lastIndexOf('.');
  const meant = decimalComma
    ? digits.replaceAll('.', '').replace(',', '.')
    : digits.replaceAll(',', '');
  return before + meant + plain.slice(whole.length);
}

/** `1 - 1/2 in`, which may be a subtraction, as the mixed number it may be: `1 1/2 in`. */
export function asMixed(plain: string): string | undefined {
  const [gap = ''] = /^[+-]? ?\d+(?: - ?| ?- )(?=\d+ ?\/ ?\d)/.exec(plain) ?? [];
  return gap === '' ? undefined : `${gap.replace(/[ -]+$/, '')} ${plain.slice(gap.length)}`;
}
