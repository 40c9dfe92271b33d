import type { Allow } from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import type { CellValue } from '../api.ts';
import { near, settled } from './digits.ts';
import { plainWriting } from './entry.ts';
import { LARGEST_FRACTION, nearestFraction, writeFeet, writeFraction } from './fractions.ts';
import { parseEntry } from './parse.ts';
import { type ShowContext, type Style, shownUnit, styleOf } from './style.ts';
import { fromOwn, toOwn } from './units.ts';

/** A number that can be pulled within its range. All of it is in the unit that its cell shows. */
export interface Pull {
  /** What the cell holds now. */
  readonly value: number;
  /** The least that is allowed, where that is known. */
  readonly low?: number;
  /** The most that is allowed, where that is known. */
  readonly high?: number;
  /** The finest step: what a tape or a scale of such things is read to. */
  readonly step: number;
  /** Steps are parts of an inch, halved and doubled. */
  readonly fractional: boolean;
  /** A value in the workbook's own unit. */
  readonly own: (value: number) => number;
  /** What to type for a value: as a maker would. */
  readonly entry: (value: number) => string;
}

/** Steps by quantity and shown unit where they do not depend on the range: common practice, no source. */
const STEPS: Partial<Record<Quantity, number | Readonly<Record<string, number>>>> = {
  count: 1,
  percent: 0.5,
  moisture: 0.5,
  humidity: 0.5,
  temperature: 1,
  angle: 0.5,
  date: 1,
  length: { mm: 1, cm: 0.1, m: 0.01, ft: 0.25, yd: 0.25 },
  duration: { h: 0.25, min: 5, d: 0.5 },
  mass: { lb: 0.5, oz: 1, kg: 0.5, g: 10 },
  force: { lb: 5, N: 10, kN: 0.1 },
  pressure: { psi: 5, MPa: 0.1, kPa: 10, GPa: 0.1 },
  liquid: { 'fl oz': 1, pt: 0.25, qt: 0.25, gal: 0.25, mL: 10, L: 0.1 },
  coverage: { 'ft²/gal': 10, 'm²/L': 0.5 },
  boardfeet: { 'bd ft': 0.5 },
};

/** Up to such a size, so fine: a tape is read to eighths over a table and to sixteenths over a board. */
const INCH_STEPS = [
  [0.5, 1 / 64],
  [1, 1 / 32],
  [20, 1 / 16],
] as const;
const LONG_STEP = 1 / 8;
/** Up to such an amount, so fine. */
const MONEY_STEPS = [
  [20, 0.25],
  [200, 0.5],
  [1000, 1],
  [10_000, 10],
] as const;
const MUCH_MONEY_STEP = 50;
/** Steps from end to end where nothing is known of what such things are measured to, about. */
const ABOUT = 100;
/** A range has at least so many steps, or it could hardly be pulled. */
const FEWEST = 8;
/** Nothing that is measured is told finer than this. */
const FINEST = 1e-6;

/**
 * How a cell's number can be pulled; undefined where it holds none, has no range, or has a list to choose from.
 */
export function pullOf(
  { value, allow }: { readonly value: CellValue; readonly allow?: Allow },
  context: ShowContext,
): Pull | undefined {
  if (value.kind !== 'number' || allow === undefined || allow.list !== undefined) return undefined;
  if (allow.min === undefined && allow.max === undefined) return undefined;
  const style = styleOf(context);
  if (context.quantity === 'text' || context.quantity === 'logical') return undefined;
  const shown = (own: number): number => settled(inShown(own, context, style));
  const whole = allow.whole === true;
  // Whole numbers of a unit that is not the shown one lie on no grid of steps.
  if (whole && !near(shown(1), 1)) return undefined;
  const low = allow.min === undefined ? undefined : shown(whole ? Math.ceil(allow.min) : allow.min);
  const high =
    allow.max === undefined ? undefined : shown(whole ? Math.floor(allow.max) : allow.max);
  if (low !== undefined && high !== undefined && !(high - low > FINEST)) return undefined;
  const now = shown(value.number);
  const fractional = style.as === 'fraction' || style.as === 'feet-inches';
  const span = high === undefined || low === undefined ? undefined : high - low;
  const size = Math.max(
    Math.abs(low ?? 0),
    Math.abs(high ?? now),
    high === undefined ? Math.abs(now) : 0,
  );
  const usual = fractional ? inchStep(size, context) : usualStep(size, span, context, style);
  const fit = span === undefined ? usual : fitting(usual, span, fractional);
  return {
    value: now,
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
    step: whole ? Math.max(1, Math.round(fit)) : fit,
    fractional,
    own: (one) => inOwn(one, context, style),
    entry: (one) => entryOf(one, context, style),
  };
}

/** The value so many steps on, on the grid of steps; at an end of the range it stays there. */
export function stepped(pull: Pull, from: number, steps: number, step = pull.step): number {
  const at = settled(from / step);
  const on = steps > 0 ? Math.floor(at) : Math.ceil(at);
  return within(pull, settled((on + steps) * step));
}

/** The nearest value on the grid of steps, within the range; an end of it wherever that is nearer. */
export function snapped(pull: Pull, value: number, step = pull.step): number {
  const { low, high } = pull;
  if (low !== undefined && value <= low) return low;
  if (high !== undefined && value >= high) return high;
  return within(pull, settled(Math.round(value / step) * step));
}

/** The finest step of the same kind that is no finer than this. */
export function coarser({ step, fractional }: Pull, least: number): number {
  let wider = step;
  while (fractional && wider < Math.min(1, least)) wider *= 2;
  if (wider >= least * (1 - 1e-9)) return wider;
  for (let power = 10 ** Math.floor(Math.log10(wider)); ; power *= 10) {
    for (const one of [1, 2, 5]) {
      const wide = settled(one * power);
      if (wide >= least * (1 - 1e-9) && near(wide / step, Math.round(wide / step))) return wide;
    }
  }
}

function within({ low, high }: Pull, value: number): number {
  if (low !== undefined && value < low) return low;
  return high !== undefined && value > high ? high : value + 0;
}

function inShown(own: number, context: ShowContext, style: Style): number {
  const { quantity, system } = context;
  const unit = shownUnit(context, style);
  return unit === undefined || quantity === undefined ? own : fromOwn(own, unit, quantity, system);
}

function inchStep(size: number, { show }: ShowContext): number {
  if (show?.denominator !== undefined) return 1 / show.denominator;
  return INCH_STEPS.find(([most]) => size <= most)?.[1] ?? LONG_STEP;
}

function usualStep(
  size: number,
  span: number | undefined,
  context: ShowContext,
  style: Style,
): number {
  if (style.as === 'money') {
    return MONEY_STEPS.find(([most]) => size <= most)?.[1] ?? MUCH_MONEY_STEP;
  }
  const known = context.quantity === undefined ? undefined : STEPS[context.quantity];
  const step = typeof known === 'number' ? known : known?.[shownUnit(context, style)?.sign ?? ''];
  return step ?? nice(Math.max(FINEST, (span ?? 2 * size) / ABOUT));
}

/** No coarser than leaves a range some steps. */
function fitting(step: number, span: number, fractional: boolean): number {
  if (span / step >= FEWEST) return step;
  if (!fractional) return nice(span / FEWEST);
  let finer = step;
  while (span / finer < FEWEST && finer > 1 / 128) finer /= 2;
  return finer;
}

/** The largest of 1, 2 and 5 times a power of ten that is not more. */
function nice(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  const [one = 1] = [5, 2, 1].filter((times) => times * power <= most * (1 + 1e-9));
  return settled(one * power);
}

function entryOf(value: number, context: ShowContext, style: Style): string {
  const own = inOwn(value, context, style);
  const written = writings(value, context, style).find((text) => {
    const read = parseEntry(text, context);
    return read.kind === 'value' && typeof read.value === 'number' && near(read.value, own);
  });
  return written ?? plainWriting(own, context);
}

function inOwn(value: number, context: ShowContext, style: Style): number {
  const { quantity, system } = context;
  const unit = shownUnit(context, style);
  return unit === undefined || quantity === undefined
    ? value
    : toOwn(value, unit, quantity, system);
}

/** Ways to write a value, the one that a maker would type first. */
function writings(value: number, context: ShowContext, style: Style): string[] {
  if (context.quantity === 'date') return [plainWriting(value, context)];
  const number = String(value);
  // What is less than one could be meant as a share: its sign says that it is not (rule N6).
  const plain = [number, `${number}%`];
  if (style.as !== 'fraction' && style.as !== 'feet-inches') return plain;
  if (Math.abs(value) > LARGEST_FRACTION) return plain;
  const fraction = nearestFraction(value, 128);
  return [style.as === 'fraction' ? writeFraction(fraction) : writeFeet(fraction), ...plain];
}
