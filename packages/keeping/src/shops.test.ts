import { type Edit, loadText, saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Bookcase } from './bookcase.ts';
import { deleteBook, destroyBook, listBooks, restoreBook } from './filing.ts';
import { changeShops, leaveAsIs, leftAsIs, makeShops, shopsBook } from './shops.ts';
import { workingCopyId } from './templates.ts';
import { BENCH, change, lengthEdit, saveAndOpen, TestStore } from './testing/sample.ts';

const page = (store: TestStore): Promise<Bookcase> =>
  Bookcase.start({
    templates: [{ key: 'bench', title: 'Bench', about: '', text: async () => saveText(BENCH) }],
    openStore: async () => store,
    keeper: { idle: 60_000 },
  });

/** What is the shop's now: its title and what its length is. */
async function told(bookcase: Bookcase): Promise<unknown> {
  const shop = await shopsBook(bookcase);
  if (shop === undefined || 'says' in shop) return shop;
  return [shop.title, shop.document.sheets[0]?.rows[0]?.cells?.c2?.value];
}

const idOf = async (bookcase: Bookcase, title: string): Promise<string> =>
  (await listBooks(bookcase)).own.find((head) => head.title === title)?.id ?? '';

describe('the workbook of the shop', () => {
  it('is one of the maker’s own, one at a time, and read as it stands', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    expect(await told(bookcase)).toBeUndefined();
    await saveAndOpen(bookcase, 'My shop');
    const first = bookcase.current.id;
    expect(await makeShops(bookcase, first)).toEqual({ ok: true });
    change(bookcase, lengthEdit('50'));
    expect(await told(bookcase)).toEqual(['My shop', 50]);
    await saveAndOpen(bookcase, 'Another');
    // Its last change lies in the log alone.
    expect(await told(bookcase)).toEqual(['My shop', 50]);
    expect((await listBooks(bookcase)).shops).toBe(first);
    await makeShops(bookcase, bookcase.current.id);
    expect(await told(bookcase)).toEqual(['Another', 50]);
    expect(await store.keys('shop:')).toHaveLength(1);
    await makeShops(bookcase, undefined);
    expect(await told(bookcase)).toBeUndefined();
  });

  it('is none while it lies in the trash, and for good once it is deleted', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    await saveAndOpen(bookcase, 'My shop');
    const id = await idOf(bookcase, 'My shop');
    await makeShops(bookcase, id);
    await deleteBook(bookcase, id);
    expect(await told(bookcase)).toBeUndefined();
    expect((await listBooks(bookcase)).shops).toBeUndefined();
    await restoreBook(bookcase, id);
    expect(await told(bookcase)).toEqual(['My shop', 40]);
    await deleteBook(bookcase, id);
    await destroyBook(bookcase, id);
    expect(await store.keys('shop:')).toEqual([]);
  });

  it('is no template as it ships; a changed copy is, and stays it when the template is begun anew', async () => {
    const bookcase = await page(new TestStore());
    const { id } = bookcase.current;
    expect(await makeShops(bookcase, id)).toMatchObject({
      ok: false,
      says: expect.stringContaining('save it under a name of yours first'),
    });
    change(bookcase, lengthEdit('50'));
    expect(await makeShops(bookcase, id)).toEqual({ ok: true });
    await bookcase.startAgain('bench', 'kept');
    expect(await told(bookcase)).toEqual(['Bench', 50]);
  });

  it('says so where it cannot be read', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    await saveAndOpen(bookcase, 'My shop');
    const { id } = bookcase.current;
    await makeShops(bookcase, id);
    await bookcase.open(workingCopyId('bench'));
    const kept = await store.read(id);
    if (kept === undefined) throw new Error('nothing kept');
    await store.put({ ...kept.record, text: '{' });
    expect(await told(bookcase)).toEqual({ says: expect.stringContaining('cannot be read here') });
  });

  it('leaves in each workbook what its maker left', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    await leaveAsIs(bookcase, ['kerf 1/8 in']);
    expect([...(await leftAsIs(bookcase))]).toEqual(['kerf 1/8 in']);
    await saveAndOpen(bookcase, 'A job');
    expect([...(await leftAsIs(bookcase))]).toEqual([]);
  });

  it('is changed while it is not open, and changed back', async () => {
    const store = new TestStore();
    const bookcase = await page(store);
    const longer = (text: string) => () => lengthEdit(text);
    expect(await changeShops(bookcase, [longer('60')])).toMatchObject({ ok: false });
    await saveAndOpen(bookcase, 'My shop');
    await makeShops(bookcase, bookcase.current.id);
    // What is open is changed by who has it open.
    expect(await changeShops(bookcase, [longer('60')])).toMatchObject({ ok: false });
    await bookcase.open(workingCopyId('bench'));
    const changed = await changeShops(bookcase, [longer('60'), () => undefined, longer('70')]);
    if (!changed.ok) throw new Error(changed.says);
    expect(await told(bookcase)).toEqual(['My shop', 70]);
    await changeShops(
      bookcase,
      changed.back.map((edit) => () => edit),
    );
    expect(await told(bookcase)).toEqual(['My shop', 40]);
    // A refused edit leaves all of it as it was.
    const gone = (): Edit => ({ do: 'removeSheet', sheet: 'gone' });
    expect((await changeShops(bookcase, [longer('80'), gone])).ok).toBe(false);
    expect(await told(bookcase)).toEqual(['My shop', 40]);
  });

  it('hands on terms and letterhead with a template, and not the day a price was agreed on', async () => {
    const bookcase = await page(new TestStore());
    const set = {
      agreed: '2026-03-14',
      terms: 'Half now.',
      letterhead: { name: 'A made-up shop' },
    };
    change(bookcase, { do: 'setBook', set } satisfies Edit);
    await saveAndOpen(bookcase, 'Bench for a hall');
    const loaded = loadText(bookcase.textOfCurrent());
    if (!loaded.ok) throw new Error(loaded.says);
    expect(loaded.document).toMatchObject({ terms: set.terms, letterhead: set.letterhead });
    expect(loaded.document.agreed).toBeUndefined();
  });
});
