import { describe, expect, it } from 'vitest';
import type { Bookcase } from './bookcase.ts';
import { deleteBook, importFile, listBooks, restoreBook } from './filing.ts';
import { fakeLocks } from './testing/locks.ts';
import {
  BENCH_TEXT,
  change,
  lengthEdit,
  openPage,
  saveAndOpen,
  shows,
  TestStore,
} from './testing/sample.ts';

/** One tab that opens workbooks anew never stands in its own way. */

const desk = () => {
  const store = new TestStore();
  const locks = fakeLocks();
  return { store, locks, page: () => openPage(store, { locks }) };
};

/** It writes, and what is written is kept. */
async function writes(page: Bookcase, length: string): Promise<void> {
  expect(page.current.access).toBe('write');
  change(page, lengthEdit(length));
  await page.fold();
  expect(page.state.value.save.kind).toBe('saved');
}

describe('one tab alone', () => {
  it('starts a template again twice, open or not, and goes on writing', async () => {
    const page = await desk().page();
    await writes(page, '50');
    expect(await page.startAgain('bench')).toEqual({ ok: true });
    await writes(page, '51');
    expect(await page.startAgain('bench')).toEqual({ ok: true });
    await writes(page, '52');
    await saveAndOpen(page, 'Mine');
    expect(await page.startAgain('bench')).toEqual({ ok: true });
    expect(page.current.id).toBe('template-bench');
    await writes(page, '53');
    await saveAndOpen(page, 'Mine too');
    await writes(page, '54');
    expect((await listBooks(page)).trash).toHaveLength(3);
  });

  it('starts again twice at once', async () => {
    const page = await desk().page();
    await writes(page, '50');
    const both = await Promise.all([page.startAgain('bench'), page.startAgain('bench')]);
    expect(both).toEqual([{ ok: true }, { ok: true }]);
    await writes(page, '51');
    expect((await listBooks(page)).trash).toHaveLength(1);
  });

  it('opens one workbook twice at once and writes it', async () => {
    const page = await desk().page();
    await saveAndOpen(page, 'Mine');
    const { id } = page.current;
    await page.open('template-bench');
    expect(await Promise.all([page.open(id), page.open(id)])).toEqual([{ ok: true }, { ok: true }]);
    await writes(page, '50');
    const there = await Promise.all([page.open('template-bench'), page.open(id)]);
    expect(there).toEqual([{ ok: true }, { ok: true }]);
    expect(page.current.id).toBe(id);
    await writes(page, '51');
  });

  it('takes a file twice, and writes each copy', async () => {
    const page = await desk().page();
    const file = { name: 'bench.json', size: 1, text: async () => BENCH_TEXT };
    const both = await Promise.all([importFile(page, file), importFile(page, file)]);
    expect(both).toEqual([{ ok: true }, { ok: true }]);
    const { own } = await listBooks(page);
    expect(own).toHaveLength(2);
    for (const { id } of own) {
      await page.open(id);
      await writes(page, '60');
    }
  });

  it('deletes what is open, puts it back and writes it', async () => {
    const page = await desk().page();
    await saveAndOpen(page, 'Mine');
    const { id } = page.current;
    for (const length of ['50', '51']) {
      expect(await deleteBook(page, id)).toEqual({ ok: true });
      expect(await restoreBook(page, id)).toEqual({ ok: true });
      expect(await page.open(id)).toEqual({ ok: true });
      await writes(page, length);
    }
  });

  it('that took a workbook over opens others and comes back', async () => {
    const { page: open } = desk();
    const first = await open();
    const second = await open();
    expect(second.current.access).toBe('read');
    await saveAndOpen(first, 'Mine');
    await expect.poll(() => second.state.value.canTakeOver).toBe(true);
    expect(await second.takeOver()).toEqual({ ok: true });
    await writes(second, '50');
    expect(await saveAndOpen(second, 'Mine too')).toEqual({ ok: true });
    await writes(second, '51');
    expect(await second.startAgain('bench')).toEqual({ ok: true });
    await writes(second, '52');
    // What it let go of can be written by the other tab.
    await saveAndOpen(second, 'Mine three');
    expect(await first.open('template-bench')).toEqual({ ok: true });
    expect(shows(first, 'bench_length')).toBe('52');
    await writes(first, '53');
  });
});

describe('two tabs', () => {
  it('never write one workbook both where taking it over failed at first', async () => {
    const { store, page: open } = desk();
    const [first, second, third] = [await open(), await open(), await open()];
    await writes(first, '50');
    await saveAndOpen(first, 'Mine');
    await expect.poll(() => second.state.value.canTakeOver).toBe(true);
    store.unreadable.add('template-bench');
    expect((await second.takeOver()).ok).toBe(false);
    store.unreadable.clear();
    expect(third.state.value.canTakeOver).toBe(false);
    expect(await second.takeOver()).toEqual({ ok: true });
    await writes(second, '51');
    expect(third.state.value.canTakeOver).toBe(false);
    await saveAndOpen(second, 'Mine too');
    await expect.poll(() => third.state.value.canTakeOver).toBe(true);
  });

  it('that can keep nothing share nothing: each writes what it has', async () => {
    const locks = fakeLocks();
    const openStore = () => Promise.reject(new DOMException('blocked', 'SecurityError'));
    const page = () => openPage(new TestStore(), { locks, openStore });
    const [first, second] = [await page(), await page()];
    expect([first.current.access, second.current.access]).toEqual(['write', 'write']);
    change(second, lengthEdit('50'));
    expect(second.state.value.save.kind).toBe('notSaved');
    expect(await second.startAgain('bench')).toEqual({ ok: true });
  });
});
