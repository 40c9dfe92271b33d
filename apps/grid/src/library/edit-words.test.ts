import type { BookDocument, Change } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { editInWords } from './edit-words.ts';

const book: BookDocument = {
  kerfbook: 8,
  title: 'Oak for the hall',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Base',
      columns: [{ id: 'ca' }, { id: 'cb' }],
      rows: [{ id: 'r1' }, { id: 'r2', cells: { cb: { value: 84, name: 'top_length' } } }],
    },
  ],
  checks: [{ id: 'k1', name: 'Knees', formula: '=TRUE', severity: 'care', says: 'Sit.' }],
  tables: [],
};

const told = (...changes: readonly Change[]) => editInWords({ do: 'change', changes }, book);

describe('changes by id in words', () => {
  it.each<readonly [Change, string]>([
    [
      {
        change: 'cells',
        sheet: 's1',
        cells: [{ row: 'r2', column: 'cb', cell: { value: 96, name: 'top_length' } }],
      },
      'Base B2, top_length: 96',
    ],
    [{ change: 'head', set: { due: '2026-03-14' } }, "The workbook's due date: 2026-03-14"],
    [
      { change: 'cells', sheet: 's1', cells: [{ row: 'r2', column: 'cb', cell: null }] },
      'Base B2, top_length: cleared',
    ],
    [
      { change: 'cells', sheet: 's1', cells: [{ row: 'r1', column: 'ca', cell: { value: '' } }] },
      'Base A1: nothing',
    ],
    [
      { change: 'cells', sheet: 's1', cells: [{ row: 'r9', column: 'ca', cell: { value: 3 } }] },
      'A cell on Base that is gone: 3',
    ],
    [
      { change: 'cells', sheet: 's9', cells: [{ row: 'r1', column: 'ca', cell: { value: 3 } }] },
      'A cell on Sheet s9 that is gone: 3',
    ],
    [
      { change: 'insert', list: 'rows', sheet: 's1', after: 'r2', items: [{ id: 'r3' }] },
      '1 row inserted after row 2 on Base',
    ],
    [
      { change: 'insert', list: 'columns', sheet: 's1', after: null, items: [{ id: 'cc' }] },
      '1 column inserted at the start on Base',
    ],
    [
      {
        change: 'insert',
        list: 'sheets',
        after: 's1',
        items: [{ id: 's2', name: 'Top', columns: [], rows: [] }],
      },
      '1 sheet (Top) inserted after sheet Base',
    ],
    [
      { change: 'remove', list: 'rows', sheet: 's1', ids: ['r1', 'r2'] },
      'rows 1, 2 on Base removed',
    ],
    [
      { change: 'remove', list: 'rows', sheet: 's1', ids: ['r1', 'r8', 'r9'] },
      'row 1 and 2 rows no longer there on Base removed',
    ],
    [{ change: 'remove', list: 'checks', ids: ['k1'] }, 'check Knees removed'],
    [
      { change: 'order', list: 'columns', sheet: 's1', ids: ['cb'], after: null },
      'column B on Base moved',
    ],
    [
      { change: 'set', list: 'columns', sheet: 's1', ids: ['cb'], set: { hidden: true } },
      'column B on Base: hidden',
    ],
    [
      { change: 'set', list: 'sheets', id: 's1', set: { name: 'Frame' } },
      'sheet Base: named Frame',
    ],
    [{ change: 'head', set: { title: 'Ash' } }, "The workbook's title: Ash"],
  ])('%j', (change, words) => {
    expect(told(change)).toEqual([words]);
  });

  it('tells whatever a damaged record holds', () => {
    expect(editInWords({ do: 'change', changes: 3 }, book)).toEqual([
      'Something that cannot be read: {"do":"change","changes":3}',
    ]);
  });

  it('tells edits by position by where they were', () => {
    const edit = { do: 'enter', sheet: 's1', cells: [{ row: 4, column: 1, text: '66 3/8' }] };
    expect(editInWords(edit, book)).toEqual(['Base B5: 66 3/8']);
    expect(editInWords(edit, { sheets: [], checks: [] })).toEqual(['Sheet s1 B5: 66 3/8']);
  });
});
