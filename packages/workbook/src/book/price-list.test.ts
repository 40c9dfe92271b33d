import type { Sketch } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';
import { shopTableEdit } from './shop-tables.ts';

const inches = (value: number): Sketch => ({ value, quantity: 'length' });

/** An invented shop with a price list on a sheet of its own, and what rests on it on another. */
const shop = () =>
  bookOf({
    sheets: {
      Cost: [
        [{ name: 'species', value: 'white oak' }],
        [{ name: 'rough', value: 2, quantity: 'length' }],
        [{ name: 'rate', formula: '=WOOD_PRICE(species,rough)', quantity: 'money_per_boardfoot' }],
        [{ name: 'sheet_price', formula: '=PIECE_PRICE("birch plywood")', quantity: 'money' }],
        [{ name: 'or_else', formula: '=IFNA(WOOD_PRICE("ebony",rough),40)' }],
      ],
      Yard: [
        ['wood', 'thickness', 'grade', 'price', 'per', 'day'],
        ['white oak', inches(1), null, 8, 'board foot', 46000],
        ['white oak', inches(2), null, 9, null, 46000],
        ['birch plywood', inches(0.75), null, 62, 'piece', 46000],
        [null, null, null, null, null, null],
      ],
    },
    tables: [{ id: 't1', kind: 'prices', sheet: 's2', header: 'r1', last: 'r5' }],
  });

const at = (book: Workbook, name: string): number | string => {
  const value = book.named(name)?.value;
  if (value?.kind === 'number') return value.number;
  return value?.kind === 'error' ? `${value.error.word} ${value.error.says}` : '';
};

const type = (book: Workbook, sheet: string, row: number, column: number, text: string): void => {
  expect(book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] }).ok).toBe(true);
};

describe('a price list', () => {
  it('T1 is looked in by wood and thickness, and says what it has not', () => {
    const book = shop();
    expect([at(book, 'rate'), at(book, 'sheet_price'), at(book, 'or_else')]).toEqual([9, 62, 40]);
    type(book, 's1', 1, 0, '1');
    expect(at(book, 'rate')).toBe(8);
    type(book, 's1', 1, 0, '3');
    expect(at(book, 'rate')).toBe(
      '#N/A thickness of WOOD_PRICE 3 in is not in the price list; it takes up to 2 in, the thickest white oak in it. Add a row for it, or one without a thickness.',
    );
    type(book, 's1', 0, 0, 'black walnut');
    expect(at(book, 'rate')).toContain(
      '#N/A wood of WOOD_PRICE "black walnut" is not in the price list',
    );
  });

  it('T2 changes what rests on it at once, by a price or by a row asked for later', () => {
    const book = shop();
    type(book, 's2', 2, 3, '9.75');
    expect(at(book, 'rate')).toBe(9.75);
    for (const [column, text] of ['white oak', '2', '', '10.5', '', '46100'].entries()) {
      if (text !== '') type(book, 's2', 4, column, text);
    }
    expect(at(book, 'rate')).toBe(10.5);
    book.apply({ do: 'deleteRows', sheet: 's2', at: 4, count: 1 });
    expect(at(book, 'rate')).toBe(9.75);
  });

  it('T1 comes to the same in a metric workbook, whatever a thickness is sold as', () => {
    const book = shop();
    expect(book.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    // 2 in is 50.8 mm, and sold as 50.
    for (const thick of ['50', '50.8', '52']) {
      type(book, 's1', 1, 0, thick);
      expect(at(book, 'rate'), thick).toBe(9);
    }
    type(book, 's1', 1, 0, '60');
    expect(at(book, 'rate')).toContain('thickness of WOOD_PRICE 60 mm is not in the price list');
    type(book, 's1', 1, 0, '25');
    expect(at(book, 'rate')).toBe(8);
  });

  it('T3 is an error in every formula that looks in it, where its heads are gone', () => {
    const book = shop();
    type(book, 's2', 0, 0, 'tree');
    expect(at(book, 'rate')).toContain(
      'The table of prices of this workbook has no column headed wood. Head one so.',
    );
  });

  it('is begun on a sheet of its own, and read from its first row on', () => {
    const book = Workbook.open({ ...shop().document(), tables: [] });
    expect(at(book, 'rate')).toContain('this workbook has no price list');
    const edit = shopTableEdit(book, 'prices');
    expect(edit !== undefined && book.apply(edit).ok).toBe(true);
    const table = book.tables().find(({ kind }) => kind === 'prices');
    expect(book.sheet(table?.sheet ?? '')?.name).toBe('Price list');
    const row = (table?.header ?? 0) + 1;
    const texts = ['white oak', '8/4', 'FAS', '$11.25', 'bd ft', '2026-10-01'];
    for (const [column, text] of texts.entries()) type(book, table?.sheet ?? '', row, column, text);
    expect(at(book, 'rate')).toBe(11.25);
  });
});
