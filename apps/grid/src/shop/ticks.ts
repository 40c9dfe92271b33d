import type { CutItem } from '@kerfbook/drawing';
import type { BookStore } from '@kerfbook/keeping';

/** Which pieces of each line of the cut list are cut, counted from 0, by the line's key. */
export type Ticks = Readonly<Record<string, readonly number[]>>;

/**
 * What a line is known by: its name and its sizes to a hundredth of a millimetre. Pieces cut at one size
 * are no pieces of another.
 */
export const tickKey = ({ name, thickness, width, length }: CutItem): string =>
  [name, ...[thickness, width, length].map((mm) => mm.toFixed(2))].join(' | ');

const storeKey = (book: string): string => `ticks:${book}`;

/** What was ticked off of a workbook on this device; an earlier app kept how many, and not which. */
export async function readTicks(store: Pick<BookStore, 'get'>, book: string): Promise<Ticks> {
  const kept = await store.get(storeKey(book));
  if (typeof kept !== 'object' || kept === null) return {};
  return Object.fromEntries(
    Object.entries(kept).flatMap(([key, value]) => {
      const pieces = piecesIn(value);
      return pieces.length === 0 ? [] : [[key, pieces]];
    }),
  );
}

/** More of one size than this were never counted. */
const MOST = 100_000;

function piecesIn(value: unknown): readonly number[] {
  const isPiece = (one: unknown): one is number =>
    Number.isSafeInteger(one) && (one as number) >= 0 && (one as number) < MOST;
  if (Array.isArray(value)) return [...new Set(value.filter(isPiece))].sort((a, b) => a - b);
  return isPiece(value) ? Array.from({ length: value }, (_, i) => i) : [];
}

export const keepTicks = (
  store: Pick<BookStore, 'set'>,
  book: string,
  ticks: Ticks,
): Promise<void> => store.set(storeKey(book), ticks);

/** Whether a piece of a line is cut. */
export const isCut = (ticks: Ticks, item: CutItem, piece: number): boolean =>
  ticks[tickKey(item)]?.includes(piece) === true;

/** How many of the pieces that are wanted of a line are cut. */
export const cutOf = (ticks: Ticks, item: CutItem): number =>
  (ticks[tickKey(item)] ?? []).filter((piece) => piece < item.count).length;

/** The same with one piece of a line cut or not; one that is not wanted is not counted. */
export function ticked(ticks: Ticks, item: CutItem, piece: number, cut: boolean): Ticks {
  if (piece < 0 || piece >= item.count) return ticks;
  const key = tickKey(item);
  const others = (ticks[key] ?? []).filter((one) => one !== piece);
  const next = cut ? [...others, piece].sort((a, b) => a - b) : others;
  const { [key]: _was, ...rest } = ticks;
  return next.length === 0 ? rest : { ...rest, [key]: next };
}

/** Lines of pieces that were cut at sizes the cut list no longer has. */
export function strayTicks(ticks: Ticks, items: readonly CutItem[]): readonly string[] {
  const known = new Set(items.map(tickKey));
  return Object.keys(ticks).filter((key) => !known.has(key));
}
