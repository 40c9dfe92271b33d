import { describe, expect, it } from 'vitest';
import { newBook, newFurnitureBook } from './new-book.ts';
import { openPage, shows, TestStore } from './testing/sample.ts';

describe('a new workbook', () => {
  it('for furniture begins with its tables, the kerf as it was typed in its cell', async () => {
    for (const [units, typed, kerf] of [
      ['us', '1/8', '1/8'],
      ['us', '3.2 mm', '0.126'],
      ['metric', '3.2', '3.2'],
    ] as const) {
      const page = await openPage(new TestStore());
      const done = await newFurnitureBook(page, ' Stool ', units, typed);
      expect(done).toMatchObject({ ok: true });
      const { book } = page.current;
      expect([book.title, book.units]).toEqual(['Stool', units]);
      expect(book.sheets().map(({ name }) => name)).toEqual(['Parts', 'Stock', 'Numbers']);
      expect(book.tables().map(({ kind }) => kind)).toEqual(['parts', 'stock']);
      expect(shows(page, 'kerf').replace('≈ ', '')).toBe(kerf);
    }
  });

  it.each(['', '0', '-1/8', 'thin', '12 lb'])(
    'for furniture is not begun with a kerf of "%s"',
    async (kerf) => {
      const page = await openPage(new TestStore());
      const before = page.current.id;
      const done = await newFurnitureBook(page, 'Stool', 'us', kerf);
      expect(done.ok).toBe(false);
      expect(done.ok ? '' : done.says).not.toBe('');
      expect(page.current.id).toBe(before);
    },
  );

  it('that is blank has one sheet, and needs a name', async () => {
    const page = await openPage(new TestStore());
    expect((await newBook(page, '  ', 'us')).ok).toBe(false);
    expect(await newBook(page, 'List', 'metric')).toMatchObject({ ok: true });
    expect(page.current.book.sheets().map(({ name }) => name)).toEqual(['Sheet 1']);
  });
});
