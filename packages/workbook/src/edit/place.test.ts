import {
  loadText,
  nextForm,
  saveText,
  shiftedCell,
  shifting,
  transposedCell,
} from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const formula = (book: Workbook, address: string): string | undefined => {
  const at = book.find(address, 's1');
  return at === undefined ? undefined : book.cell(at).formula;
};
const number = (book: Workbook, address: string): number | undefined => {
  const at = book.find(address, 's1');
  const value = at === undefined ? undefined : book.value(at);
  return value?.kind === 'number' ? value.number : undefined;
};

describe('a formula copied elsewhere', () => {
  it.each([
    ['=A1', 1, 1, '=B2'],
    ['=$A$1+A1', 2, 1, '=$A$1+B3'],
    ['=$A1+A$1', 2, 3, '=$A3+D$1'],
    ['=SUM(A1:B$2)*2', 1, 0, '=SUM(A2:B$2)*2'],
    ["='Bob''s parts'!A1&\"A1\"", 1, 1, "='Bob''s parts'!B2&\"A1\""],
    ['=SUM(A:A)+SUM(3:3)', 2, 1, '=SUM(B:B)+SUM(5:5)'],
    ['=top+EMC(70,A1)', 1, 0, '=top+EMC(70,A2)'],
    ['=A1+B2', -1, 0, '=#REF!+B1'],
    ['=A1', 0, -1, '=#REF!'],
  ])('P1 %s by %i rows and %i columns', (from, rows, columns, to) => {
    expect(shifting(from)(rows, columns)).toBe(to);
    expect(shiftedCell({ formula: from, quantity: 'length' }, rows, columns)).toEqual({
      formula: to,
      quantity: 'length',
    });
  });

  it.each([
    // Copied from A3 to D1, rows as columns: what was above is at the left.
    ['=A2*2', '=C1*2'],
    ['=SUM(A1:A2)', '=SUM(B1:C1)'],
    ['=B3+$A$1', '=D2+$A$1'],
    ['=top', '=top'],
  ])('P1 %s turned, rows as columns', (before, after) => {
    const cell = transposedCell({ formula: before }, { row: 2, column: 0 }, { row: 0, column: 3 });
    expect(cell).toEqual({ formula: after });
  });

  it('P1 has its references cycled through their four forms', () => {
    const forms = ['B3', '$B$3', 'B$3', '$B3', 'B3'];
    for (let i = 0; i < 4; i += 1) expect(nextForm(forms[i] ?? '')).toBe(forms[i + 1]);
    expect(nextForm('Base!A1:B2')).toBe('Base!$A$1:$B$2');
    expect(nextForm('A:A')).toBe('$A:$A');
    expect(nextForm('top')).toBe('top');
  });
});

describe('cells that are placed', () => {
  it('P2 make the sheet larger where they or their references reach beyond it', () => {
    const book = bookOf({ sheets: { Base: [[1]] } });
    const done = book.apply({
      do: 'place',
      sheet: 's1',
      cells: [{ row: 3, column: 2, cell: { formula: '=A1+F9', quantity: 'length' } }],
    });
    expect(done.ok).toBe(true);
    expect(book.sheet('s1')).toMatchObject({ rows: 9, columns: 6 });
    expect(formula(book, 'C4')).toBe('=A1+F9');
    book.undo();
    expect(book.sheet('s1')).toMatchObject({ rows: 1, columns: 1 });
  });

  it('P2 are not placed at all where the sheet would be too large', () => {
    const book = bookOf({ sheets: { Base: [[1]] } });
    const cells = [0, 10_000].map((row) => ({ row, column: 0, cell: { value: 5 } }));
    expect(book.apply({ do: 'place', sheet: 's1', cells })).toMatchObject({
      ok: false,
      code: 'W2',
    });
    expect(number(book, 'A1')).toBe(1);
  });
});

describe('cells that are moved', () => {
  const start = () =>
    bookOf({
      sheets: {
        Base: [
          [{ value: 84, name: 'top' }, '=[c1.r1]/2', '=top+1'],
          [2, '=SUM([c1.r1]:[c1.r2])', '=SUM([c1.r1]:[c1.r3])'],
          [3, '=[$c1.$r2]*3', null],
        ],
        Other: [['=[s1!c1.r2]']],
      },
      checks: [
        { id: 'k', name: 'A', formula: '=[s1!c1.r2]>1', severity: 'care', says: 'Too little.' },
      ],
    });

  it('P3 are used where they are now, on other sheets and in checks too', () => {
    const book = start();
    book.apply({
      do: 'moveCells',
      sheet: 's1',
      from: { row: 0, column: 0, rows: 2, columns: 1 },
      to: { sheet: 's1', row: 4, column: 3 },
    });
    expect(formula(book, 'B1')).toBe('=D5/2');
    expect(formula(book, 'C1')).toBe('=top+1');
    expect(formula(book, 'B2')).toBe('=SUM(D5:D6)');
    expect(formula(book, 'C2')).toBe('=SUM(A1:A3)');
    expect(formula(book, 'B3')).toBe('=$D$6*3');
    expect(formula(book, 'Other!A1')).toBe('=Base!D6');
    expect(book.document().checks[0]?.formula).toBe('=[s1!cnew1.rnew4]>1');
    expect(book.find('top')).toEqual({ sheet: 's1', row: 4, column: 3 });
    expect(number(book, 'A1')).toBeUndefined();
    expect([number(book, 'B1'), number(book, 'B2'), number(book, 'B3')]).toEqual([42, 86, 6]);
    book.undo();
    expect(book.document()).toEqual(start().document());
  });

  it('P3 keep what their own formulas say, also on another sheet', () => {
    const book = start();
    book.apply({
      do: 'moveCells',
      sheet: 's1',
      from: { row: 0, column: 0, rows: 1, columns: 2 },
      to: { sheet: 's2', row: 1, column: 0 },
    });
    expect(formula(book, 'Other!B2')).toBe('=A2/2');
    expect(number(book, 'Other!B2')).toBe(42);
    expect(book.find('top')).toEqual({ sheet: 's2', row: 1, column: 0 });
    expect(number(book, 'C1')).toBe(85);
  });

  it('P3 may overlap where they were', () => {
    const book = start();
    book.apply({
      do: 'moveCells',
      sheet: 's1',
      from: { row: 0, column: 0, rows: 3, columns: 1 },
      to: { sheet: 's1', row: 1, column: 0 },
    });
    expect([1, 2, 3, 4].map((row) => number(book, `A${row}`))).toEqual([undefined, 84, 2, 3]);
    expect(formula(book, 'C2')).toBe('=SUM(A2:A4)');
  });
});

describe('columns and rows out of sight and in view', () => {
  it('S5 change no value, are saved, and are undone', () => {
    const book = bookOf({ sheets: { Base: [[2, '=A1*2', 3], [1], [2]] } });
    const first = book.document();
    book.apply({ do: 'hideColumns', sheet: 's1', columns: [0, 1], hidden: true });
    book.apply({ do: 'freeze', sheet: 's1', columns: 1 });
    book.apply({ do: 'setColumn', sheet: 's1', column: 0, width: 90 });
    expect(book.sheet('s1')).toMatchObject({ hidden: [0, 1], frozenColumns: 1 });
    book.apply({ do: 'hideRows', sheet: 's1', rows: [1, 2], hidden: true });
    book.apply({ do: 'freeze', sheet: 's1', rows: 2 });
    expect(book.sheet('s1')).toMatchObject({ hiddenRows: [1, 2], frozenColumns: 1, frozenRows: 2 });
    expect(number(book, 'B1')).toBe(4);
    const loaded = loadText(saveText(book.document()));
    expect(loaded.ok && loaded.document).toEqual(book.document());
    expect(book.apply({ do: 'freeze', sheet: 's1', columns: 99 })).toMatchObject({ ok: false });
    for (let i = 0; i < 5; i += 1) book.undo();
    expect(book.document()).toEqual(first);
  });

  it('S5 that were hidden already stay so when hiding more is undone', () => {
    const book = bookOf({ sheets: { Base: [[2, 1, 3]] } });
    book.apply({ do: 'hideColumns', sheet: 's1', columns: [1], hidden: true });
    book.apply({ do: 'hideColumns', sheet: 's1', columns: [0, 1], hidden: true });
    book.undo();
    expect(book.sheet('s1')?.hidden).toEqual([1]);
  });
});

describe('rows in groups', () => {
  const grouped = () => {
    const book = bookOf({ sheets: { Base: [[1], [2], [3], [4], [5], ['=SUM([c1.r1]:[c1.r5])']] } });
    const rows = [
      { row: 1, group: 1 },
      { row: 2, group: 2 },
      { row: 3, group: 2 },
      { row: 4, group: 1 },
    ];
    expect(book.apply({ do: 'groupRows', sheet: 's1', rows })).toMatchObject({ ok: true });
    return book;
  };
  const groups = (book: Workbook) =>
    book.sheet('s1')?.groups.map(({ first, last, depth }) => [depth, first, last]);

  it('S6 lie one inside the other, are saved, and are undone', () => {
    const book = grouped();
    expect(groups(book)).toEqual([
      [1, 1, 4],
      [2, 2, 3],
    ]);
    const loaded = loadText(saveText(book.document()));
    expect(loaded.ok && loaded.document).toEqual(book.document());
    book.undo();
    expect(groups(book)).toEqual([]);
    book.redo();
    expect(groups(book)).toHaveLength(2);
  });

  it('S6 are folded when none of their rows is in sight, and go on calculating', () => {
    const book = grouped();
    book.apply({ do: 'hideRows', sheet: 's1', rows: [2, 3], hidden: true });
    expect(book.sheet('s1')?.groups.map(({ folded }) => folded)).toEqual([false, true]);
    expect(number(book, 'A6')).toBe(15);
  });

  it('S6 take in a row that is put between two of them, and none at their edge', () => {
    const book = grouped();
    book.apply({ do: 'insertRows', sheet: 's1', at: 3, rows: [{ id: 'rnew1' }] });
    expect(groups(book)).toEqual([
      [1, 1, 5],
      [2, 2, 4],
    ]);
    book.apply({ do: 'insertRows', sheet: 's1', at: 1, rows: [{ id: 'rnew2' }] });
    expect(groups(book)?.[0]).toEqual([1, 2, 6]);
    book.apply({ do: 'deleteRows', sheet: 's1', at: 3, count: 3 });
    expect(groups(book)).toEqual([[1, 2, 3]]);
    book.undo();
    expect(groups(book)?.[1]).toEqual([2, 3, 5]);
  });

  it('S6 are refused deeper than three and where there is no row', () => {
    const book = grouped();
    const group = (row: number, depth: number) =>
      book.apply({ do: 'groupRows', sheet: 's1', rows: [{ row, group: depth }] });
    expect(group(0, 4)).toMatchObject({ ok: false, code: 'W17' });
    expect(group(0, -1)).toMatchObject({ ok: false, code: 'W12' });
    expect(group(60, 1)).toMatchObject({ ok: false, code: 'W9' });
  });
});
