import { Workbook } from '@kerfbook/workbook';
import * as fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Bookcase } from './bookcase.ts';
import { copyWithVersions, deleteBook, fileCopy, listBooks, templateCopy } from './filing.ts';
import type { BookRecord, LogEntry } from './records.ts';
import { allAsStored, lastThatOpens, openVersion, setAside, textAsStored } from './rescue.ts';
import {
  BENCH_TEMPLATE,
  BENCH_TEXT,
  change,
  lengthEdit,
  openPage,
  saveAndOpen,
  shows,
  TestStore,
} from './testing/sample.ts';
import { takenApart } from './with-versions.ts';

/** One workbook that cannot be opened never hides the others, and never takes what is kept of it along. */

const COPY = 'template-bench';

/** A device with a changed copy of the template, three own workbooks and one in the trash. */
async function device() {
  const store = new TestStore();
  const page = await openPage(store);
  change(page, lengthEdit('50'));
  const ids: string[] = [];
  for (const title of ['Ash', 'Beech', 'Cherry', 'Thrown away']) {
    await saveAndOpen(page, title);
    change(page, lengthEdit('60'));
    ids.push(page.current.id);
  }
  await deleteBook(page, ids[3] ?? '');
  await page.open(ids[0] ?? '');
  change(page, lengthEdit('61'));
  return { store, own: ids.slice(0, 3), trash: ids[3] ?? '' };
}

let made: Promise<Awaited<ReturnType<typeof device>>> | undefined;

/** The same, made once and copied: opening workbooks takes most of a run's time. */
async function copied() {
  made ??= device();
  const { store: from, ...rest } = await made;
  const store = new TestStore();
  for (const { id } of await from.list()) {
    const kept = await from.read(id);
    if (kept !== undefined) await store.append(kept.log, { record: kept.record });
  }
  for (const key of await from.keys('')) await store.set(key, await from.get(key));
  return { store, ...rest };
}

const raw = (value: unknown) => value as BookRecord;

/** Opens each of the others, changes it, and finds the change kept. */
async function othersWork(page: Bookcase, ids: readonly string[]): Promise<void> {
  for (const id of ids) {
    expect(await page.open(id), id).toEqual({ ok: true });
    change(page, lengthEdit('77'));
    await page.fold();
    expect(page.state.value.save.kind).toBe('saved');
    expect((await fileCopy(page, id))?.text).toContain('"value": 77');
  }
  const next = await openPage(page.store);
  for (const id of ids) expect((await fileCopy(next, id))?.text).toContain('"value": 77');
}

const JUNK = fc.oneof(
  fc.constantFrom(undefined, null, '', 0, -1, 1e300, Number.NaN, true, [], {}),
  fc.constantFrom(new Date(0), { kind: 'file' }, [null], '{"kerfbook": 8}', '{"kerfbook": 9}'),
  fc.string({ maxLength: 20 }),
  fc.jsonValue({ maxDepth: 2 }),
);

/** What may become of a text on a disk. */
const HURT_TEXT = fc.oneof(
  fc.nat(BENCH_TEXT.length).map((end) => BENCH_TEXT.slice(0, end)),
  fc
    .tuple(fc.nat(BENCH_TEXT.length - 1), fc.string({ maxLength: 3 }))
    .map(([at, put]) => BENCH_TEXT.slice(0, at) + put + BENCH_TEXT.slice(at + 1)),
  fc.constant(BENCH_TEXT.replace('=bench_length*2', '=((((')),
);

type Hurt = (store: TestStore, id: string) => Promise<void>;

const FIELDS = ['text', 'revision', 'title', 'origin', 'created', 'updated', 'deleted'] as const;

/** One record damaged, in every way a record can be. */
const HURT: fc.Arbitrary<Hurt> = fc.oneof(
  fc.tuple(fc.constantFrom(...FIELDS), JUNK).map(
    ([field, junk]): Hurt =>
      async (store, id) => {
        const kept = await store.read(id);
        await store.append(kept?.log ?? [], { record: raw({ ...kept?.record, [field]: junk }) });
      },
  ),
  fc.constantFrom(...FIELDS).map(
    (field): Hurt =>
      async (store, id) => {
        const kept = await store.read(id);
        const { [field]: _gone, ...record } = raw(kept?.record);
        await store.append(kept?.log ?? [], { record: raw(record) });
      },
  ),
  HURT_TEXT.map(
    (text): Hurt =>
      async (store, id) => {
        const kept = await store.read(id);
        await store.put(raw({ ...kept?.record, text }));
      },
  ),
  fc.constant<Hurt>(async (store, id) => store.put(raw({ id }))),
  fc.constant<Hurt>(async (store, id) => void store.unreadable.add(id)),
  fc.tuple(fc.integer({ min: -1, max: 9 }), JUNK, JUNK).map(
    ([seq, edit, at]): Hurt =>
      async (store, id) => {
        const entry = { book: id, seq, edit, at } as unknown as LogEntry;
        await store.append([entry]);
      },
  ),
  fc.tuple(fc.constantFrom('versions:', 'unopened:'), JUNK).map(
    ([key, junk]): Hurt =>
      (store, id) =>
        store.set(`${key}${id}`, junk),
  ),
  JUNK.map(
    (junk): Hurt =>
      (store, id) =>
        store.set(`aside:${id}:5`, junk),
  ),
  JUNK.map(
    (junk): Hurt =>
      async (store, id) => {
        for (const key of await store.keys(`version:${id}:`)) await store.set(key, junk);
      },
  ),
  JUNK.map(
    (junk): Hurt =>
      (store) =>
        store.set('lastOpened', junk),
  ),
);

describe('one damaged record of any kind', () => {
  it('leaves the others listed, opening and saving, and what is left of it can be taken out', async () => {
    await fc.assert(
      fc.asyncProperty(HURT, fc.nat(4), async (hurt, which) => {
        const { store, own, trash } = await copied();
        const id = [...own, trash, COPY][which] ?? COPY;
        await hurt(store, id);
        const before = await store.read(id).catch(() => undefined);
        const page = await openPage(store);
        const others = [...own, COPY].filter((one) => one !== id);
        const { own: listed, trash: thrown, templates } = await listBooks(page);
        const all = [...listed, ...thrown].map((head) => head.id);
        expect(all.concat(templates.flatMap(({ changed }) => changed?.id ?? []))).toEqual(
          expect.arrayContaining([...own, trash, ...(which === 4 ? [] : [COPY])]),
        );
        // What it lists can be shown: dates can be made of its times.
        for (const { updated, title } of [...listed, ...thrown]) {
          expect(new Date(updated).toISOString()).not.toBe('');
          expect(typeof title).toBe('string');
        }
        await othersWork(page, others);
        const done = await page.open(id);
        if (!done.ok) {
          expect(done.says).toMatch(/^[A-Z"].*\.$/s);
          const after = await store.read(id).catch(() => undefined);
          expect(after).toEqual(before);
          if (before !== undefined) {
            const text = await textAsStored(page, id, 'It');
            expect(text?.text).toBe(
              typeof before.record.text === 'string' ? before.record.text : undefined,
            );
            expect((await allAsStored(page, id, 'It')).text).toContain('"kerfbook-kept": 1');
          }
        }
        await lastThatOpens(page, id);
        await setAside(page, id);
        await new Promise(setImmediate);
      }),
      { numRuns: 20 },
    );
  });
});

describe('a workbook that cannot be opened', () => {
  const broken = async () => {
    const { store, own } = await device();
    const id = own[0] ?? '';
    const kept = await store.read(id);
    const text = `${kept?.record.text.slice(0, 200)}\uFEFF\u0000 not JSON`;
    await store.put(raw({ ...kept?.record, text }));
    return { store, id, text };
  };

  it('is noted with its reason at the start, and the list is shown', async () => {
    const { store, id } = await broken();
    const page = await openPage(store);
    expect(page.store).toBe(store);
    expect(page.current.id).toBe(COPY);
    expect(page.state.value.listAsked).toBe(1);
    expect(page.state.value.notices[0]).toMatchObject({
      says: expect.stringMatching(/^"Ash" could not be opened\. .*not readable JSON/),
      inList: true,
    });
    const { own, beside } = await listBooks(page);
    expect(own.map(({ title }) => title).sort()).toEqual(['Ash', 'Beech', 'Bench', 'Cherry']);
    expect(beside.get(id)?.unopened).toContain('not readable JSON');
    // It stays noted where the next start does not try it.
    await page.open(own.find(({ title }) => title === 'Beech')?.id ?? '');
    const next = await openPage(store);
    expect(next.state.value.listAsked).toBe(0);
    expect((await listBooks(next)).beside.get(id)?.unopened).toContain('not readable JSON');
  });

  it('gives out its text letter by letter, also as the copy of it', async () => {
    const { store, id, text } = await broken();
    const page = await openPage(store);
    expect((await textAsStored(page, id, 'Ash'))?.text).toBe(text);
    expect(await fileCopy(page, id)).toMatchObject({
      text,
      says: expect.stringContaining('as it is'),
    });
    const all = JSON.parse((await allAsStored(page, id, 'Ash')).text);
    expect(all.record.text).toBe(text);
    expect(all.record.title).toBe('Ash');
  });

  it('offers its last version that opens, and that becomes a workbook of its own', async () => {
    const { store, id, text } = await broken();
    await store.set(`version:${id}:${Date.now() + 5_000}-x`, 'not a workbook');
    const page = await openPage(store);
    const head = await lastThatOpens(page, id);
    expect(head).toBeDefined();
    if (head === undefined) return;
    expect(await openVersion(page, id, 'Ash', head)).toEqual({ ok: true });
    expect(page.current.book.title).toMatch(/^Ash, version of \d\d:\d\d$/);
    expect(page.current.id).not.toBe(id);
    change(page, lengthEdit('70'));
    expect((await store.read(id))?.record.text).toBe(text);
  });

  it('loses its reason once it opens', async () => {
    const { store, id } = await broken();
    const page = await openPage(store);
    const kept = await store.read(id);
    await store.put(raw({ ...kept?.record, text: BENCH_TEXT }));
    expect(await page.open(id)).toEqual({ ok: true });
    expect((await listBooks(page)).beside.size).toBe(0);
  });

  it("that is the template's working copy can be started again, and is kept in the trash", async () => {
    const { store } = await device();
    const kept = await store.read(COPY);
    await store.append(kept?.log ?? [], { record: raw({ ...kept?.record, text: 'gone' }) });
    await store.set('lastOpened', COPY);
    const page = await openPage(store);
    expect(page.current.id).not.toBe(COPY);
    expect(await page.startAgain('bench')).toEqual({ ok: true });
    expect(page.current.id).toBe(COPY);
    const { trash } = await listBooks(page);
    const texts = await Promise.all(trash.map(({ id }) => textAsStored(page, id, 'It')));
    expect(texts.map((one) => one?.text)).toContain('gone');
  });

  it('is no reason to go on in memory, also where no other workbook opens', async () => {
    const store = new TestStore();
    change(await openPage(store), lengthEdit('50'));
    const kept = await store.read(COPY);
    await store.put(raw({ ...kept?.record, revision: 1, text: 'gone' }));
    const page = await openPage(store);
    expect(shows(page, 'bench_length')).toBe('40');
    // Nothing is written before something is done.
    expect(await store.list()).toHaveLength(1);
    change(page, lengthEdit('66'));
    await page.fold();
    expect(page.state.value.save.kind).toBe('saved');
    expect((await fileCopy(page, page.current.id))?.text).toContain('"value": 66');
    expect((await textAsStored(page, COPY, 'It'))?.text).toBe('gone');
    const next = await openPage(store);
    await next.open(page.current.id);
    expect(shows(next, 'bench_length')).toBe('66');
  });
});

describe('the copy of a template as a file', () => {
  it('is the changed one, also while its changes are in the log only', async () => {
    const store = new TestStore();
    const page = await openPage(store);
    change(page, lengthEdit('50'));
    const other = new TestStore();
    const kept = await store.read(COPY);
    await other.append(kept?.log ?? [], { record: raw(kept?.record) });
    await other.put(
      raw({ ...kept?.record, id: 'b1', title: 'Other', origin: { kind: 'own', from: '' } }),
    );
    await other.set('lastOpened', 'b1');
    const there = await openPage(other);
    expect(there.current.id).toBe('b1');
    expect((await templateCopy(there, BENCH_TEMPLATE.key))?.text).toContain('"value": 50');
    expect((await listBooks(there)).templates[0]?.changed?.id).toBe(COPY);
  });
});

describe('a version that cannot be read', () => {
  it('does not keep the others from going into a file, and is told of', async () => {
    const page = await openPage(new TestStore());
    await saveAndOpen(page, 'Ash');
    const { id } = page.current;
    await page.versions.keep(BENCH_TEXT, 'As ordered');
    const [good] = await page.versions.list();
    for (const damage of [BENCH_TEXT.slice(0, 50), 7]) {
      await page.versions.keep(`${BENCH_TEXT} `, 'Hurt');
      const [hurt] = await page.versions.list();
      await page.store.set(`version:${id}:${hurt?.key}`, damage);
    }
    const { text } = await copyWithVersions(page);
    const names = takenApart(text)?.versions.map(({ name }) => name);
    expect(names).toContain(good?.name);
    expect(names).not.toContain('Hurt');
    expect(page.state.value.notices.at(-1)?.says).toBe(
      '2 versions cannot be read on this device and are not in the file.',
    );
  });
});

describe('a workbook that the engine cannot work out', () => {
  it('goes into a file as it is stored, and says so', async () => {
    const { store, own } = await copied();
    const page = await openPage(store);
    const id = own[1] ?? '';
    await store.append([{ book: id, seq: 99, edit: lengthEdit('70'), at: 0 }]);
    const open = vi.spyOn(Workbook, 'open').mockImplementation(() => {
      throw new RangeError('too deep');
    });
    const copy = await fileCopy(page, id).finally(() => open.mockRestore());
    expect(copy?.text).toBe((await store.read(id))?.record.text);
    expect(copy?.says).toMatch(/^"Beech" cannot be read here: .*RangeError: too deep/);
  });
});
