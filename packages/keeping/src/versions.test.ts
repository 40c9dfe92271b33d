import { describe, expect, it } from 'vitest';
import { MemoryStore } from './memory-store.ts';
import { full, TestStore } from './testing/sample.ts';
import { Versions } from './version-list.ts';
import { takenApart, withVersions } from './with-versions.ts';

const book = (title: string): string =>
  JSON.stringify({
    kerfbook: 8,
    title,
    units: 'us',
    sheets: [{ id: 's1', name: 'One', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });

describe('earlier states', () => {
  it('are kept once each, the named ones for good and thirty of the others', async () => {
    let now = 0;
    const store = new MemoryStore();
    const versions = new Versions(store, 'b1', () => (now += 1));
    await versions.keep('first', 'As ordered');
    expect(await versions.keep('first')).toBe(false);
    for (let i = 0; i < 40; i += 1) await versions.keep(`state ${i}`);
    const heads = await versions.list();
    expect(heads).toHaveLength(31);
    expect(heads.at(-1)?.name).toBe('As ordered');
    const texts = await Promise.all(heads.map(({ key }) => versions.text(key)));
    expect(texts[0]).toBe('state 39');
    expect(texts[29]).toBe('state 10');
    expect(texts[30]).toBe('first');
    expect(await new Versions(store, 'b2', () => 0).list()).toEqual([]);
  });

  it('are all listed where several are kept at the same moment, and each has its own text', async () => {
    const store = new MemoryStore();
    const versions = () => new Versions(store, 'b1', () => 7);
    await Promise.all([0, 1, 2, 3].map((i) => versions().keep(`state ${i}`)));
    const heads = await versions().list();
    const texts = await Promise.all(heads.map(({ key }) => versions().text(key)));
    expect(texts).toEqual(['state 3', 'state 2', 'state 1', 'state 0']);
    // As many again and more, at the same moment: the oldest give way, and leave no text behind.
    for (let i = 4; i < 40; i += 1) await versions().keep(`state ${i}`);
    expect(await store.keys('version:b1:')).toHaveLength(30);
    expect(await versions().list()).toHaveLength(30);
  });

  it('are found by their texts where the list of them is lost or damaged', async () => {
    const store = new MemoryStore();
    let now = 100;
    const versions = new Versions(store, 'b1', () => (now += 1));
    await versions.keep('first');
    await versions.keep('second');
    for (const damage of [undefined, 'gone', [null, 7, { key: 'x' }]]) {
      await store.set('versions:b1', damage);
      const heads = await versions.list();
      expect(heads.map(({ at }) => at)).toEqual([102, 101]);
      expect(await versions.text(heads[0]?.key ?? '')).toBe('second');
    }
  });

  it('from a file stand by their time, and never make those of this device give way', async () => {
    const store = new MemoryStore();
    const versions = new Versions(store, 'b1', () => 100);
    await versions.keep('here');
    for (let at = 5; at < 40; at += 1) await versions.keep(`state ${at}`, undefined, at);
    const heads = await versions.list();
    expect(heads).toHaveLength(30);
    expect(heads.slice(0, 3).map(({ at }) => at)).toEqual([100, 39, 38]);
    expect(await versions.text(heads[0]?.key ?? '')).toBe('here');
    expect(await versions.keep('here')).toBe(false);
  });

  it('leave nothing behind where one cannot be kept', async () => {
    const store = new TestStore();
    const versions = new Versions(store, 'b1', () => 7);
    await versions.keep('first');
    store.trouble = full();
    await expect(versions.keep('second', 'As ordered')).rejects.toThrow('no room');
    store.trouble = undefined;
    expect(await versions.keep('third')).toBe(true);
    expect(await store.keys('version:b1:')).toHaveLength(2);
  });

  it('travel in a file, and what cannot be read of it is counted', () => {
    const file = withVersions(book('Now'), [{ at: 5, name: 'Then', text: book('Then') }]);
    const apart = takenApart(file);
    expect(JSON.parse(apart?.text ?? '')).toEqual(JSON.parse(book('Now')));
    expect(apart?.versions).toMatchObject([{ at: 5, name: 'Then' }]);
    expect(JSON.parse(apart?.versions[0]?.text ?? '')).toEqual(JSON.parse(book('Then')));
    expect(apart?.lost).toBe(0);
    const broken = takenApart(file.replace('"title":"Then"', '"title":7'));
    expect(broken?.versions).toEqual([]);
    expect(broken?.lost).toBe(1);
    expect(takenApart(book('Plain'))).toBeUndefined();
    expect(takenApart('"kerfbook-versions" and no JSON')).toBeUndefined();
  });

  it.each([
    ['nothing', null],
    ['a word', 'state'],
    ['a list', []],
    ['a time beyond all dates', { at: 1e300, book: JSON.parse(book('Then')) }],
    ['a time in words', { at: '5', book: JSON.parse(book('Then')) }],
    ['no time', { book: JSON.parse(book('Then')) }],
    ['a name that is none', { at: 5, name: 7, book: JSON.parse(book('Then')) }],
    ['a key with no place there', { at: 5, more: 1, book: JSON.parse(book('Then')) }],
    ['no workbook', { at: 5 }],
  ])('%s among them is counted, the others stay', (_, state) => {
    const good = { at: 5, name: 'x'.repeat(300), book: JSON.parse(book('Good')) };
    const file = { 'kerfbook-versions': 1, book: JSON.parse(book('Now')), versions: [state, good] };
    const apart = takenApart(JSON.stringify(file));
    expect(apart).toMatchObject({ versions: [{ at: 5, name: good.name }], lost: 1 });
  });

  it.each([
    ['no list', { versions: 'all' }, 1],
    ['no versions', {}, 0],
  ])('%s of states', (_, part, lost) => {
    const file = { 'kerfbook-versions': 1, book: JSON.parse(book('Now')), ...part };
    expect(takenApart(JSON.stringify(file))).toMatchObject({ versions: [], lost });
  });

  it.each([
    ['of a later kind', { 'kerfbook-versions': 2, book: JSON.parse(book('Now')) }],
    ['with a key that has no place there', { 'kerfbook-versions': 1, book: {}, more: 1 }],
    ['that only speaks of it', { ...JSON.parse(book('kerfbook-versions')) }],
  ])('a file %s is not taken apart', (_, file) => {
    expect(takenApart(JSON.stringify(file))).toBeUndefined();
  });
});
