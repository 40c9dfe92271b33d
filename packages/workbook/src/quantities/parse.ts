import { LIMITS, type Scalar, type Show } from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import { dayOfFraction, readDate } from './dates.ts';
import { readMeasured } from './measure.ts';
import { MONEY_QUANTITIES, moneySign, readAmount } from './money.ts';
import { asMixed, plainText, readNumber, type Written, withPoint } from './numbers.ts';
import { isSlightPercent } from './percent.ts';
import {
  type Taker,
  TWO_WAYS,
  type Unread,
  unread,
  unreadDay,
  unreadDays,
  unreadPercent,
} from './sentences.ts';
import { sizeTrouble } from './sizes.ts';
import { type ShowContext, shownUnit } from './style.ts';
import { toOwn, type Unit } from './units.ts';

/** An entry as it was understood; what `readEntry` gives, without the text that was typed. */
export type Parsed =
  | { readonly kind: 'empty' }
  | { readonly kind: 'formula'; readonly formula: string }
  | ParsedValue
  | Unread;

/** What an entry says of a cell that nothing was said of yet. */
interface Suggested {
  readonly quantity?: Quantity;
  readonly show?: Show;
}

interface ParsedValue extends Suggested {
  readonly kind: 'value';
  readonly value: Scalar;
  /** Another year would make another value of the same text. */
  readonly yearless?: true;
}

/** What reading came to; `undefined`: the entry is nothing of the kind. */
type Attempt = ParsedValue | Unread | undefined;

/** Control characters other than tab and line ends. */
const UNSHOWABLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/;

const LONGEST_NUMBER = 100;

/** Reads an entry by what its cell is; never throws, never gives NaN or an infinite number. */
export function parseEntry(text: string, context: ShowContext): Parsed {
  const worded = text.startsWith("'");
  if (text.length > LIMITS.text) return unread('Q5', LIMITS.text);
  if (UNSHOWABLE.test(text)) return unread('Q8');
  if (worded) return { kind: 'value', value: text.slice(1) };
  const trimmed = text.trim();
  if (trimmed === '') return { kind: 'empty' };
  if (trimmed.startsWith('=')) return { kind: 'formula', formula: trimmed };
  if (context.quantity === 'text') return { kind: 'value', value: text };
  const { quantity } = context;
  // No number is that long; reading it as one would only take time.
  const plain = trimmed.length > LONGEST_NUMBER ? undefined : plainText(trimmed);
  if (quantity === undefined) {
    const read = plain === undefined ? undefined : freeOrTrouble(plain, context);
    return read ?? { kind: 'value', value: text };
  }
  if (plain === undefined) return unread('Q1', trimmed, takerOf(context));
  return readAs(plain, quantity, context) ?? trouble(plain, { ...context, quantity });
}

function freeOrTrouble(plain: string, context: ShowContext): Parsed | undefined {
  return readFree(plain, context) ?? freeTrouble(plain, context);
}

const takerOf = ({ quantity, system, currency }: ShowContext): Taker => ({
  quantity,
  system,
  money: moneySign(currency),
});

function readLogical(plain: string): ParsedValue | undefined {
  const word = plain.toUpperCase();
  if (word !== 'TRUE' && word !== 'FALSE') return undefined;
  return { kind: 'value', value: word === 'TRUE' };
}

/** A number that was read, unless it is too large to be one. */
function numberValue(value: number, plain: string, about: Suggested = {}): ParsedValue | Unread {
  if (!Number.isFinite(value)) return unread('Q6', plain);
  return { kind: 'value', value: value + 0, ...about };
}

/** An entry in a cell that has a quantity; `undefined` when it is nothing the cell takes. */
function readAs(plain: string, quantity: Quantity, context: ShowContext): Attempt {
  if (quantity === 'logical') return readLogical(plain);
  if (quantity === 'date') return dateValue(plain, context, {}, true);
  const bare = readBare(plain, quantity, context);
  if (bare !== undefined) return bare;
  const measured = readMeasured(plain, quantity, context.system);
  return measured === undefined ? undefined : numberValue(measured.value, plain);
}

/** @param asked a date is what the cell takes, so that `3/14` is no fraction */
function dateValue(
  plain: string,
  context: ShowContext,
  about: Suggested = {},
  asked = false,
): Attempt {
  const read = readDate(plain, context, asked);
  switch (read?.kind) {
    case undefined:
      return undefined;
    case 'two':
      return unreadDays(plain, read.days);
    case 'none':
      return unread('Q14', plain, read.has);
    case 'day':
      return {
        kind: 'value',
        value: read.days,
        ...about,
        ...(read.yearless ? { yearless: true } : {}),
      };
  }
}

/** A number without a unit is in the unit that the cell shows. */
function readBare(plain: string, quantity: Quantity, context: ShowContext): Attempt {
  const read = bareNumber(plain, quantity, context);
  if (read === undefined) return undefined;
  const unit = shownUnit(context);
  const own = unit === undefined ? read.value : toOwn(read.value, unit, quantity, context.system);
  if (isSlightPercent(own, quantity, undefined)) return unreadPercent(own);
  return numberValue(own, plain);
}

function bareNumber(plain: string, quantity: Quantity, context: ShowContext): Written | undefined {
  const read = readNumber(plain);
  if (read.kind === 'number') return read.number;
  const beside = numberText(plain, quantity, context);
  const again = beside === undefined ? undefined : readNumber(beside);
  return again?.kind === 'number' ? again.number : undefined;
}

/** The number beside what says no unit: `$12`, `68°`, `0.00369 per 1 %`. */
function numberText(
  plain: string,
  quantity: Quantity,
  { currency }: ShowContext,
): string | undefined {
  if (quantity === 'temperature') return plain.replace(/ ?(?:°|deg\.?|degrees?)$/i, '');
  if (quantity === 'movement_rate') return plain.replace(/ ?(?:per|\/) ?1 ?%$/i, '');
  if (!MONEY_QUANTITIES.has(quantity)) return undefined;
  const amount = readAmount(plain, currency);
  const fits = amount?.quantity === 'money' || amount?.quantity === quantity;
  return amount?.ours === true && fits ? amount.number : undefined;
}

/** Quantities whose units tell what an entry is, the likelier first: `oz` is a weight. */
const BY_UNIT: readonly Quantity[] = [
  'length',
  'percent',
  'temperature',
  'mass',
  'liquid',
  'area',
  'volume',
  'boardfeet',
  'duration',
  'angle',
  'force',
  'pressure',
  'load_per_length',
  'coverage',
];

/** An entry in a cell that nothing was said of: what it is follows from how it is written. */
function readFree(plain: string, context: ShowContext): Attempt {
  const logical = readLogical(plain);
  if (logical !== undefined) return logical;
  if (!/\d/.test(plain)) return undefined;
  const bare = readNumber(plain);
  if (bare.kind === 'number') return fractionOrDay(plain, context) ?? freeNumber(bare.number);
  return (
    dateValue(plain, context, { quantity: 'date' }) ??
    freeMoney(plain, context) ??
    freeMeasured(plain, context)
  );
}

/** A fraction that may be a day is asked about, unless its cell shows fractions. */
function fractionOrDay(plain: string, context: ShowContext): Unread | undefined {
  if (context.show !== undefined) return undefined;
  const days = dayOfFraction(plain, context);
  return days === undefined ? undefined : unreadDay(plain, days);
}

const FINEST = 128;

function freeNumber({ value, denominator }: Written): ParsedValue {
  const show: Show | undefined =
    denominator === undefined || denominator > FINEST ? undefined : { as: 'fraction' };
  return { kind: 'value', value, ...(show === undefined ? {} : { show }) };
}

function freeMoney(plain: string, { currency }: ShowContext): Attempt {
  const amount = readAmount(plain, currency);
  if (amount?.sign === undefined || !amount.ours) return undefined;
  const read = readNumber(amount.number);
  if (read.kind !== 'number') return undefined;
  return numberValue(read.number.value, plain, { quantity: amount.quantity });
}

function freeMeasured(plain: string, { system }: ShowContext): Attempt {
  if (!/^[+-]? ?[\d.]/.test(plain)) return undefined;
  for (const quantity of BY_UNIT) {
    const read = readMeasured(plain, quantity, system);
    if (read === undefined) continue;
    const fine = system === 'us' ? fineFraction(read.unit, read.denominator) : undefined;
    const show: Show | undefined =
      fine === undefined ? undefined : { as: 'fraction', denominator: fine };
    return numberValue(read.value, plain, { quantity, ...(show === undefined ? {} : { show }) });
  }
  return undefined;
}

/** 32, 64 or 128, where inches were typed in fractions that sixteenths would round. */
function fineFraction(unit: Unit, denominator = 1): number | undefined {
  if (unit.sign !== 'in') return undefined;
  return [32, 64, FINEST].find((fine) => 16 % denominator !== 0 && fine % denominator === 0);
}

/** Why an entry in a cell that has a quantity was not read. */
function trouble(plain: string, context: ShowContext & { quantity: Quantity }): Unread {
  const { quantity } = context;
  const taker = takerOf(context);
  const reads = (text: string): boolean => readAs(text, quantity, context)?.kind === 'value';
  return (
    (quantity === 'length' ? sizeTrouble(plain, taker) : undefined) ??
    numberTrouble(plain, reads) ??
    foreignMoney(plain, context) ??
    otherQuantity(plain, context) ??
    unread('Q1', plain, taker)
  );
}

/** An undescribed cell takes any text; only what was surely meant as a number is told apart. */
function freeTrouble(plain: string, context: ShowContext): Unread | undefined {
  if (!/^[^\p{L}]{0,4}\d/u.test(plain)) return undefined;
  const reads = (text: string): boolean => readFree(text, context)?.kind === 'value';
  return numberTrouble(plain, reads) ?? foreignMoney(plain, context);
}

/** Numbers that are too large, divide by zero, or can be read two ways. */
function numberTrouble(plain: string, reads: (text: string) => boolean): Unread | undefined {
  // The number by itself, so that `1e999 mm` is told like `1e999`.
  const number = /^[^\d]{0,4}?[+-]? ?(?:\d|\.\d)[\d.,/ e+-]*/i.exec(plain)?.[0].trim() ?? plain;
  const { kind } = readNumber(number.replace(/^[^\d.+-]+/, ''));
  if (kind === 'huge') return unread('Q6', plain);
  if (kind === 'zero-fraction') return unread('Q7', plain);
  const pointed = withPoint(plain);
  if (pointed !== undefined && reads(pointed)) {
    return unread('Q4', plain, TWO_WAYS.comma, pointed);
  }
  const mixed = asMixed(plain);
  return mixed !== undefined && reads(mixed)
    ? unread('Q4', plain, TWO_WAYS.dash, mixed)
    : undefined;
}

function foreignMoney(plain: string, context: ShowContext): Unread | undefined {
  const amount = readAmount(plain, context.currency);
  if (amount === undefined || amount.ours || readNumber(amount.number).kind !== 'number') {
    return undefined;
  }
  const { quantity } = context;
  if (quantity !== undefined && !MONEY_QUANTITIES.has(quantity)) return undefined;
  return unread('Q9', plain, amount.sign ?? '', takerOf(context));
}

/** A number with a unit, or a date, that belongs in a cell of another quantity. */
function otherQuantity(
  plain: string,
  context: ShowContext & { quantity: Quantity },
): Unread | undefined {
  const free = readFree(plain, context);
  if (free?.kind !== 'value' || free.quantity === undefined || free.quantity === context.quantity)
    return undefined;
  return unread('Q2', plain, free.quantity, takerOf(context));
}
