import { OWN_UNITS } from '@kerfbook/wood';
import type { CellValue, Shown } from '../api.ts';
import { writeDate } from './dates.ts';
import { grouped, near, rounded, writeDecimal, writeExact, writePlain } from './digits.ts';
import {
  type Fraction,
  fittingFraction,
  LARGEST_FRACTION,
  nearestFraction,
  valueOfFraction,
  writeFeet,
  writeFraction,
} from './fractions.ts';
import { moneyDecimals, writeAmount } from './money.ts';
import { type ShowContext, type Style, shownUnit, styleOf } from './style.ts';
import { fromOwn } from './units.ts';

/**
 * How a value is shown in its cell, without its unit. Numbers are taken in the workbook's own unit
 * and written in the shown one; {@link Shown.exact} is there where the text rounds them by more
 * than a part in 1e9, with ten digits and in the same unit.
 */
export function showValue(value: CellValue, context: ShowContext): Shown {
  switch (value.kind) {
    case 'empty':
      return { text: '', align: 'start' };
    case 'text':
      return { text: value.text, align: 'start' };
    case 'logical':
      return { text: value.logical ? 'TRUE' : 'FALSE', align: 'centre' };
    case 'error':
      return { text: value.error.word, align: 'centre' };
    case 'number':
      return showNumber(value.number, context);
  }
}

/** A number in the workbook's own unit as its cell shows it. */
export function showNumber(own: number, context: ShowContext): Shown {
  const style = styleOf(context);
  const unit = shownUnit(context, style);
  const { quantity, system, currency } = context;
  const value =
    unit === undefined || quantity === undefined ? own : fromOwn(own, unit, quantity, system);
  if (!Number.isFinite(value)) return showTooLarge(own, context);
  switch (style.as) {
    case 'fraction':
    case 'feet-inches':
      return showFraction(value, style);
    case 'money':
      return showMoney(value, currency, style.decimals ?? moneyDecimals(currency));
    case 'date':
      return showDate(value);
    case 'decimal':
    case 'plain':
      return showDecimal(value, style);
  }
}

/** A number that the shown unit cannot hold keeps its own unit, which the text then names. */
function showTooLarge(own: number, { quantity, system }: ShowContext): Shown {
  const unit = quantity === undefined ? '' : OWN_UNITS[quantity][system];
  return { text: withUnit(writePlain(own), unit), align: 'end' };
}

/** The number that a text stands for beside the value, and how the value itself is written. */
function shown(text: string, stands: number, value: number, exact = writeExact(value)): Shown {
  return { text, align: 'end', ...(near(stands, value) ? {} : { exact }) };
}

function showDecimal(value: number, style: Style): Shown {
  const { as } = style;
  const decimals = decimalsFor(value, style);
  const text = as === 'plain' ? writePlain(value) : writeDecimal(value, decimals, style.fixed);
  return shown(style.grouped === true ? grouped(text) : text, Number(text), value);
}

/** Decimals that leave two digits of a number, within what its style allows. */
function decimalsFor(value: number, { decimals = 6, stretches = 0 }: Style): number {
  const size = Math.abs(value);
  if (stretches === 0 || size === 0) return decimals;
  const needed = 1 - Math.floor(Math.log10(size));
  return needed > decimals ? Math.min(needed, decimals + stretches) : decimals;
}

function showFraction(value: number, style: Style): Shown {
  if (Math.abs(value) > LARGEST_FRACTION) return showDecimal(value, { as: 'plain' });
  if (Math.abs(value) < (style.decimalsUnder ?? 0) && !isExact(value, style)) {
    return showDecimal(value, { ...style, as: 'decimal' });
  }
  const fraction = fractionOf(value, style);
  const stands = valueOfFraction(fraction);
  // Feet and inches carry their signs in the text; the exact value carries its sign too.
  if (style.as === 'feet-inches') {
    return shown(writeFeet(fraction), stands, value, `${writeExact(value)}"`);
  }
  const whole = shown(writeFraction(fraction), stands, value);
  return fraction.over === 0 ? whole : { ...whole, fraction: drawn(fraction) };
}

const isExact = (value: number, { exactTo = 1 }: Style): boolean =>
  near(valueOfFraction(nearestFraction(value, exactTo)), value);

function fractionOf(value: number, style: Style): Fraction {
  const { denominator, exactTo, halfStepsUnder = 0 } = style;
  if (denominator === undefined) return fittingFraction(value);
  if (exactTo !== undefined && isExact(value, style)) return nearestFraction(value, exactTo);
  return nearestFraction(value, Math.abs(value) < halfStepsUnder ? 2 * denominator : denominator);
}

function drawn({ sign, whole, over, under }: Fraction): NonNullable<Shown['fraction']> {
  return { whole: whole === 0 ? sign : `${sign}${whole}`, over: `${over}`, under: `${under}` };
}

function showMoney(value: number, currency: string, decimals: number): Shown {
  const stands = rounded(value, decimals);
  const text = writeAmount(stands, currency, decimals);
  if (near(stands, value)) return { text, align: 'end' };
  const exact = writeAmount(Number(writeExact(value)), currency, decimals, 15);
  return { text, align: 'end', exact };
}

function showDate(value: number): Shown {
  const text = writeDate(value);
  return text === undefined
    ? showDecimal(value, { as: 'plain' })
    : shown(text, Math.floor(value), value);
}

/**
 * The word for the unit of a cell's numbers, to stand beside them: `in`, `ft²`, `%`, `/bd ft`.
 * Empty where they have none, and where the text itself tells it: `$12.50`, `5' 6"`.
 */
export function unitShown(context: ShowContext): string {
  const { quantity, system } = context;
  if (quantity === undefined) return '';
  const style = styleOf(context);
  if (style.as === 'feet-inches') return '';
  return shownUnit(context, style)?.sign ?? OWN_UNITS[quantity][system];
}

/** A shown number with its unit beside it: `33 3/16 in`, `45°`, `$8.50/bd ft`. */
export function withUnit(text: string, unit: string): string {
  if (unit === '' || text === '') return text;
  return unit === '°' || unit.startsWith('/') ? `${text}${unit}` : `${text} ${unit}`;
}

/** A value as it is shown, with its unit where it is a number. */
export function showWithUnit(value: CellValue, context: ShowContext): string {
  const { text } = showValue(value, context);
  return value.kind === 'number' ? withUnit(text, unitShown(context)) : text;
}
