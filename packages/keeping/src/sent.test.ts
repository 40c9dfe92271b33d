import { describe, expect, it } from 'vitest';
import { addAllBooks, allBooksCopy, allBooksIn } from './all-books.ts';
import { besideUnder } from './book-store.ts';
import { deleteBook, destroyBook, listBooks, restoreBook } from './filing.ts';
import type { Locks } from './locks.ts';
import { MemoryStore } from './memory-store.ts';
import { keepSent, nextNumber, sentOf, takeSent } from './sent.ts';
import { signOf } from './sign.ts';
import { change, lengthEdit, openPage, saveAndOpen, TestStore } from './testing/sample.ts';

const quote = (says: string, more = {}) => ({
  kind: 'quote',
  day: '2026-03-14',
  page: (number: number) => `<p>Quote ${number}: ${says}</p>`,
  ...more,
});

describe('what was sent of a workbook', () => {
  it('is kept as it was, signed, under a number that rises over all workbooks', async () => {
    const store = new MemoryStore();
    const first = await keepSent(store, 'a', quote('bench'), { now: 5 });
    const second = await keepSent(store, 'b', quote('table'), { now: 6 });
    const third = await keepSent(store, 'a', quote('again', { kind: 'receipt', paid: 12.5 }), {
      now: 7,
    });
    expect([first, second, third].map(({ number }) => number)).toEqual([1, 2, 3]);
    expect(await sentOf(store, 'a')).toEqual([first, third]);
    expect(first).toEqual({
      number: 1,
      kind: 'quote',
      day: '2026-03-14',
      page: '<p>Quote 1: bench</p>',
      sign: signOf('<p>Quote 1: bench</p>'),
      at: 5,
    });
    expect(third.paid).toBe(12.5);
    expect(await nextNumber(store)).toBe(4);
  });

  it('has no number twice, however many are kept at once, in two tabs too', async () => {
    const store = new MemoryStore();
    let last: Promise<unknown> = Promise.resolve();
    // As a browser's locks: one at a time over all tabs.
    const locks: Locks = {
      request: (_name, _options, use) => {
        const mine = last.then(() => use({}));
        last = mine.catch(() => undefined);
        return mine;
      },
    };
    const sent = await Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        keepSent(store, `b${i % 3}`, quote(`${i}`), { now: i, locks }),
      ),
    );
    expect(sent.map(({ number }) => number).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 12 }, (_, i) => i + 1),
    );
  });

  it('takes no number when its page cannot be made, and none again when its workbook is gone', async () => {
    const store = new MemoryStore();
    const broken = {
      ...quote('x'),
      page: () => {
        throw new Error('none');
      },
    };
    await expect(keepSent(store, 'a', broken, { now: 1 })).rejects.toThrow('none');
    expect((await keepSent(store, 'a', quote('x'), { now: 1 })).number).toBe(1);
    await store.destroy('a');
    expect(await sentOf(store, 'a')).toEqual([]);
    expect((await keepSent(store, 'b', quote('y'), { now: 1 })).number).toBe(2);
  });

  it('goes where its workbook goes, and is not taken for what was sent once it was changed', async () => {
    const store = new MemoryStore();
    const sent = await keepSent(store, 'a', quote('x'), { now: 1 });
    await store.setAll(await besideUnder(store, 'a', 'c'));
    expect(await sentOf(store, 'a')).toEqual([]);
    expect(await sentOf(store, 'c')).toEqual([sent]);
    await store.set('sent:c:0000001', { ...sent, page: '<p>Quote 1: cheaper</p>' });
    expect(await sentOf(store, 'c')).toEqual([]);
  });

  it('is taken in as it was; what is here stays, and new numbers are higher', async () => {
    const store = new MemoryStore();
    const mine = await keepSent(store, 'a', quote('mine'), { now: 1 });
    const page = '<p>Quote 41: theirs</p>';
    const theirs = { ...mine, number: 41, page, sign: signOf(page) };
    const came = await takeSent(store, 'a', [
      theirs,
      { ...mine, page: 'other', sign: signOf('other') },
      { ...theirs, number: 42, sign: 'wrong' },
      { ...theirs, number: 1e9 },
      5,
      null,
    ]);
    expect(came).toBe(1);
    expect(await sentOf(store, 'a')).toEqual([mine, theirs]);
    expect((await keepSent(store, 'b', quote('next'), { now: 2 })).number).toBe(42);
  });

  it('survives the trash, and travels in the file of all workbooks', async () => {
    const old = await openPage(new TestStore());
    change(old, lengthEdit('45'));
    await saveAndOpen(old, 'Hall bench');
    const { id } = old.current;
    const sent = await keepSent(old.store, id, quote('hall'), { now: 1 });
    await deleteBook(old, id);
    await restoreBook(old, id);
    expect(await sentOf(old.store, id)).toEqual([sent]);
    const { text } = await allBooksCopy(old);
    const here = await openPage(new TestStore());
    await addAllBooks(here, 'all.json', allBooksIn(text) ?? []);
    expect((await listBooks(here)).own.map(({ title }) => title)).toContain('Hall bench');
    expect(await sentOf(here.store, id)).toEqual([sent]);
    expect(await nextNumber(here.store)).toBe(2);
    // One that is there already gets what it lacks, and nothing twice.
    const later = await keepSent(old.store, id, quote('later'), { now: 2 });
    await addAllBooks(here, 'all.json', allBooksIn((await allBooksCopy(old)).text) ?? []);
    expect(await sentOf(here.store, id)).toEqual([sent, later]);
    await deleteBook(here, id);
    await destroyBook(here, id);
    expect(await sentOf(here.store, id)).toEqual([]);
  });
});
