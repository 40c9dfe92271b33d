import { type BookDocument, loadText, saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { cardForShelf, cut, cutLine, differing, signedAs, signedBy } from './for-shelf.ts';
import { takenFromFile } from './lineage.ts';
import { copyForFile } from './on-shelf.ts';
import { signOf } from './sign.ts';
import { BENCH } from './testing/sample.ts';

const bench = structuredClone(BENCH) as BookDocument;
const withLength = (value: number): BookDocument => {
  const document = structuredClone(bench);
  Object.assign(document.sheets[0]?.rows[0]?.cells?.c2 ?? {}, { value });
  return document;
};

describe('words for the shelf', () => {
  it('are cut to what a club takes, with a sign that they were', () => {
    expect(cut('oak', 3)).toBe('oak');
    expect(cut('maple', 3)).toBe('ma…');
    expect(cut('a\u0007b', 3)).toBe('a b');
    expect(cutLine('  two\nlines ', 80)).toBe('two lines');
    expect(cutLine(' \u0001 ', 80)).toBeUndefined();
  });

  it('are never cut through a letter that takes two places, nor hold half of one', () => {
    expect(cut('a\u{1fab5}b', 3)).toBe('a…');
    expect(cut('a\ud83eb', 3)).toBe('a b');
    expect(cut('\u{1fab5}', 2)).toBe('\u{1fab5}');
  });

  it('leave out of a card what is too many or empty, and a measure that no filter knows', () => {
    const many = Array.from({ length: 20 }, (_, place) => `word ${place}`);
    const facts = { woods: many, joints: [' '], tags: ['x'.repeat(99)] };
    const results: [string, string][] = [
      ['', '1'],
      ['Price', '$2.00'],
    ];
    const card = cardForShelf({ ...facts, results, longest: 200_000 }, '');
    expect(card).toEqual({
      woods: many.slice(0, 12),
      joints: [],
      tags: [`${'x'.repeat(29)}…`],
      results: [['Price', '$2.00']],
    });
    expect(cardForShelf({ ...facts, results: [], longest: 900 }, 'bench')).toMatchObject({
      kind: 'bench',
      longest: 900,
    });
  });
});

describe('what a revision tells', () => {
  it('is what differs, and not where it came from or what is locked', async () => {
    const after: BookDocument = {
      ...withLength(72),
      lineage: { template: 'Other', revision: 2 },
    };
    const { changes, listed } = await differing(withLength(60), after);
    expect(listed).toHaveLength(changes.length);
    expect(changes.length).toBeGreaterThan(0);
    expect(JSON.stringify(changes)).not.toContain('Other');
    expect(
      (await differing(bench, { ...bench, lineage: { template: 'T', revision: 1 } })).changes,
    ).toEqual([]);
  });

  it('names whose it is, and whose it was before', () => {
    const { author } = signedBy(bench, { by: 'Ann', title: 'T', licence: 'cc-by-4.0' });
    expect(author).toBe('Ann');
    const after = signedBy({ ...bench, author: 'Bea' }, { by: 'Ann', title: 'T', licence: 'club' });
    expect(after).toMatchObject({ author: 'Ann, from work by Bea', licence: 'For a club alone' });
    expect(signedAs(after, { ...bench, title: 'Was' })).toMatchObject({ title: 'Was' });
    expect(signedAs(after, bench).author).toBeUndefined();
  });
});

describe('a copy of a revision as a file', () => {
  it('rests on the revision, and brings it along whole', async () => {
    const text = saveText(bench);
    const from = { template: 'Made_up-Template-1', title: 'Bench', revision: 3, text };
    const loaded = loadText(saveText(await copyForFile(bench, from)));
    if (!loaded.ok) throw new Error(loaded.says);
    expect(loaded.document.lineage).toMatchObject({
      ...{ template: 'Bench', revision: 3, base: signOf(text) },
      key: 'shelf--made-0up---template--1',
    });
    const taken = await takenFromFile(loaded.document);
    expect(taken.base).toEqual({ sign: signOf(text), text });
  });
});
