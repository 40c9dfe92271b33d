import { type BookDocument, loadText, saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { documentToCompare } from './comparing.ts';
import { newsOf } from './lineage.ts';
import { addFromShelf, restsOnShelf, shelfText, textForShelf } from './on-shelf.ts';
import { shelfId, shelfKey, type TemplateOnShelf } from './shelf-port.ts';
import { signOf } from './sign.ts';
import { BENCH, change, lengthEdit, openPage, TestStore } from './testing/sample.ts';

/** The bench as it stands on a shelf in a revision: its length is another one in each. */
function textOf(revision: number): string {
  const document = structuredClone(BENCH) as BookDocument;
  Object.assign(document.sheets[0]?.rows[0]?.cells?.c2 ?? {}, { value: 39 + revision });
  return saveText(document);
}
const ID = 'Made_up-Template-1';

function onShelf(revision: number): TemplateOnShelf {
  const text = async (of = revision) => textOf(of);
  return { title: 'Bench', revision, sign: signOf(textOf(revision)), text };
}

async function copied() {
  const bookcase = await openPage(new TestStore());
  bookcase.shelf = { now: async () => onShelf(1) };
  const loaded = loadText(textOf(1));
  if (!loaded.ok) throw new Error(loaded.says);
  const from = { template: ID, title: 'Bench', revision: 1, text: textOf(1) };
  expect((await addFromShelf(bookcase, loaded.document, from)).ok).toBe(true);
  return bookcase;
}

describe('the key of a template of the shelf', () => {
  it('is one that a lineage takes, and leads back to the id', () => {
    for (const id of [ID, 'plain-id', '--__AZaz09', 'a'.repeat(40)]) {
      const key = shelfKey(id);
      expect(key).toMatch(/^[a-z0-9-]{1,64}$/);
      expect(shelfId(key)).toBe(id);
    }
    expect(shelfKey('A'.repeat(40))).toBeUndefined();
    expect(shelfId('dining-table')).toBeUndefined();
    expect(shelfId(undefined)).toBeUndefined();
  });

  it('tells ids apart that differ in capitals and hyphens alone', () => {
    const ids = ['ab_cdefg', 'ab-cdefg', 'aB_cdefg', 'ab-0cdefg', 'aBcdefgh', 'abcdefgh'];
    expect(new Set(ids.map(shelfKey)).size).toBe(ids.length);
  });
});

describe('a copy from the shelf', () => {
  it('is told of the next revision, with the state that both have in common', async () => {
    const bookcase = await copied();
    change(bookcase, lengthEdit('50'));
    expect(await newsOf(bookcase)).toMatchObject({
      kind: 'none',
      says: 'Nothing has changed in "Bench" since.',
    });
    bookcase.shelf = { now: async (id) => (id === ID ? onShelf(3) : Promise.reject(new Error())) };
    const news = await newsOf(bookcase);
    if (news.kind === 'none') throw new Error(news.says);
    expect(news.template.of).toBe('shelf');
    expect(news.base.sheets[0]?.rows[0]?.cells?.c2?.value).toBe(40);
    expect(news.now.sheets[0]?.rows[0]?.cells?.c2?.value).toBe(42);
    expect(news.lineage).toMatchObject({ revision: 3, key: shelfKey(ID) });
  });

  it('asks the shelf for the state in common where this device has lost it, and believes its sign alone', async () => {
    const bookcase = await copied();
    change(bookcase, lengthEdit('50'));
    for (const key of await bookcase.store.keys('base:')) await bookcase.store.set(key, undefined);
    bookcase.shelf = { now: async () => onShelf(2) };
    expect((await newsOf(bookcase)).kind).toBe('newer');
    const wrong = { ...onShelf(2), text: async (of = 2) => textOf(of === 1 ? 9 : of) };
    bookcase.shelf = { now: async () => wrong };
    expect((await newsOf(bookcase)).kind).toBe('none');
  });

  it('is told nothing, and says why when asked, where the club cannot be reached', async () => {
    const bookcase = await copied();
    bookcase.shelf = { now: async () => Promise.reject(new Error('away')) };
    const news = await newsOf(bookcase);
    expect(news.kind === 'none' && news.says).toMatch(/cannot be reached/);
    expect(await documentToCompare(bookcase, { of: 'shelf', key: shelfKey(ID) ?? '' })).toEqual({
      ok: false,
      says: 'The club cannot be reached, or the template is not on its shelf any more.',
    });
  });

  it('takes a title that no other workbook has', async () => {
    const bookcase = await copied();
    const first = bookcase.current.book.title;
    const loaded = loadText(textOf(1));
    if (!loaded.ok) throw new Error(loaded.says);
    const from = { template: ID, title: 'Bench', revision: 1, text: textOf(1) };
    await addFromShelf(bookcase, loaded.document, from);
    expect(bookcase.current.book.title).not.toBe(first);
  });
});

describe('what goes to the shelf', () => {
  it('leaves behind what is the customer’s, the job’s and the shop’s own', async () => {
    const job = {
      ...BENCH,
      customer: 'A made-up family',
      job: '12',
      due: '2026-12-01',
      agreed: '2026-11-01',
      revision: 'B',
      terms: 'A made-up sentence',
      letterhead: { name: 'A made-up shop' },
    };
    const made = await textForShelf(job, { template: 'Old', revision: 2, text: 'AAAA' });
    const got = await shelfText(made?.packed ?? '');
    expect(got?.text).toBe(made?.text);
    expect(got?.text).not.toMatch(/made-up|AAAA|2026/);
    const loaded = loadText(got?.text ?? '');
    expect(loaded.ok && loaded.document.lineage).toEqual({ template: 'Old', revision: 2 });
  });

  it('is nothing where it comes damaged', async () => {
    expect(await shelfText('AAAA')).toBeUndefined();
  });

  it('is what its maker’s workbook rests on from then on', async () => {
    const bookcase = await openPage(new TestStore());
    const on = { template: ID, title: 'Bench', revision: 4, text: textOf(4) };
    const lineage = await restsOnShelf(bookcase, on);
    expect(lineage).toEqual({
      template: 'Bench',
      revision: 4,
      key: shelfKey(ID),
      base: signOf(textOf(4)),
    });
    expect(await bookcase.store.get(`base:${signOf(textOf(4))}`)).toBe(textOf(4));
  });
});
