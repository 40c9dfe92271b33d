import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { phraseAt, placeOptions } from './placing.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'place'];

/** An invented table with a row for each name; none is placed yet. */
function tableOf(...names: readonly string[]) {
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
        rows: [HEADS, ...names.map((name) => [name, 1, 1, 2, 30])].map((values, i) => ({
          id: `r${i + 1}`,
          cells: cells(values),
        })),
      },
    ],
    checks: [],
    tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: `r${names.length + 1}` }],
  });
}

const book = tableOf('Top', 'Leg', 'Rail', 'Post');

/** What is offered while a text is written as the place of Rail. */
const offered = (text: string, column = 5) =>
  placeOptions(book, {
    at: { sheet: 's1', row: 3, column },
    text,
    mode: 'fresh',
    from: 'cell',
    caret: text.length,
  });
const texts = (text: string) => offered(text).map((one) => one.text);

describe('while the place of a part is written', () => {
  it('ways that begin like it are offered, each with a part of the table', () => {
    expect(texts('f')).toEqual(['four corners of Top', 'front and back of Top', 'front of Top']);
    expect(offered('f')[0]?.says).toContain('One at each corner');
    expect(texts('zz')).toEqual([]);
  });

  it('where one way is left, each part that it may go by is', () => {
    expect(texts('four corners of ')).toEqual([
      'four corners of Top',
      'four corners of Leg',
      'four corners of Post',
    ]);
    expect(texts('Four Corners of p')).toEqual(['four corners of Post']);
    expect(texts('between leg and p')).toEqual([
      'between Leg and Post along',
      'between Leg and Post across',
    ]);
    expect(texts('between Leg ac')).toEqual(['between Leg across']);
  });

  it('nothing is offered once it is written out, and behind a comma the next phrase is', () => {
    expect(texts('four corners of Top')).toEqual([]);
    expect(texts('upright')).toEqual([]);
    expect(texts('four corners of Top, und')).toContain('under Top');
  });

  it('what can be read as it is stays so unless another is chosen', () => {
    expect(offered('both ends')).toMatchObject([{ asked: true }, { asked: true }, { asked: true }]);
    expect(offered('both end').some((one) => one.asked === true)).toBe(false);
  });

  it('nothing is offered in a cell for anything else', () => {
    expect(offered('f', 0)).toEqual([]);
  });
});

describe('a phrase', () => {
  it('is what stands between commas around the caret', () => {
    expect(phraseAt('on Leg, under T', 15)).toEqual({ start: 8, end: 15 });
    expect(phraseAt('on Leg, under T', 2)).toEqual({ start: 0, end: 6 });
  });
});
