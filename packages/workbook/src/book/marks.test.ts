import { loadText, saveText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const at = (book: Workbook, address: string) => {
  const place = book.find(address, 's1');
  if (place === undefined) throw new Error(address);
  return place;
};
const markOf = (book: Workbook, address: string) => book.cell(at(book, address)).mark?.state;
const type = (book: Workbook, address: string, text: string) => {
  const { sheet, row, column } = at(book, address);
  return book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
};

function withCheck(rows: number[][] = [[5, 7], [6, 8], [1]], cells = '=Base!A1:A2'): Workbook {
  const book = bookOf({ sheets: { Base: rows } });
  const done = book.apply({
    do: 'setChecks',
    checks: [
      {
        id: 'k1',
        name: 'Narrow enough',
        sheet: 's1',
        formula: book.keptFormula('=MAX(Base!A1:A2)<=10'),
        severity: 'stop',
        says: 'Too wide for the jointer.',
        cells: book.keptFormula(cells),
      },
    ],
  });
  expect(done.ok).toBe(true);
  return book;
}

describe('cells that a check marks', () => {
  it('K4 bear its sign while it is not true, and are reported', () => {
    const book = withCheck();
    expect(markOf(book, 'A1')).toBeUndefined();
    const done = type(book, 'A2', '12');
    expect(done.ok && done.changed.map(({ row, column }) => [row, column])).toEqual(
      expect.arrayContaining([
        [1, 0],
        [0, 0],
      ]),
    );
    expect(book.cell(at(book, 'A1')).mark).toEqual({
      state: 'stop',
      says: 'Too wide for the jointer.',
    });
    expect(markOf(book, 'B1')).toBeUndefined();
    expect(markOf(book, 'A3')).toBeUndefined();
    book.undo();
    expect(markOf(book, 'A1')).toBeUndefined();
  });

  it('are all painted anew where they are too many to name', () => {
    const rows = Array.from({ length: 250 }, () => Array.from({ length: 100 }, () => 1));
    const many = type(withCheck(rows, '=Base!A1:CV250'), 'A2', '12');
    expect(many).toMatchObject({ ok: true, structure: true });
    const some = type(withCheck(rows, '=Base!A1:CV2'), 'A2', '12');
    expect(some).toMatchObject({ ok: true, structure: false });
    expect(some.ok && some.changed).toHaveLength(200);
  });

  it('K4 follow inserting, deleting and moving, and are saved', () => {
    const book = withCheck();
    type(book, 'A2', '12');
    book.apply({ do: 'insertRows', sheet: 's1', at: 1, rows: [{ id: 'r90' }] });
    expect(['A1', 'A2', 'A3', 'A4'].map((one) => markOf(book, one))).toEqual([
      'stop',
      'stop',
      'stop',
      undefined,
    ]);
    expect(book.checkForms()[0]?.cells).toBe('=Base!A1:A3');
    const from = { row: 0, column: 0, rows: 3, columns: 1 };
    book.apply({ do: 'moveCells', sheet: 's1', from, to: { sheet: 's1', row: 0, column: 3 } });
    expect([markOf(book, 'A1'), markOf(book, 'D3')]).toEqual([undefined, 'stop']);
    const loaded = loadText(saveText(book.document()));
    expect(loaded.ok && loaded.document).toEqual(book.document());
    book.apply({ do: 'deleteRows', sheet: 's1', at: 0, count: 1 });
    expect(book.checkForms()[0]?.cells).toBe('=Base!D1:D2');
    book.undo();
    expect(book.checkForms()[0]?.cells).toBe('=Base!D1:D3');
  });
});

describe('a locked workbook', () => {
  it('O4 refuses every other change, with a sentence', () => {
    const book = bookOf({ sheets: { Base: [[5, '=A1*2'], [6]] } });
    book.apply({
      do: 'describeCells',
      sheet: 's1',
      cells: [{ row: 0, column: 0, traits: { role: 'input' } }],
    });
    book.apply({ do: 'setBook', set: { locked: true } });
    const before = book.document();
    for (const refused of [
      type(book, 'B1', '3'),
      type(book, 'A2', '3'),
      book.apply({ do: 'clear', sheet: 's1', cells: [{ row: 0, column: 1 }] }),
      book.apply({ do: 'deleteRows', sheet: 's1', at: 0, count: 1 }),
      book.apply({ do: 'setChecks', checks: [] }),
      book.apply({
        do: 'batch',
        edits: [
          { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text: '9' }] },
          { do: 'enter', sheet: 's1', cells: [{ row: 1, column: 0, text: '9' }] },
        ],
      }),
    ]) {
      expect(refused).toMatchObject({ ok: false, code: 'W15' });
    }
    expect(book.document()).toEqual(before);
    expect(book.lockOf(at(book, 'B1'))?.says).toContain('B1 stays as it is');
    expect(book.lockOf(at(book, 'A1'))).toBeUndefined();
    expect(type(book, 'A1', '9').ok).toBe(true);
    expect(book.value(at(book, 'B1'))).toEqual({ kind: 'number', number: 18 });
    expect(book.apply({ do: 'freeze', sheet: 's1', rows: 1 }).ok).toBe(true);
    // A log is carried out again whatever may be changed now.
    const insert = { do: 'insertRows', sheet: 's1', at: 2, rows: [{ id: 'r90' }] } as const;
    expect(book.apply(insert, 'again').ok).toBe(true);
    book.undo();
    book.undo();
    book.undo();
    expect(book.document()).toEqual(before);
    book.apply({ do: 'setBook', set: { locked: null } });
    expect(type(book, 'A2', '3').ok).toBe(true);
  });
});
