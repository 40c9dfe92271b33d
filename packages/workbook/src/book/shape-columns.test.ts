import { SHAPE_COLUMNS } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { shapeColumnsEdit } from './shape-columns.ts';
import { shopTableEdit } from './shop-tables.ts';

function begun() {
  const book = bookOf({ units: 'us', sheets: { Notes: [['Stool']] } });
  const edit = shopTableEdit(book, 'parts');
  if (edit === undefined || !book.apply(edit).ok) throw new Error('no table');
  const table = book.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined) throw new Error('no table');
  return { book, table };
}
const headsOf = ({ book, table }: ReturnType<typeof begun>): readonly string[] =>
  Array.from({ length: book.sheet(table.sheet)?.columns ?? 0 }, (_, column) => {
    const value = book.value({ sheet: table.sheet, row: table.header, column });
    return value.kind === 'text' ? value.text : '';
  });

describe('columns for shapes', () => {
  it('come behind the heads there are, each with what it is for, in one step', () => {
    const made = begun();
    const { book, table } = made;
    const before = headsOf(made);
    const edit = shapeColumnsEdit(book);
    expect(edit && book.apply(edit).ok).toBe(true);
    expect(headsOf(made)).toEqual([...before, ...SHAPE_COLUMNS]);
    const column = headsOf(made).indexOf('taper to');
    const at = { sheet: table.sheet, row: table.header, column };
    expect(book.cell(at).remark).toContain('The size left at the foot');
    expect(
      book.apply({
        do: 'enter',
        sheet: table.sheet,
        cells: [{ row: table.header + 1, column, text: '1 1/2' }],
      }).ok,
    ).toBe(true);
    expect(book.cell({ ...at, row: table.header + 1 }).shown.text).toBe('1 1/2');
    expect(shapeColumnsEdit(book)).toBeUndefined();
    book.undo();
    book.undo();
    expect(headsOf(made)).toEqual(before);
  });

  it('leave out those that are there, and need a parts table', () => {
    const made = begun();
    const { book, table } = made;
    const column = headsOf(made).indexOf('board length');
    const written = {
      do: 'enter',
      sheet: table.sheet,
      cells: [{ row: table.header, column, text: 'Edge' }],
    } as const;
    expect(book.apply(written).ok).toBe(true);
    const edit = shapeColumnsEdit(book);
    expect(edit && book.apply(edit).ok).toBe(true);
    expect(headsOf(made).filter((head) => head.toLowerCase() === 'edge')).toEqual(['Edge']);
    expect(
      shapeColumnsEdit(bookOf({ units: 'us', sheets: { Notes: [['Stool']] } })),
    ).toBeUndefined();
  });
});
