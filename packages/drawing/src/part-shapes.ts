import { isShaped, madePiece } from '@kerfbook/functions/shaped';
import type { ShapeColumn } from '@kerfbook/wood';
import type { Part } from './parts.ts';
import { bookFormat } from './units.ts';

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
