import { describe, expect, it } from 'vitest';
import { replay } from '../changes/apply.ts';
import type { Change } from '../changes/types.ts';
import { saveText } from '../format/save.ts';
import type { BookDocument, CellDocument } from '../format/schema.ts';
import { loadText } from '../loading/load.ts';
import { documentOf } from '../testing/sample.ts';
import { mergeLogs } from './merge.ts';

const start = documentOf({
  sheets: {
    Base: [
      [{ value: 84, quantity: 'length', name: 'top' }, '=top/2', 'oak'],
      [2, '=SUM([c1.r1]:[c1.r4])', null],
      [3, null, null],
      [4, null, null],
    ],
    Cuts: [[1, '=[s1!c1.r2]'], [2]],
  },
  checks: [{ id: 'k1', name: 'Long', formula: '=top>1', severity: 'care', says: 'Short.' }],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r4' }],
});

function merge(ann: Change | readonly Change[], bea: Change | readonly Change[]) {
  const logs = [ann, bea].map((log) => (Array.isArray(log) ? log : [log]) as readonly Change[]);
  const done = mergeLogs(start, [
    { name: 'Ann', tag: '1', changes: logs[0] ?? [] },
    { name: 'Bea', tag: '2', changes: logs[1] ?? [] },
  ]);
  if (!done.ok) throw new Error(done.says);
  expect(loadText(saveText(done.document)).ok).toBe(true);
  return done;
}
const rowsOf = ({ document }: { document: BookDocument }, sheet = 0) =>
  document.sheets[sheet]?.rows.map(({ id }) => id).join(' ');
const cellOf = ({ document }: { document: BookDocument }, row: number, column: string) =>
  document.sheets[0]?.rows[row]?.cells?.[column];
const says = ({ conflicts }: { conflicts: readonly { says: string }[] }) =>
  conflicts.map((one) => one.says);

const set = (row: string, column: string, cell: CellDocument | null): Change => ({
  change: 'cells',
  sheet: 's1',
  cells: [{ row, column, cell }],
});
const rows = (after: string | null, ...ids: string[]): Change => ({
  change: 'insert',
  list: 'rows',
  sheet: 's1',
  after,
  items: ids.map((id) => ({ id })),
});
const gone = (...ids: string[]): Change => ({ change: 'remove', list: 'rows', sheet: 's1', ids });
const sheet = (id: string, name: string): Change => ({
  change: 'insert',
  list: 'sheets',
  after: 's2',
  items: [{ id, name, columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
});

describe('what two changed at one place', () => {
  it('H7 of a cell is that of the second log, told with both, and what is left out is kept', () => {
    const first = set('r2', 'c1', { value: 5 });
    const done = merge(first, set('r2', 'c1', { formula: '=top*[c1.r3]' }));
    expect(cellOf(done, 1, 'c1')).toEqual({ formula: '=top*[c1.r3]' });
    expect(done.conflicts).toEqual([
      {
        code: 'X1',
        says: 'Base!A2 is 5 in Ann and =top*A3 in Bea. It is =top*A3 now.',
        left: [first],
        spot: { of: 'cell', sheet: 's1', row: 'r2', column: 'c1', part: 'held' },
      },
    ]);
  });

  it('H7 has the order of logs from their tags, whoever merges', () => {
    const [ann, bea] = [set('r2', 'c1', { value: 5 }), set('r2', 'c1', { value: 6 })];
    const logs = (one: string, other: string) =>
      [
        { name: 'Ann', tag: one, changes: [ann] },
        { name: 'Bea', tag: other, changes: [bea] },
      ] as const;
    for (const [one, other, value] of [
      ['1', '2', 6],
      ['2', '1', 5],
    ] as const) {
      const [a, b] = logs(one, other);
      for (const both of [[a, b] as const, [b, a] as const]) {
        const done = mergeLogs(start, both);
        expect(done.ok && cellOf(done, 1, 'c1')).toEqual({ value });
      }
    }
  });

  it('H7 keeps what one made of what a cell holds and the other of how it looks, and tells it', () => {
    const done = merge(
      set('r2', 'c1', { value: 5 }),
      set('r2', 'c1', { value: 2, style: { bold: true } }),
    );
    expect(cellOf(done, 1, 'c1')).toEqual({ value: 5, style: { bold: true } });
    expect(says(done)).toEqual([
      'Base!A2 was changed in Ann and in Bea. Both changes are kept; see whether they go together.',
    ]);
  });

  it('H7 keeps a name with the cell that had it before, else with that of the first log', () => {
    const swapped = merge(
      set('r3', 'c2', { value: 1, name: 'low' }),
      set('r4', 'c2', { value: 2, name: 'LOW' }),
    );
    expect([cellOf(swapped, 2, 'c2'), cellOf(swapped, 3, 'c2')]).toEqual([
      { value: 1, name: 'low' },
      { value: 2 },
    ]);
    expect(says(swapped)).toEqual([
      'Base!B3 and Base!B4 are both named low. Base!B3 keeps the name; the other has none.',
    ]);
  });

  it('H7 leaves out a change of a row that the other removed', () => {
    const change = set('r3', 'c1', { value: 9 });
    const done = merge(gone('r3'), change);
    expect(rowsOf(done)).toBe('r1 r2 r4');
    expect(done.conflicts).toEqual([
      {
        code: 'X3',
        says: 'Row 3 of Base was removed in Ann and changed in Bea. It is removed.',
        left: [change],
        spot: { of: 'gone', in: { list: 'rows', sheet: 's1' }, id: 'r3' },
      },
    ]);
  });

  it('H7 leaves out what a new row has in a column that the other removed', () => {
    const column: Change = { change: 'remove', list: 'columns', sheet: 's1', ids: ['c3'] };
    const row: Change = {
      change: 'insert',
      list: 'rows',
      sheet: 's1',
      after: 'r4',
      items: [{ id: 'ra', cells: { c3: { value: 1 } } }],
    };
    const done = merge(column, row);
    expect(done.document.sheets[0]?.rows.at(-1)).toEqual({ id: 'ra' });
    expect(says(done)).toEqual([
      'Column C of Base was removed in Ann and changed in Bea. It is removed.',
    ]);
  });

  it('H7 keeps rows of both after one row, those of the second log nearer to it', () => {
    const done = merge(rows('r2', 'ra'), rows('r2', 'rb', 'rc'));
    expect(rowsOf(done)).toBe('r1 r2 rb rc ra r3 r4');
    expect(says(done)).toEqual([
      'Rows of Base were put in after row 2 of Base in Ann and in Bea. Both are kept, those of Bea first; see whether the order is right.',
    ]);
  });

  it('H7 puts rows where the row stood that they follow and the other removed', () => {
    const done = merge(gone('r2'), rows('r2', 'ra'));
    expect(rowsOf(done)).toBe('r1 ra r3 r4');
    expect(says(done)).toEqual([
      'Rows of Base were put in after row 2 of Base in Bea, and what they follow was removed in Ann. They stand where it was.',
    ]);
  });

  it('H7 tells of rows that both took elsewhere, and of nothing where that makes no difference', () => {
    const order = (after: string | null, ...ids: string[]): Change => ({
      change: 'order',
      list: 'rows',
      sheet: 's1',
      ids,
      after,
    });
    const both = merge(order(null, 'r4'), order(null, 'r3'));
    expect(rowsOf(both)).toBe('r3 r4 r1 r2');
    expect(both.conflicts.map(({ code }) => code)).toEqual(['X5']);
    expect(merge(order(null, 'r2'), order('r1', 'r4')).conflicts).toEqual([]);
  });

  it('H7 tells of what both said of a column, a check or the workbook', () => {
    const width = (to: number): Change => ({
      change: 'set',
      list: 'columns',
      sheet: 's1',
      ids: ['c2'],
      set: { width: to },
    });
    const done = merge(
      [width(90), { change: 'head', set: { title: 'A' } }],
      [width(60), { change: 'head', set: { title: 'B' } }],
    );
    expect(says(done)).toEqual([
      'The title of the workbook is "A" in Ann and "B" in Bea. It is "B" now.',
      'The width of column B of Base is 90 in Ann and 60 in Bea. It is 60 now.',
    ]);
  });

  it('H7 takes whom a workbook is for from one, its due date from the other, and tells of two', () => {
    const done = merge(
      { change: 'head', set: { customer: 'A made-up family', due: '2026-03-14' } },
      { change: 'head', set: { job: '26-014', due: '2026-04-01' } },
    );
    expect(done.document).toMatchObject({
      customer: 'A made-up family',
      job: '26-014',
      due: '2026-04-01',
    });
    expect(says(done)).toEqual([
      'The due date of the workbook is "2026-03-14" in Ann and "2026-04-01" in Bea. It is "2026-04-01" now.',
    ]);
  });

  it('H7 calls one of two new sheets of one name another way', () => {
    const done = merge(sheet('sa', 'Jigs'), sheet('sb', 'jigs'));
    expect(done.document.sheets.map(({ id, name }) => `${id} ${name}`)).toEqual([
      's1 Base',
      's2 Cuts',
      'sb jigs 2',
      'sa Jigs',
    ]);
    expect(done.conflicts.map(({ code }) => code)).toEqual(['X4', 'X8']);
  });

  it('H7 leaves a sheet where both removed one of two', () => {
    const done = merge(
      { change: 'remove', list: 'sheets', ids: ['s1'] },
      { change: 'remove', list: 'sheets', ids: ['s2'] },
    );
    expect(done.document.sheets.map(({ name }) => name)).toEqual(['Base']);
    expect(done.conflicts.map(({ code }) => code)).toContain('X14');
  });
});

describe('what one took away that the other goes on using', () => {
  it('H7 moves the end of a range and of a table to what is left of it', () => {
    const shorter = [
      set('r2', 'c2', { formula: '=SUM([c1.r1]:[c1.r3])' }),
      { change: 'set', list: 'tables', id: 't1', set: { last: 'r3' } } as const,
      gone('r4'),
    ];
    const done = merge(shorter, gone('r3'));
    expect(rowsOf(done)).toBe('r1 r2');
    expect(cellOf(done, 1, 'c2')).toEqual({ formula: '=SUM([c1.r1]:[c1.r2])' });
    expect(done.document.tables[0]).toMatchObject({ header: 'r1', last: 'r2' });
    expect(says(done)).toEqual([
      'The formula of Base!B2, as it is in Ann, uses cells up to a row or column that was removed in Bea. It uses those up to the next one now.',
      'The table of parts on Base ended at a row that was removed in Bea. It ends at the row above it now.',
    ]);
  });

  it('H7 tells of a formula that is left without a cell it uses', () => {
    const done = merge(set('r1', 'c3', { formula: '=[c1.r3]*2' }), gone('r3'));
    expect(says(done)).toEqual([
      'The formula of Base!C1, as it is in Ann, uses cells that were removed in Bea. It shows #REF! until it is changed.',
    ]);
  });

  it('H7 lets a new formula follow a name that the other changed, and tells of one that is gone', () => {
    const named = (name: string | undefined): CellDocument => ({
      value: 84,
      quantity: 'length',
      ...(name === undefined ? {} : { name }),
    });
    const check: Change = { change: 'set', list: 'checks', id: 'k1', set: { formula: '=1>0' } };
    const use = set('r3', 'c3', { formula: '=top*3' });
    const renamed = merge(use, [
      set('r1', 'c1', named('long')),
      set('r1', 'c2', { formula: '=long/2' }),
      check,
    ]);
    expect(cellOf(renamed, 2, 'c3')).toEqual({ formula: '=long*3' });
    expect(says(renamed)).toEqual([
      'The formula of Base!C3, as it is in Ann, uses the name top, which was changed to long in Bea. It uses long now.',
    ]);
    const without = [set('r1', 'c1', named(undefined)), set('r1', 'c2', null), check];
    expect(says(merge(use, without))).toEqual([
      'The formula of Base!C3, as it is in Ann, uses the name top, which no cell has any more in Bea. It shows #NAME? until it is changed.',
    ]);
  });

  it('H7 lets the new sentence of a check follow a name that the other changed, and tells of one that is gone', () => {
    const named = (name: string | undefined): CellDocument => ({
      value: 84,
      ...(name === undefined ? {} : { name }),
    });
    const rest = (name: string): Change[] => [
      set('r1', 'c2', { formula: `=${name}/2` }),
      { change: 'set', list: 'checks', id: 'k1', set: { formula: `=${name}>1` } },
    ];
    const use: Change = {
      change: 'set',
      list: 'checks',
      id: 'k1',
      set: { says: 'Only { Top } long, of {nowhere}; {top} is short.' },
    };
    const renamed = merge(use, [set('r1', 'c1', named('long')), ...rest('long')]);
    expect(renamed.document.checks[0]?.says).toBe(
      'Only {long} long, of {nowhere}; {long} is short.',
    );
    expect(says(renamed)).toEqual([
      'The sentence of the check "Long", as it is in Ann, uses the name Top, which was changed to long in Bea. It uses long now.',
    ]);
    const without = merge(use, [set('r1', 'c1', named(undefined)), ...rest('1')]);
    expect(says(without)).toEqual([
      'The sentence of the check "Long", as it is in Ann, shows the cell named Top, and no cell has that name any more in Bea. It shows the name until it is changed.',
    ]);
  });

  it('H7 tells of a check on a sheet that the other removed', () => {
    const done = merge(
      { change: 'set', list: 'checks', id: 'k1', set: { sheet: 's2' } },
      { change: 'remove', list: 'sheets', ids: ['s2'] },
    );
    expect(done.document.checks[0]).not.toHaveProperty('sheet');
    expect(done.conflicts.map(({ code }) => code)).toEqual(['W26']);
  });
});

describe('a merge', () => {
  // Found by random changes: what both had brought was held against nothing.
  it('H8 has nothing to tell of a check that both brought alike', () => {
    const item = {
      id: 'k3',
      name: 'C',
      formula: '=top>2',
      severity: 'care',
      says: 'Look.',
    } as const;
    const put: Change = { change: 'insert', list: 'checks', after: null, items: [item] };
    expect(merge(put, put).conflicts).toEqual([]);
  });

  // Found by random changes: a range that its own maker had left without an end was mended.
  it('H8 leaves alone what one left without a place by itself', () => {
    const own = [gone('r4'), set('r1', 'c3', { formula: '=SUM([c1.r1]:[c1.r4])' })];
    const done = merge(own, []);
    expect(done.conflicts).toEqual([]);
    expect(done.document).toEqual(replay(start, own).document);
  });

  it('H7 is refused in a sentence where it would be more than a workbook may take', () => {
    const remark = 'm'.repeat(8_000);
    const many = (column: string, id: string): Change => ({
      change: 'insert',
      list: 'rows',
      sheet: 's1',
      after: 'r4',
      items: Array.from({ length: 1_500 }, (_, i) => ({
        id: `${id}${i}`,
        cells: { [column]: { value: i, remark } },
      })),
    });
    const logs = [
      { name: 'Ann', changes: [many('c1', 'ra')] },
      { name: 'Bea', changes: [many('c2', 'rb')] },
    ] as const;
    expect(mergeLogs(start, logs)).toMatchObject({ ok: false, code: 'W21' });
  });
});
