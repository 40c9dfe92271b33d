import type { CellView } from '@kerfbook/workbook';
import { columnWidth, NUMBERS_WIDTH, pinnedColumns } from './on-screen.ts';
import type { Session } from './session.ts';

/** Room for a letter and for a cell's edges, px; rather too much. */
const LETTER = 8.5;
const EDGES = 18;

/** Where words that are too long for their cell begin on the sheet, and the room they have, px. */
export interface Run {
  readonly from: number;
  readonly room: number;
  /** Whether they run over cells; else they are only long, and may go on beyond what can be seen. */
  readonly over: boolean;
}

/** From how many letters on words may go on beyond what can be seen of the grid. */
const LONG = 24;

/** Whether it is words that are broken over lines; a number never is. */
export const wraps = ({ style, value }: CellView): boolean =>
  style?.wrap === true && value.kind === 'text';

/**
 * Where long words stand and how much room they have: their cell and, as on paper, the empty cells to its right
 * where they are too long for it; undefined where they are short and fit.
 */
export function roomToRun(cell: CellView, { book }: Session): Run | undefined {
  if (cell.value.kind !== 'text' || (cell.style?.align ?? 'start') !== 'start') return undefined;
  if (wraps(cell)) return undefined;
  const { at } = cell;
  const sheet = book.sheet(at.sheet);
  const width = (column: number): number =>
    sheet?.hidden.includes(column) === true ? 0 : columnWidth(sheet, column);
  const letters = cell.shown.text.length;
  const needed = EDGES + letters * LETTER;
  let room = width(at.column);
  if (needed <= room && letters < LONG) return undefined;
  const columns = sheet?.columns ?? 0;
  let column = at.column + 1;
  // A pinned cell's words stay among those that are pinned.
  const pinned = pinnedColumns(sheet);
  const end = at.column < pinned ? pinned : Number.POSITIVE_INFINITY;
  for (; room < needed && column < end; column += 1) {
    const next = { ...at, column };
    if (column < columns) {
      if (book.value(next).kind !== 'empty') break;
      const { role, shown } = book.cell(next);
      if (role === 'input' || shown.text !== '') break;
    }
    room += width(column);
  }
  let from = NUMBERS_WIDTH;
  for (let before = 0; before < at.column; before += 1) from += width(before);
  return { from, room, over: column > at.column + 1 };
}
