import { isShaped, madePiece, wholeMiddle } from '@kerfbook/functions/shaped';
import type { ShapeColumn } from '@kerfbook/wood';
import type { Part } from './parts.ts';
import { bookFormat } from './units.ts';

/**
 * Shaped parts that go by nothing in words, and so know no middle, with that of all parts: their inside is where
 * the furniture is.
 */
export function withMiddles(parts: readonly Part[]): readonly Part[] {
  const lacks = ({ placing, ...part }: Part): boolean =>
    placing !== undefined && placing.middle === undefined && isShaped(part);
  if (!parts.some(lacks)) return parts;
  const middle = wholeMiddle(parts.map((part) => ({ part, placing: part.placing })));
  return parts.map((part) =>
    lacks(part) && part.placing !== undefined
      ? { ...part, placing: { ...part.placing, middle } }
      : part,
  );
}

/** As many pieces as are looked at: those of one row differ by where they stand, and few ways say all. */
const MOST_LOOKED_AT = 8;

/** What of a part's shape cannot be made, each once. */
export function shapeProblems(
  part: Part,
  units: Parameters<typeof bookFormat>[0]['units'],
): readonly { readonly column: ShapeColumn; readonly says: string }[] {
  if (!isShaped(part)) return [];
  // No money is written.
  const format = bookFormat({ units, currency: '' });
  const found = new Map<string, { readonly column: ShapeColumn; readonly says: string }>();
  const copies = part.placing === undefined ? 1 : Math.min(part.count, MOST_LOOKED_AT);
  for (let copy = 0; copy < copies; copy++) {
    for (const one of madePiece(part, part.placing, copy, format)?.wrong ?? []) {
      found.set(`${one.column} ${one.says}`, one);
    }
  }
  return [...found.values()];
}
