import { mergeLogs } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';
import { ownTableEdit } from './own-sheet.ts';
import { SHOP_COLUMNS, type ShopTable, shopTableEdit, shopTablesEdit } from './shop-tables.ts';

/** A workbook after a table was begun with the button. */
const begun = (book: Workbook, kind: ShopTable): Workbook => {
  const edit = shopTableEdit(book, kind);
  if (edit === undefined) throw new Error('there is a table already');
  expect(book.apply(edit)).toMatchObject({ ok: true });
  return book;
};

const words = (book: Workbook, sheet: string, row: number): readonly string[] =>
  [0, 1, 2, 3].map((column) => book.cell({ sheet, row, column }).shown.text);

describe('tables that two makers begin in copies of one workbook', () => {
  const begunIn = (kind: ShopTable | 'woods' | 'screws') => {
    const book = bookOf({ sheets: { Sheet: [[1]] } });
    const edit =
      kind === 'woods' || kind === 'screws' ? ownTableEdit(book, kind) : shopTableEdit(book, kind);
    const before = book.document();
    const done = edit === undefined ? undefined : book.apply(edit);
    if (done?.ok !== true) throw new Error('it could not be begun');
    return { before, log: { name: kind, changes: done.edit.changes } };
  };
  const merged = (one: Parameters<typeof begunIn>[0], other: Parameters<typeof begunIn>[0]) => {
    const [first, second] = [begunIn(one), begunIn(other)];
    const done = mergeLogs(first.before, [first.log, second.log]);
    if (!done.ok) throw new Error(done.says);
    return done.document.sheets.map(({ name }) => name).sort();
  };

  it.each([
    ['parts', 'stock', ['Parts', 'Sheet', 'Stock']],
    ['woods', 'stock', ['My woods', 'Sheet', 'Stock']],
    ['parts', 'joints', ['Joints', 'Parts', 'Sheet']],
    ['joints', 'joints', ['Joints', 'Sheet']],
    ['screws', 'woods', ['My screws', 'My woods', 'Sheet']],
    ['woods', 'woods', ['My woods', 'Sheet']],
  ] as const)(
    'F4 are two where they are %s and %s, and one where they are the same',
    (...words) => {
      const [one, other, sheets] = words;
      expect(merged(one, other)).toEqual(sheets);
    },
  );
});

describe('a stock table', () => {
  it('says in its note how boards one has cost nothing, short enough to be seen whole', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[null]] } }), 'stock');
    const [table] = book.tables();
    const [, note = ''] = words(book, table?.sheet ?? '', 1);
    expect(note).toContain('price 0');
    // Beyond some ninety letters the columns of the table end.
    expect(note.length).toBeLessThan(90);
  });
});

describe('a joints table', () => {
  it('is begun with its heads, each explained, and says in a line how its rows are meant', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[null]] } }), 'joints');
    const [{ kind, sheet, header } = { kind: '', sheet: '', header: 0 }] = book.tables();
    expect([kind, book.sheet(sheet)?.name]).toEqual(['joints', 'Joints']);
    const heads = SHOP_COLUMNS.joints.map((_, column) => book.cell({ sheet, row: header, column }));
    expect(heads.map(({ shown }) => shown.text)).toEqual(
      SHOP_COLUMNS.joints.map(({ heads }) => heads),
    );
    for (const { shown, remark } of heads) expect(remark, shown.text).toMatch(/\.$/);
    const [, note = ''] = words(book, sheet, 1);
    expect(note.length).toBeLessThan(90);
    expect(Workbook.open(book.document()).tables()).toEqual(book.tables());
    expect(shopTableEdit(book, 'joints')).toBeUndefined();
  });
});

describe('both tables of a new workbook', () => {
  it('come in one step of undo, with the kerf asked for and the names in view', () => {
    const book = bookOf({ sheets: { Sheet: [[null]] } });
    const edit = shopTablesEdit(book);
    if (edit === undefined) throw new Error('there are tables already');
    const done = book.apply(edit);
    expect(done).toMatchObject({ ok: true });
    expect(book.tables().map(({ kind }) => kind)).toEqual(['parts', 'stock']);
    expect(book.sheets().map(({ name }) => name)).toEqual(['Sheet', 'Parts', 'Stock']);
    expect(book.named('kerf')).toMatchObject({ role: 'input', value: { kind: 'empty' } });
    for (const { sheet, header } of book.tables()) {
      expect(book.sheet(sheet)).toMatchObject({ frozenColumns: 1, frozenRows: header + 1 });
      // Every head says what belongs under it.
      for (let column = 0; column < (book.sheet(sheet)?.columns ?? 0); column++) {
        const { shown, remark } = book.cell({ sheet, row: header, column });
        expect(remark, shown.text).toMatch(/\.$/);
      }
    }
    const saved = Workbook.open(book.document());
    expect(saved.tables()).toEqual(book.tables());
    expect(shopTablesEdit(book)).toBeUndefined();
  });

  it('add the one that is missing, and are the same as one after the other', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[1]] } }), 'parts');
    const edit = shopTablesEdit(book);
    expect(edit).toEqual(shopTableEdit(book, 'stock'));
    const together = bookOf({ sheets: { Sheet: [[1]] } });
    const both = shopTablesEdit(together);
    if (both !== undefined) together.apply(both);
    expect(together.document()).toEqual(begun(book, 'stock').document());
  });

  it('have no heads for what places in words say', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[1]] } }), 'parts');
    const [{ sheet = '', header = 0 } = {}] = book.tables();
    const heads = Array.from(
      { length: book.sheet(sheet)?.columns ?? 0 },
      (_, column) => book.cell({ sheet, row: header, column }).shown.text,
    );
    expect(heads).toContain('place');
    expect(heads.filter((head) => /^step|^turn$/.test(head))).toEqual([]);
  });
});

describe('a stock table that is begun', () => {
  it.each([
    ['us', 'in', '1/8 in'],
    ['metric', 'mm', '3 mm'],
  ] as const)('asks for the kerf in a blank input of its own (%s)', (units, unit, usual) => {
    const book = begun(bookOf({ units, sheets: { Sheet: [[1]] } }), 'stock');
    const kerf = book.named('kerf');
    expect(kerf).toMatchObject({ role: 'input', quantity: 'length', value: { kind: 'empty' } });
    const { sheet, row, column } = kerf?.at ?? { sheet: '', row: 0, column: 0 };
    expect(column).toBe(1);
    const [label, , says, note] = words(book, sheet, row);
    expect([label, says]).toEqual(['Saw kerf', unit]);
    expect(note).toContain(`About ${usual} is common practice; measure yours.`);
    const [table] = book.tables();
    expect(table).toMatchObject({ kind: 'stock', sheet, header: row + 2, last: row + 32 });
    expect(words(book, sheet, row + 2)).toEqual(['stock', 'material', 'thickness', 'width']);
    // It is an entry like any other: typed in fractions, kept, and a slip of the pen is told.
    book.apply({
      do: 'enter',
      sheet,
      cells: [{ row, column, text: units === 'us' ? '1/8' : '3' }],
    });
    expect(book.named('kerf')?.value).toEqual({
      kind: 'number',
      number: units === 'us' ? 0.125 : 3,
    });
    book.apply({ do: 'enter', sheet, cells: [{ row, column, text: '18' }] });
    expect(book.problems()).toHaveLength(1);
  });

  it('leaves a kerf alone that the workbook has already', () => {
    const book = bookOf({ sheets: { Sheet: [[0.125]] } });
    book.apply({ do: 'nameCell', at: { sheet: 's1', row: 0, column: 0 }, name: 'kerf' });
    begun(book, 'stock');
    expect(book.named('kerf')?.at.sheet).toBe('s1');
    const [table] = book.tables();
    // The end trim is still asked for.
    expect(book.named('end_trim')?.at).toMatchObject({ sheet: table?.sheet, row: 2 });
    expect(table?.header).toBe(3);
  });

  it('asks what is trimmed off the ends of boards, which may stay blank', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[1]] } }), 'stock');
    const trim = book.named('end_trim');
    expect(trim).toMatchObject({ role: 'input', quantity: 'length', value: { kind: 'empty' } });
    const [label, , unit, note] = words(book, trim?.at.sheet ?? '', trim?.at.row ?? 0);
    expect([label, unit]).toEqual(['Trimmed off each end', 'in']);
    expect(note).toContain('blank for nothing');
    expect(note?.length).toBeLessThan(90);
  });

  it('is one step of undo with its kerf, and a parts table brings none', () => {
    const book = begun(bookOf({ sheets: { Sheet: [[1]] } }), 'stock');
    const saved = Workbook.open(book.document());
    expect(saved.named('kerf')?.address).toBe('B3');
    const parts = begun(bookOf({ sheets: { Sheet: [[1]] } }), 'parts');
    expect(parts.named('kerf')).toBeUndefined();
    expect(parts.tables()[0]?.header).toBe(2);
  });
});
