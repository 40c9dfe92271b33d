import { type BookSketch, documentOf } from '@kerfbook/document/testing';
import type { MakeEngine } from '../port.ts';
import { Workbook } from '../workbook.ts';

/** An open workbook whose new ids count up, so that a test reads the same every time. */
export function bookOf(sketch: BookSketch, engine?: MakeEngine): Workbook {
  let next = 0;
  return Workbook.open(documentOf(sketch), {
    makeId: (kind) => {
      next += 1;
      return `${kind}new${next}`;
    },
    ...(engine === undefined ? {} : { engine }),
  });
}

/** Begins an edit made of several and fails the test when it is refused. */
export function beginLong(book: Workbook) {
  const long = book.beginLong();
  if (!long.ok) throw new Error(long.says);
  return long;
}

/** Begins an edit that is tried and fails the test when it is refused. */
export function beginTrial(book: Workbook) {
  const trial = book.beginTrial();
  if (!trial.ok) throw new Error(trial.says);
  return trial;
}

/** What the cell at an address shows: `'A1'` on the first sheet, `'Cuts!B2'` elsewhere. */
export function shows(book: Workbook, address: string): string {
  return book.cell(place(book, address)).shown.text;
}

export function place(book: Workbook, address: string) {
  const at = book.find(address, book.sheets()[0]?.id);
  if (at === undefined) throw new Error(`no such place: ${address}`);
  return at;
}

/** Types into one cell as a maker does and fails the test when the edit is refused. */
export function type(book: Workbook, address: string, text: string) {
  const { sheet, row, column } = place(book, address);
  const result = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!result.ok) throw new Error(result.says);
  return result;
}
