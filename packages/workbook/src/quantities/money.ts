import type { Quantity } from '@kerfbook/wood';

export const MONEY_QUANTITIES: ReadonlySet<Quantity> = new Set<Quantity>([
  'money',
  'money_per_boardfoot',
  'money_per_hour',
]);

interface Currency {
  /** As amounts are written here: `$`, `€`, `kr`. */
  readonly sign: string;
  /** Decimals that the currency counts: 2 for dollars, 0 for yen (ISO 4217). */
  readonly decimals: number;
  /** An amount with a sign before or after it, plain text. */
  readonly pattern: RegExp;
  readonly signs: ReadonlySet<string>;
}

/** Money of other places by its ISO 4217 code, so that `12 CAD` is told apart from words. */
const CODES = 'USD|EUR|GBP|CAD|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY';

const currencies = new Map<string, Currency>();
const formats = new Map<string, Intl.NumberFormat>();

const style = (currency: string, currencyDisplay: 'symbol' | 'narrowSymbol') =>
  ({ style: 'currency', currency, currencyDisplay }) as const;

function signOf(currency: string, display: 'symbol' | 'narrowSymbol'): string {
  const parts = new Intl.NumberFormat('en-US', style(currency, display)).formatToParts(1);
  return parts.find(({ type }) => type === 'currency')?.value ?? currency;
}

/** What is known of a currency by its ISO 4217 code. */
function currencyOf(code: string): Currency {
  const known = currencies.get(code);
  if (known !== undefined) return known;
  const sign = signOf(code, 'narrowSymbol');
  const signs = new Set([sign, signOf(code, 'symbol'), code].map((word) => word.toLowerCase()));
  const ours = [...signs].map((word) => word.replace(/[$.*+?^()[\]{}|\\]/g, '\\$&')).join('|');
  const any = `(${ours}|${CODES}|[a-z]{0,3}\\p{Sc})`;
  const made: Currency = {
    sign,
    decimals:
      new Intl.NumberFormat('en-US', style(code, 'symbol')).resolvedOptions()
        .maximumFractionDigits ?? 2,
    // Sign, currency, sign, number, currency, "per" what.
    pattern: new RegExp(
      `^([+-]?) ?(?:${any} ?)?([+-]?) ?([\\d.,][\\d.,/ -]*?) ?(?:${any})? ?(?:(?:/|per\\b) ?(.+))?$`,
      'iu',
    ),
    signs,
  };
  currencies.set(code, made);
  return made;
}

export const moneySign = (code: string): string => currencyOf(code).sign;

interface Amount {
  /** The number as it was written, with its minus sign. */
  readonly number: string;
  readonly quantity: Quantity;
  /** How the money was named; `undefined` where it was not. */
  readonly sign?: string;
  /** It is the workbook's own money. */
  readonly ours: boolean;
}

const PER: ReadonlyMap<string, Quantity> = new Map<string, Quantity>([
  ...['bd ft', 'bdft', 'bf', 'board foot'].map((word) => [word, 'money_per_boardfoot'] as const),
  ...['h', 'hr', 'hour'].map((word) => [word, 'money_per_hour'] as const),
]);

/** Reads `$12.50`, `-$5`, `12.50 €`, `$8.50/bd ft`; plain text in, `undefined` when it is none. */
export function readAmount(plain: string, code: string): Amount | undefined {
  const { pattern, signs } = currencyOf(code);
  const found = pattern.exec(plain);
  if (found === null) return undefined;
  const [, outer = '', before, inner = '', number = '', after, per] = found;
  if ((outer !== '' && inner !== '') || (before !== undefined && after !== undefined)) {
    return undefined;
  }
  const quantity = per === undefined ? 'money' : PER.get(per.toLowerCase());
  if (quantity === undefined) return undefined;
  const sign = before ?? after;
  return {
    number: `${outer}${inner}${number}`,
    quantity,
    ...(sign === undefined ? {} : { sign }),
    ours: sign === undefined || signs.has(sign.toLowerCase()),
  };
}

/** An amount rounded to decimals: `$1,234.50`; `most`: further decimals where they are not zero. */
export function writeAmount(
  value: number,
  code: string,
  decimals: number,
  most = decimals,
): string {
  const key = `${code} ${decimals} ${most}`;
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat('en-US', {
      ...style(code, 'narrowSymbol'),
      minimumFractionDigits: decimals,
      maximumFractionDigits: most,
    });
    formats.set(key, format);
  }
  return format.format(value + 0);
}

export const moneyDecimals = (code: string): number => currencyOf(code).decimals;
