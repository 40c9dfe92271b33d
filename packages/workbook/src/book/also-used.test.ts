import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';
import { shopTableEdit } from './shop-tables.ts';

/** An invented stool: a height that only a check reads, another that only a sentence shows. */
const stool = (): Workbook =>
  bookOf({
    sheets: {
      Seat: [
        ['Height', { value: 18, name: 'height', role: 'input' }, 'in'],
        ['Wanted', { value: 17, name: 'wanted', role: 'input' }, 'in'],
        ['Alone', { value: 3, name: 'alone', role: 'input' }],
        ['Bare', 4, 'in', 5],
        ['Sum', '=[c4.r4]*2'],
      ],
    },
    checks: [
      {
        id: 'k1',
        name: 'Seat height',
        formula: '=height>=16',
        severity: 'care',
        says: 'The seat is {height}; wanted is {wanted}.',
      },
    ],
  });
const at = (book: Workbook, name: string) => {
  const found = book.find(name, 's1');
  if (found === undefined) throw new Error(name);
  return found;
};

describe('who uses a cell beside formulas', () => {
  it('X1 S9 are steps that show it, by their titles', () => {
    const book = stool();
    const begin = shopTableEdit(book, 'steps');
    if (begin === undefined) throw new Error('there is a table already');
    book.apply(begin);
    const [table] = book.tables();
    const { sheet = '', header = 0 } = table ?? {};
    const cells = [
      { row: header + 1, column: 0, text: 'Cut the legs' },
      { row: header + 1, column: 1, text: 'Cut them {Alone} long.' },
    ];
    book.apply({ do: 'enter', sheet, cells });
    expect(book.alsoUsedBy(at(book, 'alone'))).toEqual(['the step "Cut the legs"']);
  });

  it('X1 are checks, by their formula or by their sentence', () => {
    const book = stool();
    expect(book.alsoUsedBy(at(book, 'height'))).toEqual(['the check "Seat height"']);
    expect(book.alsoUsedBy(at(book, 'wanted'))).toEqual(['the check "Seat height"']);
    expect(book.alsoUsedBy(at(book, 'alone'))).toEqual([]);
    expect(book.explain(at(book, 'height')).alsoUsedBy).toEqual(['the check "Seat height"']);
  });

  it('X1 are the tables that drawings and plans are made from, and the plan of a kerf', () => {
    const book = stool();
    const parts = shopTableEdit(book, 'parts');
    if (parts !== undefined) book.apply(parts);
    const stock = shopTableEdit(book, 'stock');
    if (stock !== undefined) book.apply(stock);
    const [table] = book.tables();
    const row = { sheet: table?.sheet ?? '', row: (table?.header ?? 0) + 1, column: 4 };
    expect(book.alsoUsedBy(row)).toEqual(['the parts table']);
    expect(book.alsoUsedBy({ ...row, row: table?.header ?? 0 })).toEqual(['the parts table']);
    expect(book.alsoUsedBy({ ...row, row: 0 })).toEqual([]);
    const kerf = book.named('kerf')?.at ?? row;
    expect(book.alsoUsedBy(kerf)).toEqual(['the cutting plan']);
    expect(book.alsoUsedBy({ ...row, row: 0, column: 5 })).toEqual([]);
    expect(book.alsoUsedBy(book.named('end_trim')?.at ?? row)).toEqual(['the cutting plan']);
  });

  it('X1 call a cell by the words in front of it, not by the unit of another, and by its head in a table', () => {
    const book = stool();
    const [sum] = book.usedBy({ sheet: 's1', row: 3, column: 3 });
    expect(sum?.label).toBe('Sum');
    const [bare] = book.explain(at(book, 'B5')).uses;
    expect(bare?.label).toBe('Bare');
    const parts = shopTableEdit(book, 'parts');
    if (parts !== undefined) book.apply(parts);
    const [table] = book.tables();
    const { sheet = '', header = 0 } = table ?? {};
    const cells = ['Leg', '4', '2', '2', '16', 'Oak', 'length', 'on Top', '1'].map(
      (text, column) => ({
        row: header + 1,
        column,
        text,
      }),
    );
    book.apply({ do: 'enter', sheet, cells });
    const name = book.sheet(sheet)?.name ?? '';
    book.apply({
      do: 'enter',
      sheet: 's1',
      cells: [
        { row: 6, column: 1, text: `=${name}!I${header + 2}` },
        { row: 7, column: 1, text: `=${name}!E${header + 2}` },
      ],
    });
    const label = (row: number) =>
      book.explain({ sheet: 's1', row, column: 1 }).uses.map((one) => one.label);
    // What stands in front of x is the place: no name for it.
    expect([label(6), label(7)]).toEqual([['Leg, x'], ['Leg, length']]);
  });
});
