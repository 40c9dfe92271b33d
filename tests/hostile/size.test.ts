import { type BookDocument, loadText, saveText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { specimen } from './specimen.ts';

const ROWS = 5000;
const COLUMNS = 10;

/** 50,000 cells: a number in each row and nine formulas that rest on it and on the row above. */
function large(): BookDocument {
  const columns = Array.from({ length: COLUMNS }, (_, i) => ({ id: `c${i + 1}` }));
  const rows = Array.from({ length: ROWS }, (_, row) => ({
    id: `r${row + 1}`,
    cells: Object.fromEntries(
      columns.map(({ id }, column) => [
        id,
        column === 0
          ? { value: row + 1 }
          : { formula: `=[c${column}.r${row + 1}]+[c1.r${Math.max(1, row)}]` },
      ]),
    ),
  }));
  const document = specimen();
  document.sheets[1] = { id: 's2', name: 'Large', columns, rows };
  return document;
}

describe('a workbook of 50,000 cells', () => {
  const text = saveText(large());

  it('opens, computes, changes, saves and comes back in a time a maker can wait', () => {
    const loaded = loadText(text);
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    // The last row: 5000 and then nine times the number of the row above it.
    const last = { sheet: 's2', row: ROWS - 1, column: COLUMNS - 1 };
    expect(book.value(last)).toEqual({ kind: 'number', number: 5000 + 9 * 4999 });
    const result = book.apply({
      do: 'enter',
      sheet: 's2',
      cells: [{ row: ROWS - 2, column: 0, text: '1' }],
    });
    if (!result.ok) throw new Error(result.says);
    expect(book.value(last)).toEqual({ kind: 'number', number: 5000 + 9 });
    // Its own row, and the nine formulas of the row below.
    expect(result.changed).toHaveLength(10 + 9);
    book.undo();
    expect(saveText(book.document())).toBe(text);
  });

  it('is refused whole when one of its cells is damaged, and the sentence points there', () => {
    const spoilt = text.replace('"=[c9.r4321]', '"[c9.r4321]');
    expect(spoilt).not.toBe(text);
    const loaded = loadText(spoilt);
    expect(loaded).toMatchObject({ ok: false, code: 'D4' });
    if (!loaded.ok) expect(loaded.says).toMatch(/sheets 2, rows 4321, cells, c10/);
  });
});

describe('limits', () => {
  it('a sheet as long and one as wide as may be still opens', () => {
    const document = specimen();
    document.sheets[1] = {
      id: 's2',
      name: 'Wide',
      columns: Array.from({ length: 702 }, (_, i) => ({ id: `c${i + 1}` })),
      rows: Array.from({ length: 10_000 }, (_, i) => ({ id: `r${i + 1}` })),
    };
    const loaded = loadText(JSON.stringify(document));
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    const cells = [{ row: 9999, column: 701, text: '=B9999+1' }];
    expect(book.apply({ do: 'enter', sheet: 's2', cells })).toMatchObject({ ok: true });
    expect(book.value({ sheet: 's2', row: 9999, column: 701 })).toMatchObject({ number: 1 });
  });

  it.each([
    [10_000, 0],
    [0, 702],
  ])('typing past the last row or column (%i, %i) is refused with a sentence', (row, column) => {
    const book = Workbook.open(specimen());
    const result = book.apply({ do: 'enter', sheet: 's2', cells: [{ row, column, text: '1' }] });
    expect(result).toMatchObject({ ok: false, says: expect.stringMatching(/10000 rows/) });
  });
});
