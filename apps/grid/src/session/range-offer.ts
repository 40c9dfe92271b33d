import {
  type At,
  columnName,
  type Edit,
  type OpenWorkbook,
  readWritten,
  typedTokens,
} from '@kerfbook/workbook';
import { wordsFor } from './called.ts';

/** A range that ends right above what was just typed, and the edit that takes it in (G39). */
interface RangeOffer {
  readonly says: string;
  readonly edit: Edit;
}

/** Offers to take a cell typed right under a range into it; undefined where no range ends there. */
export function rangeOffer(book: OpenWorkbook, at: At): RangeOffer | undefined {
  const above = { ...at, row: at.row - 1 };
  if (at.row === 0 || book.value(at).kind !== 'number') return undefined;
  if (book.value(above).kind !== 'number') return undefined;
  for (const user of book.usedBy(above)) {
    // A running total takes its own range along from line to line.
    if (user.at.sheet !== at.sheet || user.at.row === above.row) continue;
    const { formula } = book.cell(user.at);
    const range = formula === undefined ? undefined : rangeEndingAt(formula, above);
    if (formula === undefined || range === undefined) continue;
    const longer = range.text.replace(/\d+$/, String(at.row + 1));
    const text = formula.slice(0, range.start) + longer + formula.slice(range.end);
    const { sheet, row, column } = user.at;
    return {
      says: `${wordsFor(user.at, book) ?? user.label} uses ${range.text}. Include ${columnName(at.column)}${at.row + 1} too?`,
      edit: { do: 'enter', sheet, cells: [{ row, column, text }] },
    };
  }
  return undefined;
}

function rangeEndingAt(formula: string, { row, column }: At) {
  return typedTokens(formula).find(({ kind, text }) => {
    if (kind !== 'reference') return false;
    const { sheet, from, to } = readWritten(text) ?? {};
    return (
      sheet === undefined &&
      to?.row === row &&
      to.column === column &&
      from?.column === column &&
      from.row !== undefined &&
      from.row < row
    );
  });
}
