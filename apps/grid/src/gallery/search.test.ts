import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { byKind, KINDS, kindOf } from './kinds.ts';
import { found, lengthsOf, wishOf } from './search.ts';

const BOOKS = [
  {
    title: 'Bench',
    words: ['A bench with a seat that is free to move.', 'white oak', 'mortise and tenon'],
    size: '48 × 14 × 18 in',
  },
  { title: 'Hall bench', words: ['black cherry', 'for the lake house'], size: '72 × 14 × 18 in' },
  {
    title: 'Bookcase',
    words: ['fixed or adjustable shelves', 'northern red oak', 'dado'],
    size: '940 × 292 × 1829 mm',
  },
  { title: 'Cost and quote', words: ['What any work costs'], size: undefined },
];
const titles = (typed: string) => found(BOOKS, wishOf(typed)).map(({ title }) => title);

describe('looking for a workbook', () => {
  it('finds what has every word, in whatever order, case and number', () => {
    expect(titles('')).toEqual(BOOKS.map(({ title }) => title));
    expect(titles('oak WHITE')).toEqual(['Bench']);
    expect(titles('benches')).toEqual(['Bench', 'Hall bench']);
    expect(titles('shelf')).toEqual(['Bookcase']);
    expect(titles('mort')).toEqual(['Bench']);
    expect(titles('tenon bench')).toEqual(['Bench']);
    expect(titles('oak cherry')).toEqual([]);
    expect(titles('ench')).toEqual([]);
    expect(titles('a bench for the hall')).toEqual(['Hall bench']);
  });

  it('puts the nearest to a size first, in whatever unit, and leaves none out for it', () => {
    expect(titles('bench 6 ft')).toEqual(['Hall bench', 'Bench']);
    expect(titles('bench 4ft')).toEqual(['Bench', 'Hall bench']);
    expect(titles('72"')).toEqual(['Hall bench', 'Bookcase', 'Bench', 'Cost and quote']);
    expect(titles('bench 1830 mm')).toEqual(['Hall bench', 'Bench']);
    expect(wishOf('5\' 6 1/2" bench')).toMatchObject({ words: ['bench'] });
    expect(wishOf('5\' 6 1/2"').size).toBeCloseTo(66.5 * 25.4, 9);
    expect(wishOf('2 m').size).toBe(2000);
    expect(wishOf('2 mortises')).toMatchObject({ size: undefined, words: ['2', 'mortise'] });
  });

  it('reads the sizes that cards say', () => {
    expect(lengthsOf('30 × 23 7/32 × 34 1/2 in')[1]).toBeCloseTo(23.21875 * 25.4, 9);
    expect(lengthsOf('none')).toEqual([]);
  });
});

describe('the kinds', () => {
  it('have every built-in template once, and none that there is not', () => {
    const keys = readdirSync(join(import.meta.dirname, '../../../../templates')).map((name) =>
      name.replace(/\.json$/, ''),
    );
    expect(KINDS.flatMap((kind) => kind.keys).sort()).toEqual(keys.sort());
  });

  it('come in their order, without those of which there is none', () => {
    const sorted = byKind([{ key: 'movement' }, { key: 'desk' }, { key: 'dining-table' }]);
    expect(sorted.map(({ kind, of }) => [kind.says, of.map(({ key }) => key)])).toEqual([
      ['Tables and desks', ['dining-table', 'desk']],
      ['For any work', ['movement']],
    ]);
    expect(kindOf('not sorted').says).toBe('For any work');
  });
});
