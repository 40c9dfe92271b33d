import { describe, expect, it } from 'vitest';
import { fileCopy, importFile, listBooks } from './filing.ts';
import { KEPT } from './records.ts';
import {
  BENCH_TEXT,
  change,
  full,
  lengthEdit,
  openPage,
  saveAndOpen,
  shows,
  TestStore,
} from './testing/sample.ts';

/** On a device without room everything can be read, and what is not kept says so. */

const settled = () => new Promise((done) => setTimeout(done));

describe('a full device', () => {
  it('opens the template on the first visit, and keeps the first edit once there is room', async () => {
    const store = new TestStore();
    store.trouble = full();
    const page = await openPage(store);
    expect(shows(page, 'bench_length')).toBe('40');
    change(page, lengthEdit('50'));
    await settled();
    expect(page.state.value.save).toMatchObject({ kind: 'notSaved' });
    change(page, lengthEdit('51'));
    await settled();
    store.trouble = undefined;
    await page.retry();
    expect(page.state.value.save).toMatchObject({ kind: 'saved' });
    change(page, lengthEdit('52'));
    await settled();
    expect(shows(await openPage(store), 'bench_length')).toBe('52');
  });

  it('opens a workbook whose log cannot be folded, and loses none of it', async () => {
    const store = new TestStore();
    change(await openPage(store), lengthEdit('50'));
    store.fails = (_, what) => what !== 'append';
    const page = await openPage(store);
    expect(shows(page, 'bench_length')).toBe('50');
    change(page, lengthEdit('51'));
    await page.fold();
    store.fails = undefined;
    expect(shows(await openPage(store), 'bench_length')).toBe('51');
  });

  it('never writes over edits that no longer fit', async () => {
    const store = new TestStore();
    await openPage(store);
    const id = 'template-bench';
    const misfit = { do: 'removeSheet', sheet: 'gone' } as const;
    await store.append([{ book: id, seq: 1, edit: misfit, at: 6 }]);
    store.trouble = full();
    const page = await openPage(store, { now: () => 1_000 });
    change(page, lengthEdit('50'));
    change(page, lengthEdit('51'));
    await settled();
    expect((await store.read(id))?.log.map(({ edit }) => edit)).toEqual([misfit]);
    store.trouble = undefined;
    await page.retry();
    expect(await store.get(`aside:${id}:1000`)).toEqual([{ kept: KEPT, edit: misfit, at: 6 }]);
    expect(shows(await openPage(store), 'bench_length')).toBe('51');
  });

  it('opens a file, says that it is not kept, and keeps it once there is room', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    store.trouble = full();
    const file = { name: 'bench.json', size: 1, text: async () => BENCH_TEXT };
    expect(await importFile(page, file)).toEqual({ ok: true });
    expect(page.state.value.save).toMatchObject({
      kind: 'notSaved',
      why: expect.stringContaining('no room left'),
    });
    expect(page.unsafe).toBe(true);
    const { id } = page.current;
    change(page, lengthEdit('50'));
    // Left and come back to, it is as it was; so it stands in the list meanwhile.
    expect(await page.open('template-bench')).toEqual({ ok: true });
    expect(page.unsafe).toBe(true);
    expect((await listBooks(page)).own.map((head) => head.id)).toEqual([id]);
    expect((await fileCopy(page, id))?.text).toContain('"value": 50');
    expect(await page.open(id)).toEqual({ ok: true });
    expect(shows(page, 'bench_length')).toBe('50');
    store.trouble = undefined;
    await page.retry();
    await page.open('template-bench');
    expect(page.unsafe).toBe(false);
    const next = await openPage(store);
    expect(await next.open(id)).toEqual({ ok: true });
    expect(shows(next, 'bench_length')).toBe('50');
  });

  it('keeps edits of a workbook that is left in hand, and does not start it again over them', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    await saveAndOpen(page, 'Mine');
    const { id } = page.current;
    await page.open('template-bench');
    store.fails = (_, what) => what === 'append' || what === 'snapshot' || what === 'put';
    change(page, lengthEdit('50'));
    await settled();
    expect(await page.startAgain('bench')).toMatchObject({ ok: false });
    expect(await page.open(id)).toEqual({ ok: true });
    expect(await page.startAgain('bench')).toMatchObject({ ok: false });
    await page.open('template-bench');
    expect(shows(page, 'bench_length')).toBe('50');
    store.fails = undefined;
    await page.retry();
    const next = await openPage(store);
    expect(next.current.id).toBe('template-bench');
    expect(shows(next, 'bench_length')).toBe('50');
  });

  it('refuses a new workbook in a sentence, wherever the write fails, and stays as it was', async () => {
    for (let n = 1; n <= 6; n += 1) {
      const store = new TestStore();
      const page = await openPage(store);
      change(page, lengthEdit('50'));
      await settled();
      const from = store.writes;
      store.fails = (write) => write === from + n;
      const done = await saveAndOpen(page, 'Mine');
      if (!done.ok) expect(done.says).toContain('no room left');
      store.fails = undefined;
      await page.retry();
      const next = await openPage(store);
      await next.open('template-bench');
      expect(shows(next, 'bench_length'), `write ${n}`).toBe('50');
      const { own } = await listBooks(next);
      expect(own.filter(({ id }) => id !== 'template-bench')).toHaveLength(done.ok ? 1 : 0);
    }
  });
});
