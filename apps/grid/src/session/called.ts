import type { At, OpenWorkbook } from '@kerfbook/workbook';

/** The words that a cell goes by on its sheet: those beside it, or of its row and column; none where none stand there. */
export function wordsFor(at: At, book: Pick<OpenWorkbook, 'labelOf'>): string | undefined {
  const label = book.labelOf(at);
  // Without words it is called by its address, which no label has the form of.
  return /![A-Z]+\d+$/.test(label) ? undefined : label;
}

/** What a cell is called aloud: by its words, else its name, else its address. */
export function called(at: At, book: Pick<OpenWorkbook, 'labelOf' | 'cell'>): string {
  const { name, address } = book.cell(at);
  return wordsFor(at, book) ?? name ?? address;
}
