import type { CellTraits, Edit } from '@kerfbook/document';
import { describe, expect, it, vi } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';
import { compareBooks } from './compare.ts';

const at = (row: number, column: number) => ({ sheet: 's1', row, column });
const enter = (row: number, column: number, text: string) =>
  ({ do: 'enter', sheet: 's1', cells: [{ row, column, text }] }) as const;

const describeFirst = (traits: CellTraits): Edit => ({
  do: 'describeCells',
  sheet: 's1',
  cells: [{ row: 0, column: 1, traits }],
});

const sample = () => {
  const book = bookOf({ sheets: { Base: [['length', 5], ['twice', null], ['note']] } });
  book.apply(enter(1, 1, '=B1*2'));
  return Workbook.open(book.document());
};
describe('what changed between two states of a workbook', () => {
  it('calls a named cell by the words beside it, and by its name where there are none', () => {
    const book = sample();
    book.apply({ do: 'nameCell', at: { sheet: 's1', row: 0, column: 1 }, name: 'span' });
    book.apply({ do: 'nameCell', at: { sheet: 's1', row: 2, column: 0 }, name: 'lone' });
    const before = book.document();
    book.apply(enter(0, 1, '7'));
    book.apply(enter(2, 0, 'other'));
    expect(compareBooks(before, book).map(({ label }) => label)).toEqual([
      'length',
      'twice',
      'lone',
    ]);
  });

  it('names what was typed and what followed from it, old and new', () => {
    const book = sample();
    const before = book.document();
    book.apply(enter(0, 1, '7'));
    expect(compareBooks(before, book)).toEqual([
      { address: 'Base!B1', label: 'length', before: '5', after: '7', kind: 'typed', at: at(0, 1) },
      {
        address: 'Base!B2',
        label: 'twice',
        before: '10',
        after: '14',
        kind: 'result',
        at: at(1, 1),
      },
    ]);
  });

  it('is nothing where only rows came between', () => {
    const book = sample();
    const before = book.document();
    book.apply({ do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'r70' }, { id: 'r71' }] });
    expect(compareBooks(before, book)).toEqual([]);
  });

  it('tells formulas, checks and sheets that came, went or changed', () => {
    const book = sample();
    const before = book.document();
    book.apply(enter(1, 1, '=B1*3'));
    book.apply({ do: 'clear', sheet: 's1', cells: [{ row: 2, column: 0 }] });
    book.apply({ do: 'renameSheet', sheet: 's1', name: 'Frame' });
    book.apply({
      do: 'setChecks',
      checks: [{ id: 'k1', name: 'Short', formula: '=1=1', severity: 'care', says: 'Too long.' }],
    });
    expect(compareBooks(before, book)).toEqual([
      { address: 'Frame', label: 'Sheet', before: 'Base', after: 'Frame', kind: 'sheet' },
      {
        address: 'Frame!B2',
        label: 'twice',
        before: '10 (=B1*2)',
        after: '15 (=B1*3)',
        kind: 'typed',
        at: at(1, 1),
      },
      { address: 'Base!A3', label: '', before: 'note', after: '', kind: 'typed' },
      {
        address: 'Short',
        label: 'Check',
        before: '',
        after: '=1=1, else care: Too long.',
        kind: 'check',
      },
    ]);
  });

  it.each<[string, Edit, number, readonly string[]]>([
    ['how a cell looks', describeFirst({ style: { bold: true } }), 0, []],
    ['a column’s width', { do: 'setColumn', sheet: 's1', column: 0, width: 90 }, 0, []],
    ['the title', { do: 'setBook', set: { title: 'Other' } }, 0, []],
    ['how a number is shown', describeFirst({ show: { decimals: 0 } }), 1, ['Base!B1']],
    ['what the money is', { do: 'setBook', set: { currency: 'EUR' } }, 1, ['Base!B1']],
    [
      'where rows stand',
      { do: 'deleteRows', sheet: 's1', at: 0, count: 1 },
      1,
      ['Base!A1', 'Base!B1', 'Base!B1'],
    ],
  ])('works values out only where they may differ: %s', (_, edit, opened, where) => {
    const book = sample();
    book.apply(describeFirst({ quantity: 'money' }));
    const before = book.document();
    const open = vi.spyOn(Workbook, 'open');
    expect(book.apply(edit).ok).toBe(true);
    const found = compareBooks(before, book);
    expect(open).toHaveBeenCalledTimes(opened);
    open.mockRestore();
    expect(found.map(({ address }) => address).sort()).toEqual(where);
  });

  it('E6 an earlier state is taken over whole, and that is undone like anything else', () => {
    const book = sample();
    const first = book.document();
    book.apply(enter(0, 1, '7'));
    book.apply({ do: 'renameSheet', sheet: 's1', name: 'Frame' });
    const later = book.document();
    const done = book.apply({ do: 'become', book: first });
    expect(done).toMatchObject({ ok: true, structure: true });
    expect(book.document()).toEqual(first);
    expect(book.value({ sheet: 's1', row: 1, column: 1 })).toEqual({ kind: 'number', number: 10 });
    book.apply(enter(0, 1, '8'));
    expect(book.value({ sheet: 's1', row: 1, column: 1 })).toEqual({ kind: 'number', number: 16 });
    book.undo();
    book.undo();
    expect(book.document()).toEqual(later);
    book.undo();
    book.undo();
    expect(book.document()).toEqual(first);
    for (let i = 0; i < 3; i += 1) book.redo();
    expect(book.document()).toEqual(first);
    expect(book.apply({ do: 'become', book: { ...first, sheets: [] } })).toMatchObject({
      ok: false,
    });
    expect(book.apply({ do: 'batch', edits: [{ do: 'become', book: later }] }).ok).toBe(false);
  });
});

describe('a file with references by address, as a hand may write them', () => {
  it('F7 goes on meaning the same cells when rows come between', () => {
    const book = bookOf({ sheets: { Base: [[5], ['=A1*2'], ['=SUM(A1:A2)']] } });
    expect(JSON.stringify(book.document())).not.toMatch(/"=A1|\(A1:A2\)/);
    book.apply({ do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'r70' }] });
    const again = Workbook.open(book.document());
    for (const one of [book, again]) {
      expect(one.cell({ sheet: 's1', row: 2, column: 0 }).formula).toBe('=A2*2');
      expect(one.value({ sheet: 's1', row: 3, column: 0 })).toEqual({ kind: 'number', number: 15 });
    }
  });
});
