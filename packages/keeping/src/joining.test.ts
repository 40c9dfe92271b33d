import { describe, expect, it } from 'vitest';
import { exchangeOffer, joinOffer, joinsOf, keepJoin } from './joining.ts';
import { newBook } from './new-book.ts';
import {
  BENCH_TEMPLATE,
  change,
  lengthEdit,
  openPage,
  shows,
  TestStore,
} from './testing/sample.ts';

describe('sheets from another workbook', () => {
  it('come in the units of the one they come into, in one step that undo takes back', async () => {
    const page = await openPage(new TestStore());
    await newBook(page, 'List', 'metric');
    const { book } = page.current;
    const offer = await joinOffer(page, { template: BENCH_TEMPLATE.key }, book.document());
    if (!offer.ok) throw new Error(offer.says);
    expect([offer.sheets, offer.rows, offer.told]).toEqual([['Brief'], 0, []]);
    expect(book.sheets()).toHaveLength(1);
    expect(book.apply({ do: 'become', book: offer.document }).ok).toBe(true);
    // 40 in and twice that.
    expect([shows(page, 'bench_length'), shows(page, 'twice')]).toEqual(['1016', '2032']);
    book.undo();
    expect(book.sheets().map(({ name }) => name)).toEqual(['Sheet 1']);
  });

  it('of one of the maker’s own come as it stands, and say what follows what', async () => {
    const page = await openPage(new TestStore());
    change(page, lengthEdit('50'));
    const changed = page.current.id;
    await newBook(page, 'List', 'us');
    const { book } = page.current;
    for (const more of [1, 2]) {
      const offer = await joinOffer(page, { own: changed }, book.document());
      if (!offer.ok) throw new Error(offer.says);
      expect(offer.told.map(({ code }) => code)).toEqual(more === 1 ? [] : ['J1']);
      book.apply({ do: 'become', book: offer.document });
      expect(shows(page, 'twice')).toBe('100');
    }
    expect(book.sheets().map(({ name }) => name)).toEqual(['Sheet 1', 'Brief', 'Brief 2']);
  });

  it('of a workbook that is gone are refused in a sentence', async () => {
    const page = await openPage(new TestStore());
    expect(await joinOffer(page, { own: 'none' }, page.current.book.document())).toEqual({
      ok: false,
      says: 'That workbook is not on this device any more.',
    });
  });

  it('are known as long as something of them is there, and give way to others with what was typed', async () => {
    const page = await openPage(new TestStore());
    await newBook(page, 'List', 'us');
    const { book } = page.current;
    const before = book.document();
    const source = { template: BENCH_TEMPLATE.key };
    const offer = await joinOffer(page, source, before);
    if (!offer.ok) throw new Error(offer.says);
    expect(await joinsOf(page)).toEqual([]);
    book.apply({ do: 'become', book: offer.document });
    await keepJoin(page, 'Bench', { before, after: offer.document });
    change(page, lengthEdit('50', book.sheets()[1]?.id));
    const [came] = await joinsOf(page);
    if (came === undefined) throw new Error('nothing came in');
    expect([came.title, came.sheets]).toEqual(['Bench', ['Brief']]);
    const other = await exchangeOffer(page, source, came, book.document());
    if (!other.ok) throw new Error(other.says);
    expect([other.sheets, other.gone]).toEqual([['Brief'], ['Brief']]);
    expect(other.carried).toEqual([expect.stringContaining('50 in')]);
    book.apply({ do: 'become', book: other.document });
    await keepJoin(page, 'Bench again', other.step);
    expect(shows(page, 'twice')).toBe('100');
    expect((await joinsOf(page)).map(({ title }) => title)).toEqual(['Bench again']);
    book.undo();
    expect((await joinsOf(page)).map(({ title }) => title)).toEqual(['Bench']);
    book.undo();
    book.undo();
    expect(await joinsOf(page)).toEqual([]);
  });

  it('are not known from what is damaged on the device', async () => {
    const page = await openPage(new TestStore());
    const text = '{"kerfbook": 9}';
    const damaged = [7, null, { title: 'Bench' }, { title: 'Bench', before: text, after: text }];
    await page.store.set(`joins:${page.current.id}`, damaged);
    expect(await joinsOf(page)).toEqual([]);
  });
});
