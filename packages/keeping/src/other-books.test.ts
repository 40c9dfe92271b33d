import { type BookDocument, saveText, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Bookcase } from './bookcase.ts';
import { deleteBook, listBooks } from './filing.ts';
import { otherBooksWith } from './other-books.ts';
import { BENCH, change, saveAndOpen, TestStore } from './testing/sample.ts';

const page = (store: TestStore): Promise<Bookcase> =>
  Bookcase.start({
    templates: [{ key: 'bench', title: 'Bench', about: '', text: async () => saveText(BENCH) }],
    openStore: async () => store,
    keeper: { idle: 60_000 },
  });

/** The edit that gives a workbook an hours table. */
function begun(document: BookDocument) {
  const edit = shopTableEdit(Workbook.open(document), 'hours');
  if (edit === undefined) throw new Error('it has one');
  return edit;
}

describe('other workbooks with a table', () => {
  it('are those that are kept, not at hand and not in the trash, also where only their log says so', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    const found = async () =>
      (await otherBooksWith(bookcase, 'hours')).books.map(({ title }) => title).sort();
    await saveAndOpen(bookcase, 'Table');
    await saveAndOpen(bookcase, 'Desk');
    change(bookcase, begun(bookcase.current.book.document()));
    await saveAndOpen(bookcase, 'Shelf');
    expect(await found()).toEqual(['Desk']);
    // The one at hand came of the desk and has its table: it is not among the others.
    await saveAndOpen(bookcase, 'Chest');
    expect(await found()).toEqual(['Desk', 'Shelf']);
    const id = (await listBooks(bookcase)).own.find(({ title }) => title === 'Desk')?.id ?? '';
    await deleteBook(bookcase, id);
    expect(await found()).toEqual(['Shelf']);
  });

  it('are counted where they cannot be read', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    await saveAndOpen(bookcase, 'Desk');
    change(bookcase, begun(bookcase.current.book.document()));
    const { id } = bookcase.current;
    await saveAndOpen(bookcase, 'Shelf');
    const kept = await store.read(id);
    if (kept === undefined) throw new Error('it is not kept');
    await store.put({ ...kept.record, text: '{ "kind": "hours", torn' });
    expect(await otherBooksWith(bookcase, 'hours')).toEqual({ books: [], unread: 1 });
  });
});
