import { type BookDocument, type Edit, loadText, saveText } from '@kerfbook/document';
import { expect } from 'vitest';
import { Workbook } from '../workbook.ts';

/** Ids as long as they may be: what is kept is never longer than with these. */
const longIds = (kind: string) => {
  let next = 0;
  return () => {
    next += 1;
    return `${kind}${String(next).padStart(11, '0')}`;
  };
};
const makers = { r: longIds('r'), c: longIds('c'), s: longIds('s'), k: longIds('k') };
export const openLong = (document: BookDocument): Workbook =>
  Workbook.open(document, { makeId: (kind) => makers[kind]() });

const valuesOf = (book: Workbook): string =>
  JSON.stringify(
    book
      .sheets()
      .map(({ id, rows, columns }) =>
        Array.from({ length: rows * columns }, (_, i) =>
          book.value({ sheet: id, row: Math.floor(i / columns), column: i % columns }),
        ),
      ),
  );

/** The law: refused with a sentence and nothing changed, or saved, loaded and opened the same. */
export function expectLaw(book: Workbook, edit: Edit): 'refused' | 'taken' {
  const [before, values] = [saveText(book.document()), valuesOf(book)];
  const result = book.apply(edit);
  if (!result.ok) {
    expect(result.says).toMatch(/^.{20,}\.$/su);
    // In a person's words, not the schema's.
    expect(result.says).not.toMatch(/expected|string|array|too big/i);
    expect(saveText(book.document())).toBe(before);
    expect(valuesOf(book)).toBe(values);
    return 'refused';
  }
  const text = saveText(book.document());
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(`${edit.do} was taken, and now: ${loaded.says}`);
  const again = Workbook.open(loaded.document);
  expect(valuesOf(again)).toBe(valuesOf(book));
  expect(saveText(again.document())).toBe(text);
  expect(book.undo()?.ok).toBe(true);
  expect(saveText(book.document())).toBe(before);
  expect(valuesOf(book)).toBe(values);
  expect(book.redo()?.ok).toBe(true);
  expect(saveText(book.document())).toBe(text);
  return 'taken';
}
