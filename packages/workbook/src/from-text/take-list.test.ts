import { describe, expect, it } from 'vitest';
import { SHOP_COLUMNS } from '../book/shop-tables.ts';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';
import { listContext } from './list-context.ts';
import { readList } from './read-list.ts';
import { takeList } from './take-list.ts';
import type { ListKind } from './types.ts';

const plain = (): Workbook => bookOf({ sheets: { Sheet: [[null]] } });

function take(book: Workbook, kind: ListKind, text: string) {
  const { rows } = readList(text, listContext(book, kind));
  const taking = takeList(
    book,
    kind,
    rows.map(({ texts }) => texts),
  );
  expect(book.apply(taking.edit)).toMatchObject({ ok: true });
  return taking;
}

/** The rows of a table that hold anything, each by what its cells show. */
function rowsOf(book: Workbook, kind: ListKind): readonly (readonly string[])[] {
  const table = book.tables().find((one) => one.kind === kind);
  if (table === undefined) return [];
  const { sheet, header, last } = table;
  return Array.from({ length: last - header }, (_, i) =>
    Array.from(
      { length: 7 },
      (_one, column) => book.cell({ sheet, row: header + 1 + i, column }).shown.text,
    ),
  ).filter((row) => row.some((text) => text !== ''));
}

const TEXT = '4 legs 3 1/2 x 3 1/2 x 28 1/2 walnut\nApron 2 pcs 7/8 x 4 x 5\' 2"';

describe('parts and boards from a text', () => {
  it('begin the table where there is none, in one step of undo', () => {
    const book = plain();
    const before = JSON.stringify(book.document());
    expect(take(book, 'parts', TEXT).missing).toEqual([]);
    expect(rowsOf(book, 'parts')).toEqual([
      ['legs', '4', '3 1/2', '3 1/2', '28 1/2', 'walnut', ''],
      ['Apron', '2', '7/8', '4', '62', '', ''],
    ]);
    expect(book.undo()).toMatchObject({ ok: true });
    expect(JSON.stringify(book.document())).toBe(before);
  });

  it('go on below what the table has, and into new rows within it once it is full', () => {
    const book = plain();
    take(book, 'parts', TEXT);
    take(book, 'parts', '1 Top 1 x 36 x 72');
    expect(rowsOf(book, 'parts').map(([name]) => name)).toEqual(['legs', 'Apron', 'Top']);
    take(
      book,
      'parts',
      Array.from(
        { length: 40 },
        (_, i) => `Slat${String.fromCharCode(65 + (i % 26))} 1/2 x 2 x ${20 + i}`,
      ).join('\n'),
    );
    expect(rowsOf(book, 'parts')).toHaveLength(43);
  });

  it('begin a table of as many rows as there are', () => {
    const book = plain();
    take(
      book,
      'parts',
      Array.from({ length: 50 }, (_, i) => `Slat 1/2 x 2 x ${20 + i}`).join('\n'),
    );
    const rows = rowsOf(book, 'parts');
    expect(rows.map(([, , , , length]) => length)).toEqual(
      Array.from({ length: 50 }, (_, i) => String(20 + i)),
    );
  });

  it('are boards with what they cost and how many there are', () => {
    const book = plain();
    take(book, 'stock', '8/4 walnut 8" x 10\' - 5 boards $9.50/bf');
    expect(rowsOf(book, 'stock')).toEqual([
      ['8/4 × 8" x 10\'', 'walnut', '1 3/4', '8', '120', '$126.67', '5'],
    ]);
  });

  it('stay words, whatever they begin with', () => {
    const book = plain();
    const { sheet } = take(
      book,
      'parts',
      "part\tqty\tthickness\twidth\tlength\n=1+1\t4\t3\t3\t28\n'x\t1\t3\t3\t28",
    );
    const header = book.tables()[0]?.header ?? 0;
    const cell = (row: number) => book.cell({ sheet, row: header + row, column: 0 });
    expect(cell(1)).toMatchObject({ value: { kind: 'text', text: '=1+1' } });
    expect(cell(1).formula).toBeUndefined();
    expect(cell(2)).toMatchObject({ value: { kind: 'text', text: "'x" } });
  });

  it('tell which columns the table lacks, and fill the others', () => {
    const book = plain();
    take(book, 'parts', TEXT);
    const [table] = book.tables();
    const sheet = table?.sheet ?? '';
    const column = SHOP_COLUMNS.parts.findIndex(({ heads }) => heads === 'material');
    book.apply({ do: 'deleteColumns', sheet, at: column, count: 1 });
    const { missing } = take(book, 'parts', 'Rail 3/4 x 3 x 20 oak');
    expect(missing).toEqual(['material']);
    expect(rowsOf(book, 'parts').at(-1)?.slice(0, 5)).toEqual(['Rail', '1', '3/4', '3', '20']);
  });
});
