import type { Scalar } from '@kerfbook/document';
import { writeDate } from './dates.ts';
import { near } from './digits.ts';
import { parseEntry } from './parse.ts';
import { type ShowContext, shownUnit } from './style.ts';
import { fromOwn, ownUnit } from './units.ts';

/**
 * What the editor opens with: what was typed, as long as it still means the value (a cell may have
 * been given another unit since), else the value written so that reading it gives it back.
 */
export function entryText(
  held: { readonly value?: Scalar; readonly typed?: string },
  context: ShowContext,
): string {
  const { value, typed } = held;
  if (value === undefined) return typed ?? '';
  if (typed !== undefined && stillMeans(typed, value, context)) return typed;
  return plainWriting(value, context);
}

function stillMeans(typed: string, value: Scalar, context: ShowContext): boolean {
  const read = parseEntry(typed, context);
  if (read.kind !== 'value') return false;
  if (typeof read.value === 'number' && typeof value === 'number') return near(read.value, value);
  return read.value === value;
}

/** The shortest writing of a value that is read back as that value. */
export function plainWriting(value: Scalar, context: ShowContext): string {
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return wordsWriting(value, context);
  if (context.quantity === 'date') return writeDate(value) ?? String(value);
  return numberWriting(value, context);
}

/** Words that would be read as something else get an apostrophe in front. */
function wordsWriting(words: string, context: ShowContext): string {
  const read = parseEntry(words, context);
  const stays = read.kind === 'unread' || (read.kind === 'value' && read.value === words);
  return stays ? words : `'${words}`;
}

function numberWriting(own: number, context: ShowContext): string {
  const { quantity, system } = context;
  const unit = shownUnit(context);
  if (quantity === undefined || unit === undefined) return String(own);
  const shown = fromOwn(own, unit, quantity, system);
  const exact = [Number(shown.toPrecision(15)), shown]
    .map(String)
    .find((text) => isReadAs(text, own, context));
  if (exact !== undefined) return exact;
  // No number of the shown unit is the value itself: it is written in its own. A ratio shown in
  // per cent has none; it may be off by the last binary digit.
  const sign = ownUnit(quantity, system)?.sign;
  return sign === undefined ? String(Number.isFinite(shown) ? shown : own) : `${own} ${sign}`;
}

function isReadAs(text: string, own: number, context: ShowContext): boolean {
  const read = parseEntry(text, context);
  return read.kind === 'value' && read.value === own;
}
