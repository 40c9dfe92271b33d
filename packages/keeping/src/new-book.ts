import { type BookDocument, saveText, shopTablesEdit, Workbook } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { type Done, notDone } from './bookcase-state.ts';
import { titleProblem } from './filing.ts';

/** A blank workbook of the maker's own, one sheet to begin with. */
export async function newBook(
  bookcase: Bookcase,
  name: string,
  units: 'us' | 'metric',
): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  return bookcase.add(saveText(blank(title, units)), title, { kind: 'own', from: '' });
}

/**
 * A workbook with a parts table and a stock table to fill in, and a sheet for numbers of its own.
 * @param kerf the width of the saw's cut as it is typed, `1/8` or `3.2 mm`: every plan needs it, and none
 *   may take it for nothing
 */
export async function newFurnitureBook(
  bookcase: Bookcase,
  name: string,
  units: 'us' | 'metric',
  kerf: string,
): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  const book = Workbook.open(blank(title, units));
  const tables = shopTablesEdit(book);
  if (tables !== undefined) book.apply(tables);
  const at = book.named('kerf')?.at;
  if (at === undefined) throw new Error('a stock table came without a cell for the kerf');
  const { sheet, row, column } = at;
  const entered = book.apply({ do: 'enter', sheet, cells: [{ row, column, text: kerf.trim() }] });
  if (!entered.ok) return notDone(entered.says);
  const { problem, value } = book.cell(at);
  if (problem !== undefined) return notDone(problem.says);
  if (value.kind !== 'number' || value.number <= 0) {
    return notDone(
      `The saw kerf is the width of the cut, such as ${units === 'us' ? '1/8' : '3.2'}: type what your blade takes away.`,
    );
  }
  // The tables come first: what is typed first is what the piece is made of.
  const first = book.sheets()[0];
  if (first !== undefined) {
    book.apply({ do: 'renameSheet', sheet: first.id, name: 'Numbers' });
    book.apply({ do: 'moveSheet', sheet: first.id, to: book.sheets().length - 1 });
  }
  return bookcase.add(saveText(book.document()), title, { kind: 'own', from: '' });
}

function blank(title: string, units: 'us' | 'metric'): BookDocument {
  const ids = (letter: string, count: number) =>
    Array.from({ length: count }, (_, i) => ({ id: `${letter}${i + 1}` }));
  return {
    kerfbook: 8,
    title,
    units,
    sheets: [{ id: 's1', name: 'Sheet 1', columns: ids('c', 6), rows: ids('r', 20) }],
    checks: [],
    tables: [],
  };
}
