import { lazy, NotLoaded, needsLazy, timesMissed } from '@kerfbook/functions';
import { describe, expect, it, vi } from 'vitest';
import { loadLazy } from '../late.ts';
import { bookOf } from '../testing/sample.ts';

// As in the app: the parts come when they are asked for.
vi.mock('@kerfbook/functions/libraries', () => import('@kerfbook/functions/libraries-lazy'));

const FORMULAS: readonly (readonly [formula: string, comesTo: string])[] = [
  ['=TEXT(1234.5,"#,##0.00")', '1,234.50'],
  ['=LEN(TEXT(2,"0.00"))', '4'],
  ['="about "&TEXT(A10,"0.0")', 'about 7.5'],
];

describe('parts of the engine that come late', () => {
  it('V3 are waited for: a formula says so, then comes to what it does with them', async () => {
    const cells = [
      ...FORMULAS.map(([formula]) => [formula]),
      ['=TEXT(3/8,"# ??/16")'],
      ['=BOARDS_PICK(B1:B3,9)'],
      [],
      [],
      [],
      [],
      [7.5],
    ];
    const book = bookOf({
      sheets: { Rails: cells.map((row, i) => [row[0] ?? null, [5, 6.5, 4.25][i] ?? null]) },
    });
    const at = (row: number) => ({ sheet: 's1', row, column: 0 });
    for (const row of FORMULAS.keys()) {
      const value = book.value(at(row));
      expect(value).toMatchObject({ kind: 'error', error: { word: '#ERROR!' } });
      expect(value.kind === 'error' && value.error.says).toMatch(/still loading/);
    }
    // What needs none of them is there.
    expect(book.cell(at(3)).shown.text).toBe('3/8');
    const picked = [1, 0, 1].map((number) => ({ kind: 'number', number }));
    expect([4, 5, 6].map((row) => book.value(at(row)))).toEqual(picked);
    expect(book.value(at(9))).toEqual({ kind: 'number', number: 7.5 });
    const saved = JSON.stringify(book.document());

    expect(book.lacks).toBe(true);
    await loadLazy();
    book.recalculate();
    expect(book.lacks).toBe(false);
    for (const [row, [, comesTo]] of FORMULAS.entries()) {
      expect(book.cell(at(row)).shown.text).toBe(comesTo);
    }
    expect([4, 5, 6].map((row) => book.value(at(row)))).toEqual(picked);
    expect(JSON.stringify(book.document())).toBe(saved);
    expect(book.canUndo).toBe(false);
  });

  it('tells from a saved text whether it may need them', () => {
    expect(needsLazy('{"formula":"=TEXT([c1.r1],\\"0.0\\")"}')).toBe(true);
    expect(needsLazy('{"formula":"=1+text ([c1.r1],\\"0\\")"}')).toBe(true);
    expect(needsLazy('{"formula":"=BUY_COST([c1.r1])"}')).toBe(false);
    expect(needsLazy('{"value":"A text on buying","formula":"=SUM([c1.r1])"}')).toBe(false);
  });
});

describe('a library that comes late', () => {
  it('is tried for again where it did not arrive', async () => {
    const load = vi.fn<() => Promise<string>>();
    load.mockRejectedValueOnce(new TypeError('no network')).mockResolvedValueOnce('it');
    const library = lazy(load);
    await expect(library.bring()).rejects.toThrow('no network');
    const before = timesMissed();
    expect(() => library.need()).toThrow(NotLoaded);
    expect(timesMissed()).toBe(before + 1);
    await Promise.all([library.bring(), library.bring()]);
    expect(library.need()).toBe('it');
    expect(load).toHaveBeenCalledTimes(2);
    expect(timesMissed()).toBe(before + 1);
  });
});
