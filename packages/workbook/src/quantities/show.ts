import { OWN_UNITS, type Quantity, type UnitSystem } from '@kerfbook/wood';
import type { CellValue, Shown } from '../api.ts';
import type { Allow, Scalar, Show } from '../document/schema.ts';
import { fromOwn, unitOf } from './units.ts';

export interface ShowContext {
  readonly quantity?: Quantity;
  readonly show?: Show;
  readonly system: UnitSystem;
  readonly currency: string;
}

interface Style {
  readonly as: 'fraction' | 'feet-inches' | 'decimal' | 'money' | 'date';
  readonly unit?: string;
  readonly denominator?: number;
  /** Decimals at the most; trailing zeros are kept only where `fixed`. */
  readonly decimals?: number;
  readonly fixed?: boolean;
  readonly grouped?: boolean;
}

const decimal = (decimals: number, more: Partial<Style> = {}): Style => ({
  as: 'decimal',
  decimals,
  ...more,
});
const MONEY: Style = { as: 'money' };
const SIXTEENTHS: Style = { as: 'fraction', denominator: 16 };

/** How a quantity is shown when its cell says nothing else: what the trade says. */
const DEFAULTS: Record<Quantity, Style | Record<UnitSystem, Style>> = {
  number: decimal(6),
  count: decimal(6),
  ratio: decimal(3),
  percent: decimal(1),
  moisture: decimal(1),
  humidity: decimal(1),
  length: { us: SIXTEENTHS, metric: decimal(1) },
  area: { us: decimal(2, { unit: 'ft²' }), metric: decimal(3, { unit: 'm²' }) },
  volume: { us: decimal(1), metric: decimal(4, { unit: 'm³' }) },
  liquid: { us: decimal(1), metric: decimal(0) },
  boardfeet: decimal(2),
  mass: decimal(1),
  temperature: decimal(1),
  angle: decimal(1),
  force: decimal(0),
  pressure: { us: decimal(0, { grouped: true }), metric: decimal(2) },
  load_per_length: decimal(2),
  coverage: { us: decimal(0, { unit: 'ft²/gal' }), metric: decimal(1, { unit: 'm²/L' }) },
  movement_rate: decimal(5),
  money: MONEY,
  money_per_boardfoot: MONEY,
  money_per_hour: MONEY,
  duration: decimal(1),
  date: { as: 'date' },
  text: decimal(6),
  logical: decimal(6),
};

function styleOf({ quantity, show, system }: ShowContext): Style {
  const given = DEFAULTS[quantity ?? 'number'];
  const base = 'as' in given ? given : given[system];
  if (show === undefined) return base;
  const as = show.as === 'plain' ? 'decimal' : show.as;
  return {
    ...base,
    ...(as === undefined ? {} : { as }),
    ...(as === 'decimal' && base.decimals === undefined ? { decimals: 3 } : {}),
    ...(show.unit === undefined ? {} : { unit: show.unit }),
    ...(show.denominator === undefined ? {} : { denominator: show.denominator }),
    ...(show.decimals === undefined
      ? {}
      : {
          decimals: show.decimals,
          fixed: true,
          ...(as === undefined && base.as !== 'money' ? { as: 'decimal' as const } : {}),
        }),
  };
}

/** How a value is shown in its cell; {@link Shown.exact} is there when the shown one is rounded. */
export function showValue(value: CellValue, context: ShowContext): Shown {
  switch (value.kind) {
    case 'empty':
      return { text: '', align: 'start' };
    case 'text':
      return { text: value.text, align: 'start' };
    case 'logical':
      return { text: value.logical ? 'TRUE' : 'FALSE', align: 'centre' };
    case 'error':
      return { text: value.error.mark, align: 'centre' };
    case 'number':
      return showNumber(value.number, context);
  }
}

function showNumber(own: number, context: ShowContext): Shown {
  const style = styleOf(context);
  const { quantity } = context;
  const unit =
    style.unit === undefined || quantity === undefined ? undefined : unitOf(quantity, style.unit);
  const value =
    unit === undefined || quantity === undefined
      ? own
      : fromOwn(own, unit, quantity, context.system);
  switch (style.as) {
    case 'fraction':
      return showFraction(inInches(value, context, style), style.denominator ?? 16);
    case 'feet-inches':
      return showFeet(inInches(value, context, style), style.denominator ?? 16);
    case 'money':
      return showMoney(value, context.currency, style.decimals);
    case 'date':
      return showDate(value);
    case 'decimal':
      return showDecimal(value, style);
  }
}

/** Fractions are of inches: a metric length shown as one is turned into inches first. */
function inInches(value: number, { quantity, system }: ShowContext, style: Style): number {
  const inch =
    quantity === 'length' && style.unit === undefined && system === 'metric'
      ? unitOf('length', 'in')
      : undefined;
  return inch === undefined ? value : fromOwn(value, inch, 'length', system);
}

const near = (a: number, b: number): boolean =>
  Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), 1e-9);

const exactly = (value: number, shown: number): { exact?: string } =>
  near(value, shown) ? {} : { exact: trimmed(value, 6) };

function trimmed(value: number, decimals: number): string {
  if (Math.abs(value) >= 1e15) return value.toExponential(6).replace(/\.?0+e/, 'e');
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  if (short === '-0' || short === '0') return value === 0 ? '0' : tiny(value, decimals);
  return short;
}

/** A number that would round away is shown with its leading digits instead of as nothing. */
function tiny(value: number, decimals: number): string {
  if (decimals < 4) return '0';
  return Math.abs(value) < 1e-9 ? value.toExponential(2) : String(Number(value.toPrecision(3)));
}

function showDecimal(value: number, style: Style): Shown {
  const decimals = style.decimals ?? 6;
  const text = style.fixed === true ? fixed(value, decimals) : trimmed(value, decimals);
  const shown = Number(text);
  return {
    text: style.grouped === true ? grouped(text) : text,
    align: 'end',
    ...exactly(value, shown),
  };
}

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

function grouped(text: string): string {
  const [whole = '', rest] = text.split('.');
  const spaced = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return rest === undefined ? spaced : `${spaced}.${rest}`;
}

interface Parts {
  readonly sign: string;
  readonly whole: number;
  readonly over: number;
  readonly under: number;
}

/** The nearest fraction, reduced; a tie rounds away from zero. */
function partsOf(value: number, denominator: number): Parts {
  const count = Math.round(Number((Math.abs(value) * denominator).toPrecision(15)));
  let over = count % denominator;
  let under = denominator;
  const divisor = gcd(over, under);
  over /= divisor;
  under /= divisor;
  return {
    sign: value < 0 && count > 0 ? '-' : '',
    whole: Math.floor(count / denominator),
    over,
    under,
  };
}

const gcd = (a: number, b: number): number => (b === 0 ? Math.max(a, 1) : gcd(b, a % b));

const valueOfParts = ({ sign, whole, over, under }: Parts): number =>
  (sign === '-' ? -1 : 1) * (whole + over / under);

function showFraction(value: number, denominator: number): Shown {
  if (Math.abs(value) > 1e12) return showDecimal(value, decimal(3));
  const parts = partsOf(value, denominator);
  const { sign, whole, over, under } = parts;
  const exact = exactly(value, valueOfParts(parts));
  if (over === 0) return { text: `${sign}${whole}`, align: 'end', ...exact };
  const lead = whole === 0 ? sign : `${sign}${whole}`;
  const fraction = { whole: lead, over: String(over), under: String(under) };
  const text = whole === 0 ? `${sign}${over}/${under}` : `${lead} ${over}/${under}`;
  return { text, fraction, align: 'end', ...exact };
}

function showFeet(value: number, denominator: number): Shown {
  if (Math.abs(value) > 1e12) return showDecimal(value, decimal(3));
  const parts = partsOf(value, denominator);
  const feet = Math.floor(parts.whole / 12);
  const inches = showFraction(
    valueOfParts({ ...parts, sign: '', whole: parts.whole % 12 }),
    denominator,
  );
  const exact = exactly(value, valueOfParts(parts));
  const text =
    feet === 0 ? `${parts.sign}${inches.text}"` : `${parts.sign}${feet}' ${inches.text}"`;
  return { text, align: 'end', ...exact };
}

const moneyFormats = new Map<string, Intl.NumberFormat>();

function moneyFormat(currency: string, decimals: number): Intl.NumberFormat {
  const key = `${currency} ${decimals}`;
  let format = moneyFormats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat('en-US', {
      style: 'currency',
      currency,
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
    });
    moneyFormats.set(key, format);
  }
  return format;
}

function showMoney(value: number, currency: string, decimals = 2): Shown {
  const scale = 10 ** decimals;
  const cents = Math.round(Number((Math.abs(value) * scale).toPrecision(15))) / scale;
  const shown = value < 0 ? -cents : cents;
  return {
    text: moneyFormat(currency, decimals).format(shown + 0),
    align: 'end',
    ...exactly(value, shown),
  };
}

function showDate(value: number): Shown {
  const time = Date.UTC(1899, 11, 30) + Math.floor(value) * 86_400_000;
  // Outside the calendar that ISO 8601 writes with four digits, the number itself is all there is.
  if (!(time >= Date.UTC(0, 0, 1) && time < 253_402_300_800_000))
    return showDecimal(value, decimal(6));
  return { text: new Date(time).toISOString().slice(0, 10), align: 'end' };
}

/** The unit a cell's numbers are shown in, as words beside them: `in`, `ft²`, `%`; empty for none. */
export function unitShown(context: ShowContext): string {
  const { quantity, system } = context;
  if (quantity === undefined) return '';
  const style = styleOf(context);
  if (style.unit !== undefined) return style.unit;
  if (style.as === 'feet-inches') return '';
  if (style.as === 'fraction' && quantity === 'length') return 'in';
  return OWN_UNITS[quantity][system];
}

/** What the editor opens with: what was typed, or the value so that reading it gives it back. */
export function entryText(
  held: { readonly value?: Scalar; readonly typed?: string },
  context: ShowContext,
): string {
  if (held.typed !== undefined) return held.typed;
  const { value } = held;
  if (value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return needsMark(value, context) ? `'${value}` : value;
  const { quantity, show, system } = context;
  if (quantity === 'date') return showDate(value).text;
  const unit =
    quantity === undefined || show?.unit === undefined ? undefined : unitOf(quantity, show.unit);
  return String(
    unit === undefined || quantity === undefined ? value : fromOwn(value, unit, quantity, system),
  );
}

/** Words that would be read as something else without an apostrophe in front. */
function needsMark(value: string, { quantity }: ShowContext): boolean {
  if (value.startsWith("'") || value.startsWith('=')) return true;
  return quantity === undefined && /^\s*[\d.,+-]/.test(value) && !Number.isNaN(Number(value));
}

/** Why a value is not one the cell allows, as a sentence; `undefined` when it is. */
export function allowProblem(
  value: Scalar,
  allow: Allow,
  context: ShowContext,
): string | undefined {
  if (allow.list !== undefined && typeof value === 'string') {
    const word = value.trim().toLowerCase();
    if (allow.list.some((one) => one.trim().toLowerCase() === word)) return undefined;
    return `"${value}" is not one of the choices of this cell: ${listed(allow.list)}.`;
  }
  if (typeof value !== 'number') return undefined;
  const say = (number: number): string => withUnit(number, context);
  if (allow.whole === true && !Number.isInteger(value))
    return `${say(value)} is not a whole number; this cell takes whole numbers.`;
  const low = allow.min !== undefined && value < allow.min;
  const high = allow.max !== undefined && value > allow.max;
  if (!low && !high) return undefined;
  const range =
    allow.min !== undefined && allow.max !== undefined
      ? `${say(allow.min)} to ${say(allow.max)}`
      : allow.min !== undefined
        ? `${say(allow.min)} or more`
        : `${say(allow.max ?? 0)} or less`;
  return `${say(value)} is outside what this cell takes: ${range}.`;
}

function withUnit(number: number, context: ShowContext): string {
  const { text, exact } = showNumber(number, context);
  const unit = unitShown(context);
  const shown = exact ?? text;
  if (unit === '' || context.quantity?.startsWith('money') === true) return shown;
  return unit === '°' ? `${shown}°` : `${shown} ${unit}`;
}

function listed(words: readonly string[]): string {
  const some = words.slice(0, 6).join(', ');
  return words.length > 6 ? `${some} and ${words.length - 6} more` : some;
}
