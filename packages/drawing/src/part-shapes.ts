import { isShaped, madePiece, roomOf } from '@kerfbook/functions/shaped';
import { cornerOf, type ShapeColumn } from '@kerfbook/wood';
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
  const middle = middleOf(parts);
  return parts.map((part) =>
    lacks(part) && part.placing !== undefined
      ? { ...part, placing: { ...part.placing, middle } }
      : part,
  );
}

function middleOf(parts: readonly Part[]): readonly [number, number] {
  const spans = parts.flatMap((part) => {
    const { placing, count } = part;
    if (placing === undefined) return [];
    const room = roomOf(part, placing.turn);
    return [0, count - 1].map((copy) => ({ low: cornerOf(placing, copy), room }));
  });
  const [along, across] = ([0, 1] as const).map((axis) => {
    const low = Math.min(...spans.map((span) => span.low[axis]));
    const high = Math.max(...spans.map((span) => span.low[axis] + span.room[axis]));
    return (low + high) / 2;
  }) as [number, number];
  return [along, across];
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
