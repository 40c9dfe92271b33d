import type { LeftOut } from '../parts-source.ts';
import type { ShopSource } from './shop-plan.ts';

/** What is asked of a workbook: its named cells. */
type Named = Pick<ShopSource, 'named'>;

/**
 * Where fasteners stand along a rail: the first and last at `end` from its ends, the others at equal
 * steps no wider than `spacing`. Lengths in one unit; from the rail's left end.
 */
export function fastenerPlaces(length: number, spacing: number, end: number): readonly number[] {
  const span = length - 2 * end;
  if (!(span >= 0) || !(spacing > 0)) return [];
  const gaps = Math.ceil(span / spacing - 1e-9);
  if (gaps === 0) return [end];
  return Array.from({ length: gaps + 1 }, (_, i) => end + (span * i) / gaps);
}

/** Which way a fastener's arm, tongue or slot runs, as the cell says it; undefined for anything else. */
export type Points = 'square to the apron' | 'along the apron';

/** How the top moves over a rail: over the long aprons square to them, along the short ones. */
export type Moves = 'square' | 'along';

/** A side of the base that the top is fastened to, of which there are two. */
export interface Rail {
  /** Which it is, as a heading. */
  readonly says: string;
  /** Clear between the legs, as its places in the workbook's own unit. */
  readonly length: number;
  /** How the top moves over it. */
  readonly moves: Moves;
  /** What stands on it: `button`; left out where the workbook does not say. */
  readonly kind?: string;
  /** Which way each points; left out where the workbook does not say. */
  readonly points?: Points;
  /** From its left end on. */
  readonly places: readonly Place[];
}

/** Where one fastener stands. */
export interface Place {
  /** From the rail's left end. */
  readonly at: number;
  /** What a fastener there has to travel each way; undefined where the workbook does not say. */
  readonly need?: number;
}

/** The rails of a table, each with the names of the cells that say what stands on it. */
const RAILS = [
  {
    says: 'Along each long apron, clear between the legs',
    moves: 'square',
    length: 'clear_long',
    kind: 'fastener_long',
    points: 'points_long',
    need: 'fastener_need_long',
  },
  {
    says: 'Along each short apron, clear between the legs',
    moves: 'along',
    length: 'clear_short',
    kind: 'fastener_short',
    points: 'points_short',
    need: 'fastener_need_short',
  },
] as const;

const BASES = ['fastener_spacing', 'fastener_end', ...RAILS.map(({ length }) => length)];

/** Cells that say where fasteners go and cannot: a rail is not passed over because of them. */
export function railErrors(book: Named): readonly LeftOut[] {
  return BASES.flatMap((name) => {
    const cell = book.named(name);
    if (cell?.value.kind !== 'error') return [];
    const { word, says } = cell.value.error;
    return [{ at: cell.at, what: name, says: `${word} ${says}` }];
  });
}

const numberOf = (book: Named, name: string): number | undefined => {
  const value = book.named(name)?.value;
  return value?.kind === 'number' ? value.number : undefined;
};

function wordsIn(book: Named, name: string): string | undefined {
  const value = book.named(name)?.value;
  return value?.kind === 'text' && value.text.trim() !== '' ? value.text.trim() : undefined;
}

const pointsOf = (words: string | undefined): Points | undefined =>
  words === 'square to the apron' || words === 'along the apron' ? words : undefined;

/**
 * What each fastener has to travel where the last of a rail needs so much: all the same on a rail that
 * the top moves square to; along a rail the less, the nearer it stands to the centre line.
 */
function placesWithNeeds(
  places: readonly number[],
  length: number,
  moves: Moves,
  most: number | undefined,
): readonly Place[] {
  const farthest = length / 2 - (places[0] ?? 0);
  return places.map((at) => {
    if (most === undefined) return { at };
    if (moves === 'square') return { at, need: most };
    const share = farthest > 0 ? Math.abs(at - length / 2) / farthest : 0;
    return { at, need: most * share };
  });
}

/** The rails on which the workbook says where fasteners go. */
export function railsOf(book: Named): readonly Rail[] {
  const spacing = numberOf(book, 'fastener_spacing');
  const end = numberOf(book, 'fastener_end');
  if (spacing === undefined || end === undefined) return [];
  return RAILS.flatMap(({ says, moves, ...names }) => {
    const length = numberOf(book, names.length);
    if (length === undefined) return [];
    const places = fastenerPlaces(length, spacing, end);
    if (places.length === 0) return [];
    const kind = wordsIn(book, names.kind);
    const points = pointsOf(wordsIn(book, names.points));
    return [
      {
        says,
        moves,
        length,
        ...(kind === undefined ? {} : { kind }),
        ...(points === undefined ? {} : { points }),
        places: placesWithNeeds(places, length, moves, numberOf(book, names.need)),
      },
    ];
  });
}

/** How many fasteners of each kind hold the top; nothing of rails that do not say which kind stands there. */
export function fastenersByKind(book: Named): ReadonlyMap<string, number> {
  const kinds = new Map<string, number>();
  const [spacing, end] = [numberOf(book, 'fastener_spacing'), numberOf(book, 'fastener_end')];
  for (const names of RAILS) {
    const [length, kind] = [numberOf(book, names.length), wordsIn(book, names.kind)];
    if (spacing === undefined || end === undefined || length === undefined || !kind) continue;
    // Each rail is there twice.
    const count = 2 * fastenerPlaces(length, spacing, end).length;
    kinds.set(kind, (kinds.get(kind) ?? 0) + count);
  }
  return kinds;
}
