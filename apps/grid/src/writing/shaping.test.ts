import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { headOptions, shapeOptions } from './shaping.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'shape', 'ends', 'taper', ''];

/** An invented table of one leg. */
const book = (() => {
  const cells = (values: readonly (string | number)[]) =>
    Object.fromEntries(values.map((value, i) => [`c${i + 1}`, { value }]));
  return Workbook.open({
    kerfbook: 8,
    title: 'Table',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Parts',
        columns: HEADS.map((_, i) => ({ id: `c${i + 1}` })),
        rows: [HEADS.slice(0, -1), ['Leg', 4, 2, 2, 28]].map((values, i) => ({
          id: `r${i + 1}`,
          cells: cells(values),
        })),
      },
    ],
    checks: [],
    tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r2' }],
  });
})();
const writing = (text: string, row: number, column: number) =>
  ({
    at: { sheet: 's1', row, column },
    text,
    mode: 'fresh',
    from: 'cell',
    caret: text.length,
  }) as const;
const offered = (text: string, head: string, row = 1) =>
  shapeOptions(book, writing(text, row, HEADS.indexOf(head)));
const texts = (text: string, head: string) => offered(text, head).map((one) => one.text);

describe('while the shape of a part is written', () => {
  it('ways to say it that begin like it are offered', () => {
    expect(texts('r', 'shape')).toEqual(['round', 'rounded corners', 'rod']);
    expect(texts('tw', 'taper')).toEqual(['two inside faces']);
    expect(texts('mitered 45, bev', 'ends')).toEqual(['beveled 10']);
    expect(offered('o', 'shape')[0]?.says).toContain('An oval');
    expect(texts('oval', 'shape')).toEqual([]);
    expect(texts('round', 'shape')).toEqual([]);
  });

  it('what can be read as it is stays so unless another is chosen', () => {
    expect(offered('two inside', 'taper')).toMatchObject([{ asked: true }]);
    expect(offered('roun', 'shape').some(({ asked }) => asked === true)).toBe(false);
  });

  it('nothing is offered in a cell for anything else', () => {
    expect(offered('r', 'part')).toEqual([]);
    expect(offered('r', 'shape', 0)).toEqual([]);
  });
});

describe('while a head of the parts table is written', () => {
  const heads = (text: string, row = 0) =>
    headOptions(book, writing(text, row, HEADS.length - 1)).map((one) => one.text);

  it('those with a meaning that are not there yet are offered, and taken only where chosen', () => {
    expect(heads('ta')).toEqual(['taper to', 'taper from']);
    expect(heads('spl')).toEqual(['splay along', 'splay across']);
    expect(headOptions(book, writing('e', 0, 8)).every(({ asked }) => asked === true)).toBe(true);
  });

  it('nothing is where the head is its own, or the cell is none', () => {
    expect(heads('shop no.')).toEqual([]);
    expect(heads('')).toEqual([]);
    expect(heads('ta', 1)).toEqual([]);
  });
});
