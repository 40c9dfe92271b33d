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

/** The first input of a sheet: where a maker is likely to begin. */
export function firstCell(book: OpenWorkbook, wanted?: string): At {
  const sheet = (wanted === undefined ? undefined : book.sheet(wanted)) ?? sheetsInSight(book)[0];
  if (sheet === undefined) throw new Error('a workbook has at least one sheet');
  for (let row = 0; row < Math.min(sheet.rows, 60); row += 1) {
    for (let column = 0; column < Math.min(sheet.columns, 10); column += 1) {
      const at = { sheet: sheet.id, row, column };
      if (book.cell(at).role === 'input') return at;
    }
  }
  return { sheet: sheet.id, row: 0, column: 0 };
}

export const same = (a: At, b: At): boolean =>
  a.row === b.row && a.column === b.column && a.sheet === b.sheet;
