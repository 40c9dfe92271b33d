import { type BookDocument, type Edit, loadValue, type RowDocument } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { HyperFormulaEngine } from '../follow/hyperformula.ts';
import { Workbook } from '../workbook.ts';

/** Over more cells than these, a sum is worked out once for all who ask for it. */
const ROWS = 65;
const OVER = `[c1.r1]:[c1.r${ROWS}]`;
const FORMULAS = ['SUM', 'COUNT', 'MAX', 'AVERAGE', 'COUNTA', 'PRODUCT'].map(
  (name) => `=${name}(${OVER})`,
);

function bookOf(): BookDocument {
  const rows: RowDocument[] = Array.from({ length: ROWS }, (_, i) => ({
    id: `r${i + 1}`,
    cells: {
      c1: { value: i === 7 ? 'oak' : 1 + (i % 9) / 8 },
      ...(i < FORMULAS.length ? { c2: { formula: FORMULAS[i] as string } } : {}),
    },
  }));
  const columns = ['c1', 'c2', 'c3'].map((id) => ({ id }));
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Numbers below each other',
    units: 'us',
    sheets: [{ id: 's1', name: 'One', columns, rows }],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

const valuesOf = (book: Workbook, judged = false) => {
  const asked = judged
    ? Workbook.open(book.document(), { engine: (state) => new HyperFormulaEngine(state) })
    : book;
  return [1, 2].flatMap((column) =>
    FORMULAS.map((_, row) => asked.value({ sheet: 's1', row, column })),
  );
};

const EDITS: readonly Edit[] = [
  { do: 'insertRows', sheet: 's1', at: 30, rows: [{ id: 'new', cells: { c1: { value: 40 } } }] },
  { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 2, text: '=MIN(A1:A66)+SUM(A1:A66)' }] },
  { do: 'deleteRows', sheet: 's1', at: 30, count: 1 },
  { do: 'deleteRows', sheet: 's1', at: 40, count: 1 },
  { do: 'enter', sheet: 's1', cells: [{ row: 50, column: 0, text: '7' }] },
];

describe('a sum over many cells', () => {
  it('A4 is what the other engine says, when a workbook is opened and after every edit', () => {
    const book = Workbook.open(bookOf());
    expect(valuesOf(book)).toEqual(valuesOf(book, true));
    expect(valuesOf(book)[1]).toEqual({ kind: 'number', number: ROWS - 1 });
    for (const edit of EDITS) {
      expect(book.apply(edit)).toMatchObject({ ok: true });
      expect(valuesOf(book), JSON.stringify(edit)).toEqual(valuesOf(book, true));
    }
    while (book.canUndo) {
      book.undo();
      expect(valuesOf(book)).toEqual(valuesOf(book, true));
    }
  });
});
