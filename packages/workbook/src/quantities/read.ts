import type { Scalar, Show } from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import { plainWriting } from './entry.ts';
import { parseEntry } from './parse.ts';
import { isSlightPercent } from './percent.ts';
import type { EntryCode } from './sentences.ts';
import type { ShowContext } from './style.ts';

/** What decides how an entry is read: the same that decides how the value is shown. */
export type ReadContext = ShowContext;

/** What an entry was read as; values in the workbook's own units. */
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
      /** The text stays in the cell as it was typed, with the sentence. */
      readonly kind: 'unread';
      readonly text: string;
      readonly code: EntryCode;
      readonly says: string;
      /** Entries of which each says one of the things that may have been meant. */
      readonly choices?: readonly string[];
    };

/**
 * Reads what a maker typed, by what the cell is. Numbers come back in the workbook's own units,
 * lengths exactly: 66 3/8 is 66.375; between the systems one division or multiplication rounds.
 * A bare number is in the unit that the cell shows. Nothing becomes a date unless it is written
 * in a way that only dates are (`14 Mar 2026`, `3/14/2026`); a fraction stays one, and what may be either is
 * asked about. Nothing is a subtraction: `1-1/2` is 1.5.
 */
export function readEntry(text: string, context: ReadContext): Reading {
  const parsed = parseEntry(text, context);
  if (parsed.kind === 'unread') return { ...parsed, text };
  if (parsed.kind !== 'value') return parsed;
  const { kind: _kind, value: _value, yearless, ...suggested } = parsed;
  // Next year the same text would be another day.
  if (yearless === true) return { kind: 'value', value: parsed.value, ...suggested };
  const after = { ...suggested, ...context };
  const typed = typeof parsed.value === 'string' ? text : text.trim();
  const isPlain = plainWriting(parsed.value, after) === typed;
  return isPlain && !isSaid(parsed.value, after) ? parsed : { ...parsed, typed };
}

/** A percentage under one means what it says only as long as its unit stays with it. */
const isSaid = (value: Scalar, { quantity }: ReadContext): boolean =>
  typeof value === 'number' && isSlightPercent(value, quantity, undefined);
