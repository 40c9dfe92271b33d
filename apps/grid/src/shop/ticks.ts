import type { CutItem } from '@kerfbook/drawing';
import type { BookStore } from '@kerfbook/keeping';

/** A line of the bench list: rows of the parts table that are cut as one. */
export interface BenchLine extends CutItem {
  /** What its rows are known by, wherever they stand and whatever they are called. */
  readonly rows: readonly string[];
}

/** Pieces of one size that are cut. */
export interface Ticked {
  /** Which of the line's pieces, counted from 0. */
  readonly pieces: readonly number[];
  /** The rows that they were cut for; none where an earlier app kept them. */
  readonly rows: readonly string[];
  /** Those that were cut at another size and are good all the same, by the key of what they were cut as. */
  readonly cutAs?: PiecesByKey;
}

/** Pieces by `tickKey`. */
export type PiecesByKey = Readonly<Record<string, readonly number[]>>;

/** What is cut, by the name and size it counts as. */
export type Ticks = Readonly<Record<string, Ticked>>;

/**
 * What a line is known by: its name and its sizes to a hundredth of a millimetre. Pieces cut at one size
 * are no pieces of another.
 */
export const tickKey = ({ name, thickness, width, length }: CutItem): string =>
  [name, ...[thickness, width, length].map((mm) => mm.toFixed(2))].join(' | ');

/** The name and the sizes behind such a key. */
export function cutAs(key: string): Pick<CutItem, 'name' | 'thickness' | 'width' | 'length'> {
  const words = key.split(' | ');
  const [thickness = 0, width = 0, length = 0] = words.slice(-3).map(Number);
  return { name: words.slice(0, -3).join(' | '), thickness, width, length };
}

const storeKey = (book: string): string => `ticks:${book}`;

/** What was ticked off of a workbook on this device; an earlier app kept pieces alone, or how many. */
export async function readTicks(store: Pick<BookStore, 'get'>, book: string): Promise<Ticks> {
  const kept = await store.get(storeKey(book));
  if (typeof kept !== 'object' || kept === null) return {};
  return Object.fromEntries(
    Object.entries(kept).flatMap(([key, value]) => {
      const ticked = tickedIn(value);
      return ticked.pieces.length === 0 ? [] : [[key, ticked]];
    }),
  );
}

/** More of one size than this were never counted. */
const MOST = 100_000;

function tickedIn(value: unknown): Ticked {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return { pieces: piecesIn(value), rows: [] };
  }
  const { pieces, rows, cutAs } = value as { readonly [K in keyof Ticked]?: unknown };
  const own = piecesIn(pieces);
  return {
    pieces: own,
    rows: Array.isArray(rows) ? rows.filter((row) => typeof row === 'string') : [],
    ...cutAsAmong(typeof cutAs === 'object' ? cutAs : undefined, own),
  };
}

/** What pieces were cut as, of these pieces alone; nothing where none of them was cut as anything else. */
function cutAsAmong(
  cutAs: object | null | undefined,
  pieces: readonly number[],
): Pick<Ticked, 'cutAs'> {
  const left = Object.entries(cutAs ?? {}).flatMap(([key, value]) => {
    const here = piecesIn(value).filter((piece) => pieces.includes(piece));
    return here.length === 0 ? [] : [[key, here] as const];
  });
  return left.length === 0 ? {} : { cutAs: Object.fromEntries(left) };
}

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
  ticks[tickKey(item)]?.pieces.includes(piece) === true;

/** How many of the pieces that are wanted of a line are cut. */
export const cutOf = (ticks: Ticks, item: CutItem): number =>
  (ticks[tickKey(item)]?.pieces ?? []).filter((piece) => piece < item.count).length;

/** The same with one piece of a line cut or not; one that is not wanted is not counted. */
export function ticked(ticks: Ticks, line: BenchLine, piece: number, cut: boolean): Ticks {
  if (piece < 0 || piece >= line.count) return ticks;
  const others = (ticks[tickKey(line)]?.pieces ?? []).filter((one) => one !== piece);
  return withPieces(ticks, line, cut ? [...others, piece] : others);
}

/**
 * The same with these pieces of a line cut, and no others of it.
 * @param cutAs what they were cut as; as it is known where left out
 */
export function withPieces(
  ticks: Ticks,
  line: BenchLine,
  pieces: readonly number[],
  cutAs?: PiecesByKey,
): Ticks {
  const key = tickKey(line);
  const { [key]: was, ...rest } = ticks;
  if (pieces.length === 0) return rest;
  const own = pieces.toSorted((a, b) => a - b);
  const now = { pieces: own, rows: line.rows, ...cutAsAmong(cutAs ?? was?.cutAs, own) };
  return { ...rest, [key]: now };
}
