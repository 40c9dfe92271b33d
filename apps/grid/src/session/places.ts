import type { At, OpenWorkbook, SheetView } from '@kerfbook/workbook';

/** One cell on in each direction. */
export const STEPS = {
  up: { rows: -1, columns: 0 },
  down: { rows: 1, columns: 0 },
  left: { rows: 0, columns: -1 },
  right: { rows: 0, columns: 1 },
} as const;

/** The sheets that a maker sees: those not hidden, and the one that is open. Where all are hidden, all of them. */
export function sheetsInSight(book: OpenWorkbook, open?: string): readonly SheetView[] {
  const sheets = book.sheets();
  const shown = sheets.filter(({ isHidden }) => !isHidden);
  if (shown.length === 0) return sheets;
  return sheets.filter(({ id, isHidden }) => !isHidden || id === open);
}

/**
 * The first input of a sheet: where a maker is likely to begin. Of a table the first cell of that row, which says what
 * it is of: an input further along would open the sheet pushed aside where it is narrow.
 */
export function firstCell(book: OpenWorkbook, wanted?: string): At {
  const sheet = (wanted === undefined ? undefined : book.sheet(wanted)) ?? sheetsInSight(book)[0];
  if (sheet === undefined) throw new Error('a workbook has at least one sheet');
  for (let row = 0; row < Math.min(sheet.rows, 60); row += 1) {
    for (let column = 0; column < Math.min(sheet.columns, 10); column += 1) {
      const at = { sheet: sheet.id, row, column };
      if (book.cell(at).role === 'input') return isInTable(book, at) ? { ...at, column: 0 } : at;
    }
  }
  return { sheet: sheet.id, row: 0, column: 0 };
}

const isInTable = (book: OpenWorkbook, { sheet, row }: At): boolean =>
  book.tables().some((one) => one.sheet === sheet && row > one.header && row <= one.last);

export const same = (a: At, b: At): boolean =>
  a.row === b.row && a.column === b.column && a.sheet === b.sheet;
