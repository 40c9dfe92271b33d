import { type BookDocument, loadText, saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Bookcase } from './bookcase.ts';
import { type CompareSource, documentToCompare } from './comparing.ts';
import { destroyBook, fileCopy, importFile, startJob } from './filing.ts';
import { dismissNews, isDismissed, keepBase, newsOf } from './lineage.ts';
import { signOf } from './sign.ts';
import { squeezed, unsqueezed } from './squeeze.ts';
import type { ShippedTemplate } from './templates.ts';
import { BENCH, change, lengthEdit, saveAndOpen, TestStore } from './testing/sample.ts';

/** The bench as an app ships it in a revision: its length is another one in each. */
function shipped(revision: number, sign?: string): ShippedTemplate {
  const text = textOf(revision);
  const state = { revision, sign: sign ?? signOf(text) };
  return { key: 'bench', title: 'Bench', about: '', state, text: async () => text };
}
function textOf(revision: number): string {
  const document = structuredClone(BENCH) as BookDocument;
  Object.assign(document.sheets[0]?.rows[0]?.cells?.c2 ?? {}, { value: 39 + revision });
  return saveText(document);
}
const page = (store: TestStore, ...templates: ShippedTemplate[]): Promise<Bookcase> =>
  Bookcase.start({ templates, openStore: async () => store, keeper: { idle: 60_000 } });
const lengthIn = (document: BookDocument) => document.sheets[0]?.rows[0]?.cells?.c2?.value;

/** What is told of the template, as far as it can be told in words. */
async function told(bookcase: Bookcase) {
  const news = await newsOf(bookcase);
  if (news.kind === 'none') return news.says;
  return { title: news.title, was: lengthIn(news.base), is: lengthIn(news.now) };
}

describe('a working copy of a built-in template', () => {
  it('remembers the state it came from when the next app brings another one', async () => {
    const store = new TestStore();
    const first = await page(store, shipped(1));
    expect(await store.keys('base:')).toEqual([]);
    change(first, lengthEdit('50'));
    await first.fold();
    expect(await told(first)).toBe('Nothing has changed in "Bench" since.');
    const next = await page(store, shipped(2));
    expect(await told(next)).toEqual({ title: 'Bench', was: 40, is: 41 });
  });

  it('remembers it too where the page died before its text was written', async () => {
    const store = new TestStore();
    change(await page(store, shipped(1)), lengthEdit('50'));
    expect(await store.keys('base:')).toEqual([]);
    expect(await told(await page(store, shipped(2)))).toEqual({ title: 'Bench', was: 40, is: 41 });
  });

  it('follows the template while nothing of it was changed', async () => {
    const store = new TestStore();
    await page(store, shipped(1));
    const next = await page(store, shipped(2));
    expect(lengthIn(next.current.book.document())).toBe(41);
    expect(await told(next)).toBe('Nothing has changed in "Bench" since.');
    change(next, lengthEdit('60'));
    expect(await told(await page(store, shipped(3)))).toEqual({ title: 'Bench', was: 41, is: 42 });
  });

  it('is told where the template here is older, or the state is nowhere', async () => {
    const store = new TestStore();
    const third = await page(store, shipped(3));
    change(third, lengthEdit('50'));
    await third.fold();
    expect(await told(await page(store, shipped(2)))).toBe(
      'This workbook was made from revision 3 of "Bench", and the one here is older: revision 2.',
    );
    for (const key of await store.keys('base:')) await store.set(key, 'another text');
    expect(await told(await page(store, shipped(4)))).toMatch(/is not on this device.*Compare/);
  });
});

describe('a workbook that was saved from a built-in template', () => {
  it('names the state, and takes it along in a file where no app has it any more', async () => {
    const store = new TestStore();
    const first = await page(store, shipped(1));
    await saveAndOpen(first, 'Bench for the hall');
    const { id } = first.current;
    expect(first.current.book.document().lineage).toEqual({
      template: 'Bench',
      revision: 1,
      key: 'bench',
      base: signOf(textOf(1)),
    });
    const same = await fileCopy(first, id);
    expect(same?.text).not.toContain('"text":');
    await first.fold();
    const next = await page(store, shipped(2));
    await next.open(id);
    const file = await fileCopy(next, id);
    expect(file?.text).toContain('"text":');
    const elsewhere = await page(new TestStore(), shipped(2));
    const text = async () => file?.text ?? '';
    expect(await importFile(elsewhere, { name: 'b.json', size: 9, text })).toEqual({ ok: true });
    expect(elsewhere.current.book.document().lineage).not.toHaveProperty('text');
    expect(await told(elsewhere)).toEqual({ title: 'Bench', was: 40, is: 41 });
    const damaged = file?.text.replace(/"text": ?"...../, (start) => `${start.slice(0, -5)}AAAAA`);
    await importFile(elsewhere, { name: 'd.json', size: 9, text: async () => damaged ?? '' });
    expect(elsewhere.state.value.notices.at(-1)?.says).toContain('is damaged');
  });

  it('keeps the state it has taken over, and is told of the next one only', async () => {
    const store = new TestStore();
    const first = await page(store, shipped(1));
    change(first, lengthEdit('50'));
    await first.fold();
    const next = await page(store, shipped(2));
    const news = await newsOf(next);
    if (news.kind !== 'newer') throw new Error(news.says);
    expect(await isDismissed(next, news.state.sign)).toBe(false);
    await dismissNews(next, news.state.sign);
    expect(await isDismissed(next, news.state.sign)).toBe(true);
    await keepBase(next, news.state);
    change(next, { do: 'setBook', set: { lineage: news.lineage } });
    expect(await told(next)).toBe('Nothing has changed in "Bench" since.');
    await next.fold();
    expect(await told(await page(store, shipped(3)))).toEqual({ title: 'Bench', was: 41, is: 42 });
  });
});

describe("a job made from a maker's own template", () => {
  it('is told when that was changed; what it was stays as long as a job rests on it', async () => {
    const store = new TestStore();
    const bookcase = await page(store, shipped(1));
    await saveAndOpen(bookcase, 'My bench');
    const template = bookcase.current.id;
    await startJob(bookcase, template, 'First');
    const first = bookcase.current.id;
    expect(await told(bookcase)).toBe('Nothing has changed in "My bench" since.');
    await startJob(bookcase, template, 'Second');
    const second = bookcase.current.id;
    await bookcase.open(template);
    expect(await told(bookcase)).toBe('Nothing has changed in "Bench" since.');
    change(bookcase, lengthEdit('70'));
    await bookcase.open(first);
    expect(await told(bookcase)).toEqual({ title: 'My bench', was: 40, is: 70 });
    const sign = bookcase.current.book.document().lineage?.base ?? '';
    await bookcase.open(template);
    await destroyBook(bookcase, first);
    expect(await store.get(`base:${sign}`)).toBeTypeOf('string');
    await destroyBook(bookcase, second);
    expect(await store.get(`base:${sign}`)).toBeUndefined();
  });

  it('is told where the template is gone, and a workbook without one that it has none', async () => {
    const bookcase = await page(new TestStore(), shipped(1));
    await saveAndOpen(bookcase, 'My bench');
    const template = bookcase.current.id;
    await startJob(bookcase, template, 'First');
    await destroyBook(bookcase, template);
    expect(await told(bookcase)).toBe(
      'The template "My bench" that this workbook was made from is not on this device.',
    );
    change(bookcase, { do: 'setBook', set: { lineage: null } });
    expect(await told(bookcase)).toBe('This workbook was not made from a template.');
    change(bookcase, { do: 'setBook', set: { lineage: { template: 'Old', revision: 2 } } });
    expect(await told(bookcase)).toMatch(/before Kerfbook kept/);
    expect(await newsOf(bookcase)).not.toHaveProperty('template');
    change(bookcase, { do: 'setBook', set: { lineage: { template: 'Bench', revision: 2 } } });
    expect(await newsOf(bookcase)).toMatchObject({
      kind: 'none',
      template: { of: 'template', key: 'bench' },
    });
  });
});

describe('what is compared', () => {
  it('is the workbook at hand, one of its versions, another one or a template as it is built in', async () => {
    const bookcase = await page(new TestStore(), shipped(1));
    await bookcase.versions.keep(bookcase.textOfCurrent(), 'First');
    change(bookcase, lengthEdit('50'));
    const [version] = await bookcase.versions.list();
    const copy = bookcase.current.id;
    await saveAndOpen(bookcase, 'My bench');
    change(bookcase, lengthEdit('60'));
    const length = async (source: CompareSource) => {
      const found = await documentToCompare(bookcase, source);
      return found.ok ? lengthIn(found.document) : found.says;
    };
    expect(await length({ of: 'now' })).toBe(60);
    expect(await length({ of: 'own', id: copy })).toBe(50);
    expect(await length({ of: 'template', key: 'bench' })).toBe(40);
    expect(await length({ of: 'own', id: 'none' })).toMatch(/not on this device/);
    expect(await length({ of: 'version', key: version?.key ?? '' })).toMatch(/not on this device/);
    await bookcase.open(copy);
    expect(await length({ of: 'version', key: version?.key ?? '' })).toBe(40);
  });
});

describe('a text that is squeezed', () => {
  it('comes again to the letter, and is none where it is longer than it may be', async () => {
    const text = `${'½ 板 oak\n'.repeat(5_000)}end`;
    const short = (await squeezed(text)) ?? '';
    expect(short.length).toBeLessThan(text.length / 20);
    expect(await unsqueezed(short, 100_000)).toBe(text);
    expect(await unsqueezed(short, 1_000)).toBeUndefined();
    for (const odd of ['', 'AAAA', '?', short.slice(9)]) {
      expect(await unsqueezed(odd, 100_000)).toBeUndefined();
    }
    expect(loadText(text).ok).toBe(false);
  });
});
