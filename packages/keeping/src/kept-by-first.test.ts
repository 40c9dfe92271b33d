import { loadText, type OpenWorkbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import type { Bookcase } from './bookcase.ts';
import { deleteBook, listBooks, renameBook, restoreBook } from './filing.ts';
import { openKept } from './opening.ts';
import { type BookRecord, KEPT } from './records.ts';
import { setAside } from './rescue.ts';
import { allOf, fillFirst, type KeptStore, keptByFirst } from './testing/kept-by-first.ts';
import { change, full, openPage, TestStore } from './testing/sample.ts';
import { NEWER } from './trouble.ts';

/** What a browser holds of the first app opens in this one, and is not touched before that went well. */

const FIRST = keptByFirst();
const IDS = FIRST.books.map(({ id }) => id);

function idOf(title: string): string {
  const id = FIRST.books.find((record) => record.title === title)?.id;
  if (id === undefined) throw new Error(`nothing kept is called ${title}`);
  return id;
}

const SHELF = idOf('Shelf for the hall');
const ASIDE = idOf('Left aside');
const TRASH = idOf('Not wanted');
const TABLE = 'template-dining-table';

async function firstStore(kept?: KeptStore): Promise<TestStore> {
  const store = new TestStore();
  await fillFirst(store, kept);
  return store;
}

/** Opens a page on an empty workbook first, so that each test says itself what it opens. */
async function pageOn(store: TestStore): Promise<Bookcase> {
  await store.set('lastOpened', undefined);
  return openPage(store);
}

async function opened(store: TestStore, id: string): Promise<Bookcase> {
  const page = await pageOn(store);
  expect(await page.open(id)).toEqual({ ok: true });
  return page;
}

const shown = (book: OpenWorkbook, sheet: string, row: number, column: number): string =>
  book.cell({ sheet, row, column }).shown.text;

const keptOf = (all: KeptStore, id: string) => ({
  record: all.books.find((record) => record.id === id),
  log: all.log.filter(({ book }) => book === id),
});

describe('a store of the first app', () => {
  it('is what it says: records, a log by position, versions, ticks, trash, edits set aside', () => {
    const { books, log, values } = FIRST;
    expect(books.filter((record) => record.kept === undefined)).toHaveLength(4);
    expect(books.filter(({ deleted }) => deleted !== undefined)).toHaveLength(1);
    const edits = new Set(log.map(({ edit }) => edit.do));
    for (const one of ['setCells', 'insertRows', 'deleteRows', 'addSheet']) {
      expect([...edits]).toContain(one);
    }
    const kinds = new Set(values.map(([key]) => key.split(':')[0]));
    expect([...kinds].sort()).toEqual(['aside', 'lastOpened', 'ticks', 'version', 'versions']);
  });

  it('opens with all edits of its log, each where it was made', async () => {
    const { book } = (await opened(await firstStore(), SHELF)).current;
    expect(shown(book, 's1', 0, 1)).toBe('1200');
    expect(shown(book, 's1', 1, 0)).toBe('Depth');
    expect(book.named('depth')?.shown.text).toBe('300');
    // Two rows were put in above it.
    expect(shown(book, 's1', 3, 0)).toBe('Twice');
    expect(shown(book, 's1', 3, 1)).toBe('2400');
    expect(shown(book, 's1', 6, 1)).toBe('1800');
    // 24 in. of boards 5 in. wide.
    expect(shown(book, 's1', 4, 1)).toBe('5');
    expect(shown(book, 's1', 7, 1)).toBe('5');
    expect(shown(book, 's1', 9, 2)).toBe('');
    expect(book.sheet('s1')?.rows).toBe(21);
    const [, second] = book.sheets();
    expect(second?.name).toBe('Sheet 2');
    expect(shown(book, second?.id ?? '', 0, 0)).toBe('1200');
  });

  it('opens with how its cells look, from the text and from the log', async () => {
    const { book } = (await opened(await firstStore(), SHELF)).current;
    const look = (row: number, column: number) => book.cell({ sheet: 's1', row, column }).style;
    expect(look(0, 0)).toEqual({ bold: true, italic: true, background: 'clay' });
    expect(look(1, 0)).toEqual({ bold: true, italic: true });
    expect(look(1, 1)).toEqual({ background: 'clay' });
  });

  it('opens the changed copy of a template', async () => {
    const { book } = (await opened(await firstStore(), TABLE)).current;
    expect(book.named('top_length')?.shown.text).toBe('97');
    expect(book.named('top_width')?.shown.text).toBe('43');
  });

  it('tells once what is called otherwise now, also where nothing is in its log', async () => {
    const store = await firstStore({ ...FIRST, log: [] });
    const said = async () => {
      const result = await openKept(store, SHELF, true, Date.now());
      if (!result.ok) throw new Error(result.says);
      return result.opened.says;
    };
    expect(await said()).toContain('called the boards of a panel staves');
    expect(await said()).toBeUndefined();
  });

  it('opens what was open last, and goes on in it', async () => {
    const store = await firstStore();
    const page = await openPage(store);
    expect(page.current.id).toBe(ASIDE);
    change(page, { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 0, text: 'More' }] });
    const again = await openPage(store);
    expect(shown(again.current.book, 's1', 0, 0)).toBe('Kept');
    expect(shown(again.current.book, 's1', 1, 0)).toBe('More');
  });

  it('lists versions, the trash and edits set aside, and all of them can be had', async () => {
    const store = await firstStore();
    const page = await opened(store, SHELF);
    const named = (await page.versions.list()).find(({ name }) => name === 'As ordered');
    const text = await page.versions.text(named?.key ?? '');
    const loaded = loadText(text ?? '');
    expect(loaded.ok && loaded.document.title).toBe('Shelf for the hall');

    const { trash, beside } = await listBooks(page);
    expect(trash.map(({ id }) => id)).toEqual([TRASH]);
    expect(beside.get(ASIDE)?.aside).toHaveLength(1);
    const [aside] = await setAside(page, ASIDE);
    expect(aside?.edits.map(({ edit }) => edit.do)).toEqual(['describeCells']);
    expect(aside?.edits[0]?.at).toBeGreaterThan(0);

    expect(await restoreBook(page, TRASH)).toEqual({ ok: true });
    expect(await page.open(TRASH)).toEqual({ ok: true });
    expect(shown(page.current.book, 's1', 0, 0)).toBe('Nothing');
    expect(await store.get(`ticks:${TABLE}`)).toEqual(
      FIRST.values.find(([key]) => key === `ticks:${TABLE}`)?.[1],
    );
  });
});

describe('a workbook of the first app', () => {
  it('is written in the present version once it is open, its log folded in', async () => {
    const store = await firstStore();
    const page = await opened(store, SHELF);
    const kept = await store.read(SHELF);
    expect(kept?.record.kept).toBe(KEPT);
    expect(kept?.record.revision).toBe(25);
    expect(kept?.log).toEqual([]);
    expect(kept?.record.text).toBe(page.textOfCurrent());
    // Nothing was written of the others.
    const all = await allOf(store, IDS);
    for (const id of [ASIDE, TRASH, TABLE]) expect(keptOf(all, id)).toEqual(keptOf(FIRST, id));
  });

  it('stays as it was while a tab only reads it, or the device has no room', async () => {
    const store = await firstStore();
    const page = await pageOn(store);
    const before = keptOf(await allOf(store, IDS), SHELF);
    store.trouble = full();
    expect(await page.open(SHELF)).toEqual({ ok: true });
    expect(shown(page.current.book, 's1', 6, 1)).toBe('1800');
    expect(keptOf(await allOf(store, IDS), SHELF)).toEqual(before);
    expect(before).toEqual(keptOf(FIRST, SHELF));
  });

  it('loses nothing where it was opened without room and then changed', async () => {
    const store = await firstStore();
    const page = await pageOn(store);
    store.fails = (_, what) => what === 'put';
    await page.open(SHELF);
    store.fails = undefined;
    change(page, { do: 'enter', sheet: 's1', cells: [{ row: 11, column: 0, text: '6' }] });
    const at = { sheet: 's1', row: 11, column: 0 };
    // A name that the step from the first version would change: here its maker chose it today.
    change(page, { do: 'nameCell', at, name: 'widest_stave' });
    // Entries of both versions stand in one log.
    const log = (await store.read(SHELF))?.log ?? [];
    expect(log.map(({ kept }) => kept)).toEqual([...Array(16).fill(undefined), KEPT, KEPT]);
    const { book } = (await opened(store, SHELF)).current;
    expect(shown(book, 's1', 6, 1)).toBe('1800');
    expect(book.named('widest_stave')?.shown.text).toBe('6');
    expect(book.cell({ sheet: 's1', row: 7, column: 1 }).entry).toBe('=PANEL_BOARDS(24,5)');
  });

  it('stays as it was where it cannot be opened', async () => {
    const books = FIRST.books.map((record) =>
      record.id === SHELF ? { ...record, text: record.text.slice(0, 500) } : record,
    );
    const store = await firstStore({ ...FIRST, books });
    const page = await pageOn(store);
    const done = await page.open(SHELF);
    expect(done.ok).toBe(false);
    const kept = await store.read(SHELF);
    expect(kept).toEqual({
      record: books.find(({ id }) => id === SHELF),
      log: FIRST.log.filter(({ book }) => book === SHELF),
    });
  });

  it('is renamed in the list without being opened, and opens with its log', async () => {
    const store = await firstStore();
    const page = await pageOn(store);
    expect(await renameBook(page, SHELF, 'Oak shelf', page.current.book.apply)).toEqual({
      ok: true,
    });
    expect((await store.read(SHELF))?.log.at(-1)?.kept).toBe(KEPT);
    const { book } = (await opened(store, SHELF)).current;
    expect(book.title).toBe('Oak shelf');
    expect(shown(book, 's1', 6, 1)).toBe('1800');
  });
});

describe('what a newer app keeps', () => {
  const newer = (record: BookRecord): BookRecord =>
    record.id === SHELF ? { ...record, kept: KEPT + 1 } : record;

  it.each([
    ['record', { ...FIRST, books: FIRST.books.map(newer) }],
    [
      'entry of the log',
      { ...FIRST, log: FIRST.log.map((entry, i) => (i === 15 ? { ...entry, kept: 9 } : entry)) },
    ],
  ])('is refused in a sentence and left as it is: a %s', async (_, kept) => {
    const store = await firstStore(kept);
    const page = await pageOn(store);
    const before = await store.read(SHELF);
    const done = await page.open(SHELF);
    expect(done).toEqual({
      ok: false,
      says: `"Shelf for the hall" could not be opened. ${NEWER}`,
    });
    expect(await renameBook(page, SHELF, 'Oak shelf', page.current.book.apply)).toEqual({
      ok: false,
      says: NEWER,
    });
    expect(await store.read(SHELF)).toEqual(before);
    expect(await store.keys(`aside:${SHELF}:`)).toEqual([]);
    // It hides no other one.
    expect(await page.open(ASIDE)).toEqual({ ok: true });
    expect((await listBooks(page)).own.map(({ id }) => id)).toContain(SHELF);
  });

  it('can still be thrown away by its maker', async () => {
    const store = await firstStore({ ...FIRST, books: FIRST.books.map(newer) });
    const page = await pageOn(store);
    expect(await deleteBook(page, SHELF)).toEqual({ ok: true });
    expect((await store.read(SHELF))?.record.kept).toBe(KEPT + 1);
  });
});

describe('what is written', () => {
  it('bears its version: records that are begun, and every entry', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text: '50' }] });
    const before = await store.read(page.current.id);
    expect(before?.record.kept).toBe(KEPT);
    expect(before?.log.map(({ kept }) => kept)).toEqual([KEPT]);
    await page.add(page.textOfCurrent(), 'Mine', { kind: 'own', from: '' });
    expect((await store.read(page.current.id))?.record.kept).toBe(KEPT);
  });

  it('bears it after a fold too, where the record was of the first app', async () => {
    const store = await firstStore();
    store.fails = (_, kind) => kind === 'put';
    const page = await opened(store, ASIDE);
    store.fails = undefined;
    change(page, { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 0, text: 'More' }] });
    expect((await store.read(ASIDE))?.record.kept).toBeUndefined();
    await page.fold();
    expect((await store.read(ASIDE))?.record.kept).toBe(KEPT);
  });
});
