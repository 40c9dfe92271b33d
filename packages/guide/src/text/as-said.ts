import { bookFormat, type Format } from '@kerfbook/drawing';
import type { Shown } from '@kerfbook/workbook';
import type { GuideSource } from '../source.ts';

/** From here on a rule is read to the millimeter, and below it to half of one, mm. */
const WHOLE_FROM = 20;
/** What is less is a gap, and told to a tenth, mm: 0.76 is 1/32 in that nobody measures. */
const TENTHS_UNDER = 1;
/** What is less than this is told as it is, mm. */
const LEAST_TENTH = 0.1;
/** A length that is this near to a half, or a gap to a hundredth, was typed so, mm. */
const TYPED = 1e-6;

/**
 * A length as it is said in a shop that works in millimeters: to the half, from 20 on to the whole, and a gap to a tenth.
 * An inch turned into millimeters is 25.4 of them, and nobody marks that. What was typed in halves stays as it is.
 */
export function saidMm(mm: number): number {
  const size = Math.abs(mm);
  if (size < LEAST_TENTH || Math.abs(2 * size - Math.round(2 * size)) < 2 * TYPED) return mm;
  if (size < TENTHS_UNDER && Math.abs(100 * size - Math.round(100 * size)) < 100 * TYPED) return mm;
  const parts = size < TENTHS_UNDER ? 10 : size < WHOLE_FROM ? 2 : 1;
  const rounded = Math.round(parts * size) / parts;
  return mm < 0 ? -rounded : rounded;
}

/** Writes lengths for a plan that others build from: as its workbook shows them, in millimeters as a shop says them. */
export function guideFormat(source: Pick<GuideSource, 'units' | 'currency'>): Format {
  const write = bookFormat(source);
  return source.units === 'us' ? write : (mm) => write(saidMm(mm));
}

const WEIGHTS = new Set(['lb', 'kg']);
const AREAS = new Set(['ft²', 'm²']);
/** From here on a weight is told in whole units: so does the scale that it is lifted with. */
const WHOLE_WEIGHT = 10;
/** Digits that a surface is told with. */
const AREA_DIGITS = 3;
const LIQUIDS = new Set(['fl oz', 'mL']);
/** From here on an amount of liquid is told in whole units: no can, bottle or cup is read finer. */
const WHOLE_LIQUID = 10;

/**
 * A number as a sentence of a plan says it: its cell shows it finer than anyone measures it. An amount of liquid that was
 * worked out is said upward, since cans are counted so: 96.02 fl oz is 97, or four cans of 32 would look like one too many.
 * @param own what the cell holds, in the workbook's own unit
 * @param isNeeded it was worked out; what somebody typed, the size of a can, is said as it is
 */
export function asSaid(
  shown: Pick<Shown, 'text' | 'fraction'>,
  unit: string,
  own: number,
  isNeeded = false,
): Pick<Shown, 'text' | 'fraction'> {
  const read = Number(shown.text);
  if (shown.fraction !== undefined || shown.text.trim() === '' || !Number.isFinite(read)) {
    return shown;
  }
  // A cell may show another unit than its workbook's own: then only what it shows is in this unit. Else what it holds is
  // rounded, and not what it shows once more: 42.46 shown as 42.5 is 42.
  const places = shown.text.split('.')[1]?.length ?? 0;
  const exact = Math.abs(read - own) < 0.6 * 10 ** -places ? own : read;
  if (unit === 'mm') return { text: plain(saidMm(exact), shown) };
  if (WEIGHTS.has(unit) && Math.abs(read) >= WHOLE_WEIGHT)
    return { text: String(Math.round(exact)) };
  if (LIQUIDS.has(unit) && isNeeded && read >= WHOLE_LIQUID && Math.abs(read - own) < 1) {
    return { text: String(Math.ceil(own - TYPED)) };
  }
  if (AREAS.has(unit)) return { text: String(Number(exact.toPrecision(AREA_DIGITS))) };
  return shown;
}

/** As its cell writes it where that is the same number. */
const plain = (said: number, { text }: Pick<Shown, 'text'>): string =>
  Math.abs(said - Number(text)) < TYPED || Math.abs(said) < LEAST_TENTH ? text : String(said);
