import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';

/** A file of rows with signs between their fields, taken in with its list of parts, and opened. */
function taken(csv: string, how: Parameters<typeof importFile>[2] = { parts: true }) {
  const read = importFile(new TextEncoder().encode(csv), 'List.csv', how);
  if (!read.ok) throw new Error(read.says);
  const book = Workbook.open(read.document);
  const table = book.tables().find(({ kind }) => kind === 'parts');
  const at = (row: number, column: number) =>
    book.cell({ sheet: table?.sheet ?? '', row: (table?.header ?? 0) + row, column });
  return { ...read, book, table, at };
}

describe('a list of parts in a file', () => {
  it('is found by its heads, ends at its last part, and gets heads for what a plan asks', () => {
    const { parts, table, at } = taken(
      'Kitchen table\n\nItem,Qty,T,W,L\nLeg,4,2,2,28\nTop,1,1,30,60\nSum,5,,,\n',
    );
    expect(parts.map(({ says, count }) => [says, count])).toEqual([
      ['Rows 4 to 5 of List look like a list of parts: Item (A), Qty (B), T (C), W (D), L (E).', 2],
    ]);
    expect(parts[0]?.first).toEqual([
      ['Leg', '4', '2', '2', '28'],
      ['Top', '1', '1', '30', '60'],
    ]);
    expect(table).toMatchObject({ header: 2, last: 4 });
    const heads = [0, 1, 2, 3, 4, 5, 6, 7].map((column) => at(0, column).entry);
    expect(heads).toEqual([
      'part',
      'count',
      'thickness',
      'width',
      'length',
      'material',
      'boards',
      'place',
    ]);
    expect(at(0, 2).remark).toBe('In the file: T');
    expect(at(1, 4)).toMatchObject({ quantity: 'length', value: { kind: 'number', number: 28 } });
    expect(at(1, 6)).toMatchObject({ quantity: 'count', role: 'input', entry: '' });
  });

  it('has sizes that are written as words where they are sizes, and the words where they are none', () => {
    const { at } = taken('Part,Qty,Thick,Width,Length\nRail,2,3/4,3-1/2,28 1/2"\nBar,1,x,2,30\n');
    expect(at(1, 3)).toMatchObject({ value: { kind: 'number', number: 3.5 } });
    expect(at(1, 4)).toMatchObject({ value: { kind: 'number', number: 28.5 } });
    expect(at(2, 2).problem?.says).toBeDefined();
  });

  it('in centimeters comes in millimeters, ten times as many', () => {
    const { book, at, guesses } = taken(
      'Part;Qty;Thick (cm);Width (cm);Length (cm)\nRail;2;2;8,5;120\nLeg;4;6;6;71\n',
    );
    expect(book.units).toBe('metric');
    expect(guesses.filter(({ unit }) => unit === 'cm').map(({ turns }) => turns)).toEqual([
      true,
      true,
      true,
    ]);
    expect([2, 3, 4].map((column) => at(1, column).value)).toEqual(
      [20, 85, 1200].map((number) => ({ kind: 'number', number })),
    );
  });

  it('is read line by line where it has no heads, and comes into a table beside it', () => {
    const { parts, book, table, at } = taken(
      '4 legs 2 x 2 x 28\n2 aprons 3/4 x 4 x 40\n1 top 1 x 30 x 60 white oak\n',
    );
    expect(parts[0]?.says).toBe('3 lines of List look like parts, such as "4 legs 2 x 2 x 28".');
    expect(book.sheets().map(({ name }) => name)).toEqual(['List', 'Parts']);
    expect(table?.sheet).toBe(book.sheets()[1]?.id);
    expect([0, 1, 2, 3, 4, 5].map((column) => at(3, column).entry)).toEqual([
      'top',
      '1',
      '1',
      '30',
      '60',
      'white oak',
    ]);
    expect(parts[0]?.woods).toEqual(['white oak']);
    expect(taken('Some words\nand more\nof a letter\nto nobody\n').parts).toEqual([]);
  });

  it('stays as it is where nobody asks for it', () => {
    const csv = 'Item,Qty,T,W,L\nLeg,4,2,2,28\n';
    expect(taken(csv, {}).table).toBeUndefined();
    expect(taken(csv, {}).parts).toHaveLength(1);
    expect(taken(csv, { parts: 1 }).table).toBeUndefined();
  });

  it('has what it is cut from beside it, and the kerf where it was said', () => {
    const shop = {
      kerf: '1/8',
      boards: [{ stock: '8/4 oak', thickness: '2', width: '6', length: "8'", price: '40' }],
    };
    const { book } = taken('Item,Qty,T,W,L\nLeg,4,2,2,28\n', { parts: true, shop });
    expect(book.named('kerf')?.value).toEqual({ kind: 'number', number: 0.125 });
    expect(book.tables().map(({ kind }) => kind)).toEqual(['parts', 'stock']);
    const stock = book.tables()[1];
    expect(
      book.cell({ sheet: stock?.sheet ?? '', row: (stock?.header ?? 0) + 1, column: 4 }).value,
    ).toEqual({ kind: 'number', number: 96 });
    const wrong = importFile(new TextEncoder().encode('Item,Qty,T,W,L\nLeg,4,2,2,28\n'), 'a.csv', {
      parts: true,
      shop: { kerf: 'thin', boards: [] },
    });
    expect(wrong).toMatchObject({ ok: false, says: expect.stringMatching(/^The saw kerf: /) });
  });
});
