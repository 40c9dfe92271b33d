import { type BookDocument, loadText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import type { Bookcase } from './bookcase.ts';
import {
  deleteBook,
  destroyBook,
  duplicateBook,
  emptyTrash,
  fileCopy,
  freeTitle,
  importFile,
  listBooks,
  renameBook,
  restoreBook,
  saveAsOwn,
  startJob,
  tagBook,
  tagsOf,
} from './filing.ts';
import { isOwnTemplate, KEPT } from './records.ts';
import {
  BENCH,
  BENCH_TEMPLATE,
  BENCH_TEXT,
  change,
  lengthEdit,
  openPage,
  saveAndOpen,
  shows,
  TestStore,
} from './testing/sample.ts';

const DAY = 24 * 60 * 60 * 1000;

const applyIn = (bookcase: Bookcase) => (edit: Parameters<Bookcase['record']>[0]) => {
  const result = bookcase.current.book.apply(edit);
  if (result.ok) bookcase.record(result.edit);
  return result;
};

/** The template of a newer app. */
const betterTemplate = () => {
  const text = BENCH_TEXT.replace('"Twice"', '"Doubled"');
  return { ...BENCH_TEMPLATE, text: async () => text };
};

/** A template whose text does not arrive. */
const LOST = { ...BENCH_TEMPLATE, text: () => Promise.reject(new TypeError('no network')) };

const fileOf = (text: string, name = 'bench.kerfbook.json') => ({
  name,
  size: text.length,
  text: async () => text,
});

function documentOf(text: string | undefined): BookDocument {
  const loaded = loadText(text ?? '');
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

describe('a page that dies', () => {
  it('loses no edit that was made', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    change(page, lengthEdit('51'));
    const next = await openPage(store);
    expect(shows(next, 'twice')).toBe('102');
  });

  it('loses no undo either', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    const undone = page.current.book.undo();
    if (undone?.ok === true) page.record(undone.edit);
    expect(shows(await openPage(store), 'bench_length')).toBe('40');
  });

  it('keeps the log when it dies between the log and the fold', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    await page.fold();
    change(page, lengthEdit('51'));
    expect(shows(await openPage(store), 'bench_length')).toBe('51');
  });

  it('says so when an edit cannot be put back, and keeps it aside', async () => {
    const store = new TestStore();
    await openPage(store);
    const id = 'template-bench';
    await store.append([
      { book: id, seq: 1, edit: lengthEdit('50'), at: 5 },
      { book: id, seq: 2, edit: { do: 'removeSheet', sheet: 'gone' }, at: 6 },
    ]);
    const page = await openPage(store, { now: () => 1_000 });
    expect(shows(page, 'bench_length')).toBe('50');
    expect(page.state.value.notices[0]?.says).toContain('could not be put back');
    expect(await store.get(`aside:${id}:1000`)).toEqual([
      { kept: KEPT, edit: { do: 'removeSheet', sheet: 'gone' }, at: 6 },
    ]);
  });
});

describe('opening', () => {
  it('opens what was open last', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    await saveAndOpen(page, 'Long bench');
    expect((await openPage(store)).current.book.title).toBe('Long bench');
  });

  it('opens what was seen last, also where the page dies in the moment in which it is seen', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    const next: Promise<Bookcase>[] = [];
    page.state.watch(() => {
      if (page.current.book.title === 'Long bench') next.push(openPage(store));
    });
    await saveAndOpen(page, 'Long bench');
    expect((await next[0])?.current.book.title).toBe('Long bench');
  });

  it('shows a better template to a maker who changed nothing', async () => {
    const store = new TestStore();
    await openPage(store);
    const better = betterTemplate();
    const page = await openPage(store, { templates: [better] });
    expect(page.current.book.cell({ sheet: 's1', row: 1, column: 0 }).shown.text).toBe('Doubled');
  });

  it('opens a copy nothing was changed in as it is kept, where the template does not arrive', async () => {
    const store = new TestStore();
    await openPage(store);
    const page = await openPage(store, { templates: [LOST] });
    expect(shows(page, 'bench_length')).toBe('40');
    expect((await store.list()).length).toBe(1);
  });

  it('starts again only when the template is there, and closes nothing before', async () => {
    const store = new TestStore();
    change(await openPage(store), lengthEdit('50'));
    const page = await openPage(store, { templates: [LOST] });
    expect(await page.startAgain('bench')).toMatchObject({ ok: false });
    change(page, lengthEdit('51'));
    expect(shows(await openPage(store), 'bench_length')).toBe('51');
    expect((await store.list()).filter(({ deleted }) => deleted !== undefined)).toEqual([]);
  });

  it('leaves a changed copy alone when the template gets better', async () => {
    const store = new TestStore();
    change(await openPage(store), lengthEdit('50'));
    const better = betterTemplate();
    const page = await openPage(store, { templates: [better] });
    expect(page.current.book.cell({ sheet: 's1', row: 1, column: 0 }).shown.text).toBe('Twice');
    expect(shows(page, 'bench_length')).toBe('50');
  });

  it('opens the template and keeps what a newer app wrote', async () => {
    const store = new TestStore();
    const text = '{"kerfbook": 9}';
    await store.put({
      id: 'b1',
      title: 'From tomorrow',
      origin: { kind: 'own', from: 'Bench' },
      created: 1,
      updated: 1,
      revision: 0,
      text,
    });
    await store.set('lastOpened', 'b1');
    const page = await openPage(store);
    expect(page.current.book.title).toBe('Bench');
    expect(page.state.value.notices[0]?.says).toContain('newer Kerfbook');
    expect((await fileCopy(page, 'b1'))?.text).toBe(text);
  });

  it('goes on without storage and says that nothing is saved', async () => {
    const page = await openPage(new TestStore(), {
      openStore: () => Promise.reject(new DOMException('no', 'SecurityError')),
    });
    change(page, lengthEdit('50'));
    await Promise.resolve();
    await Promise.resolve();
    expect(page.state.value.save.kind).toBe('notSaved');
    expect(page.state.value.notices[0]?.says).toMatch(
      /blocks site data.*nothing you do here is kept.*Allow site data.*as a file/,
    );
  });
});

describe("a maker's own workbooks", () => {
  it('are saved under a name, with where they come from', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    expect(await saveAndOpen(page, '  Long bench ')).toEqual({ ok: true });
    expect(page.current.origin).toEqual({ kind: 'own', from: 'Bench' });
    expect(page.current.book.document()).toMatchObject({
      title: 'Long bench',
      lineage: { template: 'Bench', revision: 1 },
    });
    expect(shows(page, 'twice')).toBe('100');
  });

  it('are kept beside the one at hand, in which one goes on with its undo', async () => {
    const page = await openPage(new TestStore());
    change(page, lengthEdit('50'));
    const { id, book } = page.current;
    const done = await saveAsOwn(page, 'Long bench');
    expect(page.current).toMatchObject({ id, book });
    expect(book.canUndo).toBe(true);
    expect((await listBooks(page)).own.map(({ title }) => title)).toContain('Long bench');
    expect(done.ok && (await page.open(done.id)).ok).toBe(true);
    expect(shows(page, 'bench_length')).toBe('50');
  });

  it('D5 are for the next job: whom the last one was for does not come along', async () => {
    const page = await openPage(new TestStore());
    const job = { customer: 'A made-up family', job: '26-014', due: '2026-03-14', revision: 'B' };
    change(page, { do: 'setBook', set: { ...job, terms: 'Half now, half on delivery.' } });
    await saveAndOpen(page, 'Long bench');
    const document = page.current.book.document();
    for (const key of Object.keys(job)) expect(document).not.toHaveProperty(key);
    expect(document.terms).toBe('Half now, half on delivery.');
  });

  it('that are templates begin a job as a copy, and stay as they are for the next one', async () => {
    const page = await openPage(new TestStore());
    await saveAndOpen(page, 'Long bench');
    const template = page.current;
    change(page, lengthEdit('60'));
    change(page, { do: 'setBook', set: { customer: 'A made-up family' } });
    expect(isOwnTemplate(template.origin)).toBe(true);
    expect(await startJob(page, template.id, ' Bench for the hall ')).toEqual({ ok: true });
    expect(page.current.id).not.toBe(template.id);
    expect(page.current.origin).toEqual({ kind: 'own', from: 'Long bench', job: true });
    expect(isOwnTemplate(page.current.origin)).toBe(false);
    const document = page.current.book.document();
    expect(document).toMatchObject({
      title: 'Bench for the hall',
      lineage: { template: 'Long bench', revision: 2 },
    });
    expect(document).not.toHaveProperty('customer');
    change(page, lengthEdit('75'));
    await page.open(template.id);
    expect(shows(page, 'bench_length')).toBe('60');
    expect(await startJob(page, template.id, '  ')).toMatchObject({ ok: false });
    expect(await startJob(page, 'no such', 'Stool')).toMatchObject({ ok: false });
  });

  it('that were taken out of an earlier version, or begun blank, are no templates', () => {
    expect(isOwnTemplate({ kind: 'own', from: '' })).toBe(false);
    expect(isOwnTemplate({ kind: 'template', template: 'bench' })).toBe(false);
    expect(isOwnTemplate({ kind: 'own', from: 'Bench' })).toBe(true);
  });

  it('get a title that is free', () => {
    expect(freeTitle('My workbook', [])).toBe('My workbook');
    expect(freeTitle('My workbook', ['my workbook ', 'My workbook 3'])).toBe('My workbook 2');
    expect(freeTitle('My workbook', ['My workbook', 'My workbook 2'])).toBe('My workbook 3');
  });

  it('are told of as the one at hand for as long as they are', async () => {
    const page = await openPage(new TestStore());
    await saveAndOpen(page, 'Long bench');
    const { id } = page.current;
    page.notice('You are in your template.', 'at hand');
    page.notice('The device is full.');
    const says = () => page.state.value.notices.map((notice) => notice.says);
    await page.open(id);
    expect(says()).toEqual(['You are in your template.', 'The device is full.']);
    await page.open('template-bench');
    expect(says()).toEqual(['The device is full.']);
    await page.open(id);
    expect(says()).toEqual(['The device is full.']);
  });

  it('need a name', async () => {
    const page = await openPage(new TestStore());
    expect(await saveAndOpen(page, '  ')).toMatchObject({ ok: false });
    expect(page.current.book.title).toBe('Bench');
  });

  it('leave the working copy as it was', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    await saveAndOpen(page, 'Long bench');
    change(page, lengthEdit('60'));
    await page.open('template-bench');
    expect(shows(page, 'bench_length')).toBe('50');
  });

  it('are renamed, open or not', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    await saveAndOpen(page, 'Long bench');
    const { id } = page.current;
    await renameBook(page, id, 'Longer bench', applyIn(page));
    expect(page.current.book.title).toBe('Longer bench');
    await page.open('template-bench');
    await renameBook(page, id, 'Longest bench', applyIn(page));
    expect((await listBooks(page)).own.map(({ title }) => title)).toEqual(['Longest bench']);
    await page.open(id);
    expect(page.current.book.title).toBe('Longest bench');
  });

  it('are found by words of their own, which are an edit: undone where open, in the log where not', async () => {
    const page = await openPage(new TestStore());
    await saveAndOpen(page, 'Long bench');
    const { id } = page.current;
    expect(await tagBook(page, id, tagsOf('hall,  white  oak, Hall,'), applyIn(page))).toEqual({
      ok: true,
    });
    expect(page.current.book.head.tags).toEqual(['hall', 'white oak']);
    page.current.book.undo();
    expect(page.current.book.head.tags).toBeUndefined();
    await page.open('template-bench');
    await tagBook(page, id, ['club'], applyIn(page));
    await page.open(id);
    expect(page.current.book.head.tags).toEqual(['club']);
    expect(await tagBook(page, id, ['x'.repeat(31)], applyIn(page))).toMatchObject({
      ok: false,
      says: expect.stringContaining('at most 30 characters'),
    });
    const many = Array.from({ length: 13 }, (_, i) => `tag ${i}`);
    expect(await tagBook(page, id, many, applyIn(page))).toMatchObject({
      says: expect.stringContaining('at most 12 tags'),
    });
  });

  it('are duplicated beside the first, with changes that wait in the log, and nothing else is shown', async () => {
    const page = await openPage(new TestStore());
    await saveAndOpen(page, 'Long bench');
    const { id } = page.current;
    change(page, lengthEdit('70'));
    await page.open('template-bench');
    await renameBook(page, id, 'Longer bench', applyIn(page));
    expect(await duplicateBook(page, id, 'Longer bench 2')).toEqual({ ok: true });
    expect(page.current.id).toBe('template-bench');
    const { own } = await listBooks(page);
    expect(own.map(({ title }) => title).sort()).toEqual(['Longer bench', 'Longer bench 2']);
    const second = own.find(({ title }) => title === 'Longer bench 2');
    expect(isOwnTemplate(second?.origin ?? { kind: 'own', from: '' })).toBe(true);
    await page.open(second?.id ?? '');
    expect(page.current.book.title).toBe('Longer bench 2');
    expect(shows(page, 'bench_length')).toBe('70');
    expect(await duplicateBook(page, 'gone', 'Another')).toMatchObject({ ok: false });
  });

  it('go to the trash, come back, and go for good', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    await saveAndOpen(page, 'Long bench');
    const { id } = page.current;
    await deleteBook(page, id);
    expect(page.current.id).toBe('template-bench');
    expect((await listBooks(page)).own).toEqual([]);
    expect((await listBooks(page)).trash).toHaveLength(1);
    await restoreBook(page, id);
    expect((await page.open(id)).ok).toBe(true);
    await deleteBook(page, id);
    await destroyBook(page, id);
    expect((await listBooks(page)).trash).toEqual([]);
  });

  it('stay in the trash until they are deleted for good, whatever the clock says', async () => {
    const store = new TestStore();
    const page = await openPage(store, { now: () => 1_000_000 * DAY });
    await saveAndOpen(page, 'Long bench');
    await store.set(`ticks:${page.current.id}`, { leg: 1 });
    await deleteBook(page, page.current.id);
    for (const days of [1_000_032, 0, 1_000_000, 90_000_000, -1_000]) {
      const later = await openPage(store, { now: () => days * DAY });
      expect((await listBooks(later)).trash).toHaveLength(1);
    }
    expect(await emptyTrash(page)).toEqual({ ok: true });
    expect((await listBooks(page)).trash).toEqual([]);
    // Nothing of it stays: no versions, no ticks.
    expect((await store.keys('')).filter((key) => !/lastOpened|template-bench/.test(key))).toEqual(
      [],
    );
  });

  it('start again from the template, with the changed copy in the trash', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    await page.startAgain('bench');
    expect(shows(page, 'bench_length')).toBe('40');
    expect(page.state.value.save).toEqual({ kind: 'untouched' });
    const [old] = (await listBooks(page)).trash;
    await restoreBook(page, old?.id ?? '');
    await page.open(old?.id ?? '');
    expect(shows(page, 'bench_length')).toBe('50');
  });

  it('start anew from a template beside the changed copy, which stays a workbook of the maker', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    await page.fold();
    await store.set('ticks:template-bench', { leg: 1 });
    expect((await listBooks(page)).own.map(({ id }) => id)).toEqual(['template-bench']);
    expect(await page.startAgain('bench', 'kept')).toEqual({ ok: true });
    expect(page.current.id).toBe('template-bench');
    expect(shows(page, 'bench_length')).toBe('40');
    const { own, trash } = await listBooks(page);
    expect(trash).toEqual([]);
    expect(own).toHaveLength(1);
    const [old] = own;
    expect(old?.origin).toEqual({ kind: 'template', template: 'bench' });
    // What was ticked off goes with it, and the new one has nothing ticked.
    expect(await store.get(`ticks:${old?.id}`)).toEqual({ leg: 1 });
    expect(await store.get('ticks:template-bench')).toBeUndefined();
    expect(await page.open(old?.id ?? '')).toEqual({ ok: true });
    expect(shows(page, 'bench_length')).toBe('50');
    expect(await deleteBook(page, old?.id ?? '')).toEqual({ ok: true });
    expect((await listBooks(page)).own).toEqual([]);
  });

  it('say so when the device is full, and show what was open before', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    store.trouble = new DOMException('no room', 'QuotaExceededError');
    const done = await saveAndOpen(page, 'Long bench');
    expect(done).toMatchObject({ ok: false });
    expect(page.current.book.title).toBe('Bench');
  });
});

describe('files', () => {
  it('come back equal to what went out', async () => {
    const page = await openPage(new TestStore());
    change(page, lengthEdit('50'));
    const copy = await fileCopy(page, page.current.id);
    expect(copy?.fileName).toBe('bench.kerfbook.json');
    expect(await importFile(page, fileOf(copy?.text ?? ''))).toEqual({ ok: true });
    expect(page.current.origin).toEqual({ kind: 'file', file: 'bench.kerfbook.json' });
    expect(page.current.book.document()).toEqual(documentOf(copy?.text));
  });

  it('of a workbook that is not open hold its last edit', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    await saveAndOpen(page, 'Long bench');
    const copy = await fileCopy(page, 'template-bench');
    const cell = documentOf(copy?.text).sheets[0]?.rows[0]?.cells?.c2;
    expect(cell?.value).toBe(50);
  });

  it.each([
    ['broken', '{"kerfbook": 8, "title":', 'not readable JSON'],
    ['foreign', '{"name": "something else"}', 'not a Kerfbook workbook'],
    ['newer', JSON.stringify({ ...BENCH, kerfbook: 9 }), 'newer Kerfbook'],
    ['empty', '', 'not readable JSON'],
  ])('that are %s get one sentence and change nothing', async (_kind, text, words) => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    const done = await importFile(page, fileOf(text, 'mine.json'));
    expect(done).toMatchObject({ ok: false, says: expect.stringContaining(words) });
    expect(done).toHaveProperty('says', expect.stringMatching(/^mine\.json: /));
    expect(shows(page, 'bench_length')).toBe('50');
    // The maker's copy that was changed, and nothing beside it.
    expect((await listBooks(page)).own.map(({ id }) => id)).toEqual(['template-bench']);
  });

  it('that are too large are not read', async () => {
    const page = await openPage(new TestStore());
    const file = { ...fileOf(''), size: 161 * 1024 * 1024 };
    expect(await importFile(page, file)).toMatchObject({
      ok: false,
      says: expect.stringContaining('161 MB'),
    });
    const long = fileOf(JSON.stringify({ ...BENCH, about: 'x'.repeat(21 * 1024 * 1024) }));
    expect(await importFile(page, long)).toMatchObject({
      ok: false,
      says: expect.stringContaining('is 22 MB; a workbook is at most 20 MB'),
    });
  });

  it('are counted in letters, not in bytes, as the app counts what it keeps', async () => {
    const page = await openPage(new TestStore());
    const rows = Array.from({ length: 900 }, (_, row) => ({
      id: `r${row}`,
      cells: { c1: { value: 'Я'.repeat(8000) }, c2: { value: '板'.repeat(8000) } },
    }));
    const sheets = [{ id: 's1', name: 'Лист', columns: [{ id: 'c1' }, { id: 'c2' }], rows }];
    const text = JSON.stringify({ ...BENCH, sheets, checks: [], tables: [] });
    const bytes = new TextEncoder().encode(text).length;
    expect(bytes).toBeGreaterThan(30 * 1024 * 1024);
    expect(await importFile(page, { ...fileOf(text), size: bytes })).toEqual({ ok: true });
  });
});
