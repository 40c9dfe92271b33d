import type { CutItem } from '@kerfbook/drawing';
import type { BookStore } from '@kerfbook/keeping';

/** How many pieces of each line of the cut list are cut, by the line's key. */
export type Ticks = Readonly<Record<string, number>>;

/**
 * What a line is known by: its name and its sizes to a hundredth of a millimetre. Pieces cut at one size
 * are no pieces of another.
 */
export const tickKey = ({ name, thickness, width, length }: CutItem): string =>
  [name, ...[thickness, width, length].map((mm) => mm.toFixed(2))].join(' | ');

const storeKey = (book: string): string => `ticks:${book}`;

/** What was ticked off of a workbook on this device. */
export async function readTicks(store: Pick<BookStore, 'get'>, book: string): Promise<Ticks> {
  const kept = await store.get(storeKey(book));
  if (typeof kept !== 'object' || kept === null) return {};
  return Object.fromEntries(
    Object.entries(kept).filter(([, count]) => Number.isSafeInteger(count) && count > 0),
  ) as Ticks;
}

export const keepTicks = (
  store: Pick<BookStore, 'set'>,
  book: string,
  ticks: Ticks,
): Promise<void> => store.set(storeKey(book), ticks);

/** The same with one more or one less of a line cut, never more than are wanted. */
export function ticked(ticks: Ticks, item: CutItem, by: 1 | -1): Ticks {
  const key = tickKey(item);
  const count = Math.max(0, Math.min(item.count, (ticks[key] ?? 0) + by));
  const { [key]: _was, ...others } = ticks;
  return count === 0 ? others : { ...others, [key]: count };
}

/** Pieces that were cut at sizes the cut list no longer has. */
export function strayTicks(ticks: Ticks, items: readonly CutItem[]): readonly string[] {
  const known = new Set(items.map(tickKey));
  return Object.keys(ticks).filter((key) => !known.has(key));
}
