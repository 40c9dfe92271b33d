import type { Quantity, UnitSystem } from '@kerfbook/wood';
import { LIMITS, type Scalar, type Show } from '../document/schema.ts';
import { type NumberReading, plainText, readNumber } from './numbers.ts';
import { ENTRY_FAULTS, type EntryCode } from './sentences.ts';
import { quantitiesOf, toOwn, type Unit, unitOf } from './units.ts';

export interface ReadContext {
  readonly quantity?: Quantity;
  readonly system: UnitSystem;
  /** ISO 4217 code of the workbook's money. */
  readonly currency: string;
  readonly show?: Show;
}

export type Reading =
  | { readonly kind: 'empty' }
  | { readonly kind: 'formula'; readonly formula: string }
  | {
      readonly kind: 'value';
      readonly value: Scalar;
      /** What was typed, where the value written out would not give it back. */
      readonly typed?: string;
      /** What the entry says of a cell that nothing was said of yet. */
      readonly quantity?: Quantity;
      readonly show?: Show;
    }
  | {
      readonly kind: 'unread';
      readonly text: string;
      readonly code: EntryCode;
      readonly says: string;
    };

const MONEY = new Set<Quantity>(['money', 'money_per_boardfoot', 'money_per_hour']);

/**
 * Reads what a maker typed, by what the cell is. Numbers come back in the workbook's own units.
 * Nothing becomes a date unless it is written year first (ISO 8601) in a cell that may hold one.
 */
export function readEntry(text: string, context: ReadContext): Reading {
  if (text.length > LIMITS.text) return unread(text, 'Q5');
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.test(text)) return unread(text, 'Q8');
  if (text.startsWith("'")) return { kind: 'value', value: text.slice(1), typed: text };
  if (text.trim() === '') return { kind: 'empty' };
  if (text.trimStart().startsWith('=')) return { kind: 'formula', formula: text.trim() };
  const { quantity } = context;
  if (quantity === 'text') return kept(text, text);
  if (quantity === undefined) return readFree(text, context);
  if (quantity === 'logical') return readLogical(text) ?? unread(text, 'Q1', text, quantity);
  return readAs(text, quantity, context);
}

function unread<C extends EntryCode>(
  text: string,
  code: C,
  ...words: Parameters<(typeof ENTRY_FAULTS)[C]>
): Reading {
  const sentence = ENTRY_FAULTS[code] as (...words: unknown[]) => string;
  return { kind: 'unread', text, code, says: sentence(...words) };
}

/** A value, with what was typed where writing the value out would not give it back. */
function kept(
  text: string,
  value: Scalar,
  about: { quantity?: Quantity; show?: Show } = {},
): Reading {
  return { kind: 'value', value, ...(String(value) === text ? {} : { typed: text }), ...about };
}

function readLogical(text: string): Reading | undefined {
  const word = text.trim().toLowerCase();
  if (word !== 'true' && word !== 'false') return undefined;
  return {
    kind: 'value',
    value: word === 'true',
    ...(word === text.toLowerCase() && text === text.toUpperCase() ? {} : { typed: text }),
  };
}

/** An entry in a cell that has a quantity. */
function readAs(text: string, quantity: Quantity, context: ReadContext): Reading {
  const plain = plainText(text);
  if (quantity === 'date') return readDate(text, plain) ?? unread(text, 'Q1', text, quantity);
  if (quantity === 'length') {
    const nominal = nominalSize(plain);
    if (nominal !== undefined) return unread(text, 'Q3', plain, '1-1/2 by 3-1/2');
  }
  const bare = readNumber(MONEY.has(quantity) ? withoutMoneySign(plain) : plain);
  if (bare.kind === 'number') return inShownUnit(text, bare, quantity, context);
  const measured = readMeasured(plain, quantity, context.system);
  if (typeof measured === 'number') return finiteOr(text, measured);
  return trouble(text, plain, bare, quantity);
}

/** A bare number is in the unit that the cell shows. */
function inShownUnit(
  text: string,
  read: NumberReading & { kind: 'number' },
  quantity: Quantity,
  context: ReadContext,
): Reading {
  const shown = context.show?.unit === undefined ? undefined : unitOf(quantity, context.show.unit);
  const value =
    shown === undefined ? read.value : toOwn(read.value, shown, quantity, context.system);
  return finiteOr(text, value);
}

function finiteOr(text: string, value: number): Reading {
  return Number.isFinite(value) ? kept(text, value) : unread(text, 'Q6', text);
}

function trouble(
  text: string,
  plain: string,
  bare: NumberReading,
  quantity: Quantity | undefined,
): Reading {
  if (bare.kind === 'ambiguous') return unread(text, 'Q4', text, bare.meant);
  if (bare.kind === 'huge') return unread(text, 'Q6', text);
  if (bare.kind === 'zero-fraction') return unread(text, 'Q7', text);
  const other = otherUnit(plain);
  if (other !== undefined && quantity !== undefined)
    return unread(text, 'Q2', text, other, quantity);
  return unread(text, 'Q1', text, quantity);
}

/** The unit of an entry that is a number with a unit of some quantity. */
function otherUnit(plain: string): string | undefined {
  const [, number = '', word = ''] = /^(.*?\d)\s*([^\d\s/.,+-][^\d]*)$/.exec(plain) ?? [];
  if (readNumber(number).kind !== 'number') return undefined;
  return quantitiesOf(word).length === 0 ? undefined : word.trim();
}

const PART =
  /^\s*([+-]?(?:\d+(?: +|-))?\d+ ?\/ ?\d+|[+-]?[\d,]*\.?\d+(?:[eE][+-]?\d+)?|\d+\.)\s*([^\d\s/.,+-][^\d+-]*?)\s*(?=[\d.+-]|$)/;

/**
 * A number with a unit, or several that add up: `5' 6-3/8"`, `1 h 30 min`, `68F`, `2.4 m`. The
 * number in the own unit; `undefined` when it is none.
 */
function readMeasured(plain: string, quantity: Quantity, system: UnitSystem): number | undefined {
  const negative = plain.startsWith('-');
  let rest = negative ? plain.slice(1).trim() : plain;
  let total = 0;
  let last: Unit | undefined;
  if (quantity === 'ratio') return percentRatio(plain);
  while (rest !== '') {
    const step = nextPart(rest, quantity, last);
    if (step === undefined) return undefined;
    total += toOwn(step.value, step.unit, quantity, system);
    last = step.unit;
    rest = step.rest;
  }
  return last === undefined ? undefined : (negative ? -total : total) + 0;
}

function percentRatio(plain: string): number | undefined {
  const [, number] = /^(.*?)\s*%$/.exec(plain) ?? [];
  const read = number === undefined ? undefined : readNumber(number);
  return read?.kind === 'number' ? read.value / 100 : undefined;
}

function nextPart(rest: string, quantity: Quantity, before: Unit | undefined) {
  const found = PART.exec(rest);
  if (found === null) {
    // `5' 6`: inches need no mark after feet.
    const bare = readNumber(rest.replace(/^-\s*/, ''));
    const inch =
      quantity === 'length' && before?.sign === 'ft' ? unitOf('length', 'in') : undefined;
    if (bare.kind !== 'number' || inch === undefined || bare.value < 0) return undefined;
    return { value: bare.value, unit: inch, rest: '' };
  }
  const read = readNumber((found[1] ?? '').replace(/^\+/, ''));
  const unit = unitOf(quantity, found[2] ?? '');
  if (read.kind !== 'number' || unit === undefined || read.value < 0) return undefined;
  // Parts go from large to small: `6" 5'` is a slip, not a length.
  if (before !== undefined && unit.per >= before.per) return undefined;
  const after = rest.slice(found[0].length).replace(/^\s*-\s*(?=\d)/, '');
  return { value: read.value, unit, rest: after.trim() };
}

/** Days since 1899-12-30, the day 0 of OpenFormula's usual null date (ODF 1.3 part 4, 4.3.3). */
function readDate(text: string, plain: string): Reading | undefined {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(plain) ?? [];
  if (year === undefined) return undefined;
  const time = Date.UTC(Number(year), Number(month) - 1, Number(day));
  if (new Date(time).toISOString().slice(0, 10) !== plain) return undefined;
  return kept(text, Math.round((time - Date.UTC(1899, 11, 30)) / 86_400_000), { quantity: 'date' });
}

function nominalSize(plain: string): string | undefined {
  return /^(?:\d{1,2}|5\/4) ?[x×] ?\d{1,2}$/i.test(plain) ? plain : undefined;
}

const SIGNS: Readonly<Record<string, string>> = {
  USD: '$',
  EUR: '€',
  GBP: '£',
  JPY: '¥',
  CAD: '$',
  AUD: '$',
};

function withoutMoneySign(plain: string): string {
  return plain.replace(/^(-?)\s*[$€£¥]\s*/, '$1').replace(/\s*[€£¥$]$/, '');
}

/** An entry in a cell that nothing was said of: what it is follows from how it is written. */
function readFree(text: string, context: ReadContext): Reading {
  const plain = plainText(text);
  const logical = readLogical(text);
  if (logical !== undefined) return logical;
  const bare = readNumber(plain);
  if (bare.kind === 'number') {
    if (bare.form === 'decimal') return kept(text, bare.value);
    return kept(text, bare.value, { show: fractionShow(bare.denominator ?? 16) });
  }
  if (bare.kind === 'huge') return unread(text, 'Q6', text);
  const date = readDate(text, plain);
  if (date !== undefined) return date;
  const money = readNumber(withoutMoneySign(plain));
  const sign = SIGNS[context.currency];
  if (money.kind === 'number' && sign !== undefined && plain.includes(sign)) {
    return kept(text, money.value, { quantity: 'money' });
  }
  return readFreeUnit(text, plain, context) ?? kept(text, text);
}

function fractionShow(denominator: number): Show {
  return { as: 'fraction', denominator: Math.min(128, Math.max(2, denominator)) };
}

const FREE_ORDER: readonly Quantity[] = [
  'length',
  'percent',
  'temperature',
  'mass',
  'liquid',
  'area',
  'volume',
  'boardfeet',
  'force',
  'pressure',
  'duration',
  'angle',
];

function readFreeUnit(text: string, plain: string, { system }: ReadContext): Reading | undefined {
  for (const quantity of FREE_ORDER) {
    const value = readMeasured(plain, quantity, system);
    if (value === undefined || !Number.isFinite(value)) continue;
    return kept(text, value, { quantity });
  }
  return undefined;
}
