import { type At, type CellView, columnName, type Edit } from '@kerfbook/workbook';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import { roomToRun, wraps } from '../session/running-over.ts';
import type { Session } from '../session/session.ts';
import { lookOf, measurer } from '../session/words-measure.ts';

/** The narrowest and the widest a column is made to fit, and the widest it may be set to, px. */
const NARROWEST = 36;
const WIDEST_FIT = 560;
export const WIDTHS = { least: 24, most: 1200 } as const;
/** A cell's padding and hairline, room for the sign of a check, the arrow of a list, and "≈ ", px. */
const EDGES = 18;
const SIGN = 18;
const ARROW = 18;
const ROUGHLY = 14;

/** Makes columns as wide as the widest of what they show, heads included; one step. */
export function fitColumns(session: Session, from: number, to: number): void {
  setWidths(session, from, to, (column) => fittingWidth(session, column));
}

/** Sets the width of columns that are there, px; one step, and none where nothing differs. */
export function setWidths(
  session: Session,
  from: number,
  to: number,
  widthOf: (column: number) => number,
): void {
  const { sheet } = session.at;
  const { columns = 0, widths = [], hidden = [] } = session.book.sheet(sheet) ?? {};
  const edits: Edit[] = [];
  for (let column = from; column <= Math.min(to, columns - 1); column += 1) {
    if (hidden.includes(column)) continue;
    const width = widthOf(column);
    if (width !== widths[column]) edits.push({ do: 'setColumn', sheet, column, width });
  }
  const [only, ...more] = edits;
  if (only !== undefined) session.apply(more.length === 0 ? only : { do: 'batch', edits });
}

function fittingWidth(session: Session, column: number): number {
  const { sheet } = session.at;
  const book = session.settled();
  const { rows = 0, hiddenRows = [], widths = [] } = book.sheet(sheet) ?? {};
  const now = widths[column] ?? USUAL_WIDTH;
  const away = new Set(hiddenRows);
  const measure = measurer();
  let widest = measure(columnName(column), 'plain') + EDGES;
  for (let row = 0; row < rows; row += 1) {
    if (away.has(row)) continue;
    const at: At = { sheet, row, column };
    const cell = book.cell(at);
    // A title or a remark that runs over empty cells needs no wider column.
    if (cell.shown.text === '' || (isAside(cell) && roomToRun(cell, session)?.over === true))
      continue;
    const width = (text: string): number => measure(text, lookOf(cell)) + roomBeside(cell);
    widest = Math.max(
      widest,
      wraps(cell) ? wrappedWidth(cell, now, width) : width(cell.shown.text),
    );
  }
  return Math.min(WIDEST_FIT, Math.max(NARROWEST, Math.ceil(widest)));
}

/** Wrapped words ask for no more than their column has, but for a word that would be broken. */
function wrappedWidth({ shown }: CellView, now: number, widthOf: (text: string) => number): number {
  const whole = Math.max(...shown.text.split('\n').map(widthOf));
  const longest = Math.max(...shown.text.split(/\s+/).map(widthOf));
  return Math.min(whole, Math.max(longest, now));
}

const isAside = ({ role }: CellView): boolean => role === 'heading' || role === 'note';

function roomBeside(cell: CellView): number {
  const sign = cell.mark !== undefined || cell.problem !== undefined || cell.value.kind === 'error';
  return (
    EDGES +
    (sign ? SIGN : 0) +
    (cell.allow?.list === undefined ? 0 : ARROW) +
    (cell.shown.exact === undefined ? 0 : ROUGHLY)
  );
}
