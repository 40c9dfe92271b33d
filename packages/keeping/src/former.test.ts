import { describe, expect, it } from 'vitest';
import { openRecord } from './opening.ts';
import { type BookRecord, KEPT, type LogEntry } from './records.ts';
import { BENCH, lengthEdit } from './testing/sample.ts';

/** What an app of version 1 of the format kept: a workbook and the edits after it, in its words. */
const record: BookRecord = {
  id: 'b1',
  title: 'Bench',
  origin: { kind: 'own', from: '' },
  created: 1,
  updated: 1,
  revision: 4,
  text: JSON.stringify({
    kerfbook: 1,
    title: 'Bench',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Top',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: [
          { id: 'r1', cells: { c1: { value: 5.5, name: 'widest_stave', look: { strong: true } } } },
        ],
      },
    ],
    checks: [],
    tables: [],
  }),
};
const edits = [
  {
    do: 'enter',
    sheet: 's1',
    cells: [{ row: 0, column: 1, text: '=STAVE_COUNT(42,widest_stave)' }],
  },
  { do: 'setBook', set: { changes: 'inputs' } },
];
const log = edits.map((edit, i) => ({
  book: 'b1',
  seq: 5 + i,
  edit,
  at: 2 + i,
})) as unknown as LogEntry[];

describe('what an older app kept', () => {
  it('opens with the edits of its log, none left, and tells what is called otherwise now', async () => {
    const result = await openRecord({ record, log });
    if (!result.ok) throw new Error(result.says);
    const { book, revision, says } = result.opened;
    expect([revision, result.left]).toEqual([6, []]);
    expect(book.cell({ sheet: 's1', row: 0, column: 1 })).toMatchObject({
      entry: '=PANEL_BOARDS(42,widest_board)',
      shown: { text: '8' },
    });
    expect(book.cell({ sheet: 's1', row: 0, column: 0 }).style).toEqual({ bold: true });
    expect(book.document()).toMatchObject({ kerfbook: 8, locked: true });
    expect(says).toMatch(/^This workbook is from an earlier Kerfbook.+: one name in it is new now/);
  });

  it.each([2, 3, 4, 5, 6, 7])(
    'of version %d opens with its log, another state of the workbook in it too',
    async (version) => {
      const second = { ...BENCH, kerfbook: version };
      const edits = [
        lengthEdit('50'),
        { do: 'become', book: { ...second, author: 'A made-up shop' } },
      ];
      const result = await openRecord({
        record: { ...record, kept: version, text: JSON.stringify(second) },
        log: edits.map((edit, i) => ({ ...log[i], kept: version, edit })) as unknown as LogEntry[],
      });
      if (!result.ok) throw new Error(result.says);
      expect([result.opened.revision, result.left, result.opened.says]).toEqual([6, [], undefined]);
      expect(result.opened.book.document()).toEqual({ ...BENCH, author: 'A made-up shop' });
    },
  );

  it('is of another version with every version of the format: a tab of the older app is shut out', () => {
    expect(KEPT).toBeGreaterThanOrEqual(BENCH.kerfbook);
  });
});
