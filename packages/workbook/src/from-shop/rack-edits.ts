import type { Edit } from '@kerfbook/document';
import type { OpenWorkbook } from '../api.ts';
import { shopTableEdit } from '../book/shop-tables.ts';
import { rackKeyOf, readShop } from './shop-reading.ts';
import { rowsAdded } from './take-figures.ts';

/** Boards alike that come to the rack or are taken from it; mm. */
export interface RackBoards {
  /** What it is called. */
  readonly name: string;
  /** Its wood, as the stock says it. */
  readonly material: string;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0. */
  readonly width: number;
  /** Over 0. */
  readonly length: number;
  /** How many alike. */
  readonly count: number;
}

/** The edit that begins a stock table for the rack; nothing where there is one. */
export const beginRack = (book: OpenWorkbook): Edit | undefined => shopTableEdit(book, 'stock');

/**
 * The edit that puts boards on the rack of a workbook and takes those off that were cut up: a board like one that lies
 * there is counted with it, any other is a row more. Boards that the rack does not know are not taken off.
 */
export function rackEdit(
  book: OpenWorkbook,
  { comes, goes }: { readonly comes: readonly RackBoards[]; readonly goes: readonly RackBoards[] },
): Edit {
  const { rows } = readShop(book);
  const counts = new Map<string, number>();
  const news: RackBoards[] = [];
  const count = (board: RackBoards, by: number): void => {
    const key = rackKeyOf(written(board, book.units));
    const cell = rows.get(key)?.cells.get('at hand');
    if (cell?.value.kind !== 'number') {
      if (by > 0) news.push(board);
      return;
    }
    counts.set(key, Math.max(0, (counts.get(key) ?? cell.value.number) + by));
  };
  for (const board of goes) count(board, -board.count);
  for (const board of comes) count(board, board.count);
  const edits = [...counts].flatMap(([key, many]): readonly Edit[] => {
    const at = rows.get(key)?.cells.get('at hand')?.at;
    if (at === undefined) return [];
    const { sheet, row, column } = at;
    return [{ do: 'enter', sheet, cells: [{ row, column, text: String(many) }] }];
  });
  const adds = news.map((board) => ({ list: 'rack' as const, texts: textsOf(board, book.units) }));
  return { do: 'batch', edits: [...edits, ...rowsAdded(book, adds)] };
}

const SIZES = ['thickness', 'width', 'length'] as const;

/** Down to a sixteenth of an inch or a millimeter: a board is never said to be longer than it is. */
function own(mm: number, units: OpenWorkbook['units']): number {
  return units === 'us' ? Math.floor((mm / 25.4) * 16 + 1e-6) / 16 : Math.floor(mm + 1e-6);
}

const written = (board: RackBoards, units: OpenWorkbook['units']): RackBoards => ({
  ...board,
  ...Object.fromEntries(
    SIZES.map((size) => [size, own(board[size], units) * (units === 'us' ? 25.4 : 1)]),
  ),
});

const textsOf = (
  board: RackBoards,
  units: OpenWorkbook['units'],
): readonly (readonly [string, string])[] => [
  ['stock', board.name],
  ['material', board.material],
  ...SIZES.map((size) => [size, String(own(board[size], units))] as const),
  ['price', '0'],
  ['at hand', String(board.count)],
];
