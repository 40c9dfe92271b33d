import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saveText } from '../format/save.ts';
import type { BookDocument } from '../format/schema.ts';
import { anyChange, bench } from '../testing/changes.ts';
import { documentOf } from '../testing/sample.ts';
import { replay } from './apply.ts';
import { documentChanges } from './between.ts';
import { readChanges } from './read.ts';
import type { Change } from './types.ts';

const some = fc.array(anyChange, { maxLength: 8 });
const other = documentOf({ sheets: { Two: [[{ value: 1, name: 'low' }], ['=low']], New: [[2]] } });
const start = fc.constantFrom(bench, bench, bench, other);
const book = fc.tuple(start, some).map(([document, changes]) => replay(document, changes).document);

const between = (before: BookDocument, after: BookDocument): readonly Change[] => {
  const changes = documentChanges(before, after);
  const read = readChanges(JSON.parse(JSON.stringify(changes)));
  if (!('changes' in read)) throw new Error(`${read.where}: ${read.why}`);
  return read.changes;
};

function expectBetween(before: BookDocument, after: BookDocument): void {
  const [first, last] = [saveText(before), saveText(after)];
  const changes = between(before, after);
  const done = replay(before, changes);
  expect(done.conflicts).toEqual([]);
  expect(saveText(done.document)).toBe(last);
  expect(saveText(replay(done.document, done.inverse).document)).toBe(first);
  if (first === last) expect(changes).toEqual([]);
}

describe('the changes between two workbooks', () => {
  it('H6 make one of the other to the byte, without conflict, and are none where both are alike', () => {
    fc.assert(fc.property(book, book, expectBetween), { numRuns: 3_000 });
  });

  it('H6 mention no cell, row or sheet that is alike', () => {
    fc.assert(
      fc.property(some, (changes) => {
        const done = replay(bench, changes).document;
        for (const change of between(bench, done)) {
          if (change.change !== 'cells') continue;
          const [was, is] = [bench, done].map(({ sheets }) =>
            sheets.find(({ id }) => id === change.sheet),
          );
          for (const { row, column } of change.cells) {
            const [from, to] = [was, is].map((sheet) =>
              JSON.stringify(sheet?.rows.find(({ id }) => id === row)?.cells?.[column]),
            );
            expect(from).not.toBe(to);
          }
        }
      }),
      { numRuns: 1_000 },
    );
  });

  const [one, two] = bench.sheets as [BookDocument['sheets'][0], BookDocument['sheets'][0]];
  const withFirst = (sheet: Partial<typeof one>): BookDocument => ({
    ...bench,
    sheets: [{ ...one, ...sheet }, two],
  });
  const [r1, r2, r3, r4] = one.rows;
  it.each<[string, BookDocument, readonly object[]]>([
    ['nothing', bench, []],
    ['a title', { ...bench, title: 'B' }, [{ change: 'head', set: { title: 'B' } }]],
    [
      'a row that goes elsewhere',
      withFirst({ rows: [r4, r1, r2, r3] as typeof one.rows }),
      [{ change: 'order', list: 'rows', sheet: 's1', ids: ['r4'], after: null }],
    ],
    [
      'rows that come together',
      withFirst({ rows: [r1, { id: 'ra' }, { id: 'rb' }, r2, r3, r4] as typeof one.rows }),
      [
        {
          change: 'insert',
          list: 'rows',
          sheet: 's1',
          after: 'r1',
          items: [{ id: 'ra' }, { id: 'rb' }],
        },
      ],
    ],
    [
      'rows that are hidden together',
      withFirst({ rows: one.rows.map((row) => ({ ...row, hidden: true as const })) }),
      [
        {
          change: 'set',
          list: 'rows',
          sheet: 's1',
          ids: ['r1', 'r2', 'r3', 'r4'],
          set: { hidden: true },
        },
      ],
    ],
    [
      'a row that says it has cells',
      withFirst({ rows: [...one.rows, { id: 'r5', cells: {} }] }),
      [
        {
          change: 'insert',
          list: 'rows',
          sheet: 's1',
          after: 'r4',
          items: [{ id: 'r5', cells: {} }],
        },
      ],
    ],
    [
      'a check that says something else',
      {
        ...bench,
        checks: bench.checks.map((check, i) => (i === 1 ? { ...check, says: 'No.' } : check)),
      },
      [{ change: 'set', list: 'checks', id: 'k2', set: { says: 'No.' } }],
    ],
  ])('H6 of %s are as few as can be', (_, after, changes) => {
    expect(between(bench, after)).toEqual(changes);
    expectBetween(bench, after);
  });

  it('H6 let names of sheets and cells change places', () => {
    const cells = ({ rows }: typeof one, name: string | undefined) =>
      rows.map((row, i) => {
        const { c1, ...more } = row.cells ?? {};
        const { name: _name, ...nameless } = c1 ?? {};
        const named = name === undefined ? nameless : { ...nameless, name };
        return i === 0 ? { ...row, cells: { c1: named, ...more } } : row;
      });
    const swapped = {
      ...bench,
      sheets: [
        { ...one, name: 'Two', rows: cells(one, undefined) },
        { ...two, name: 'One', rows: cells(two, 'top') },
      ],
    };
    expectBetween(bench, swapped);
    expectBetween(swapped, bench);
  });

  it('H6 bring back that a row says it has cells, and take it away', () => {
    const bare = withFirst({ rows: [r1, r2, r3, { id: 'r4', cells: {} }] as typeof one.rows });
    const plain = withFirst({ rows: [r1, r2, r3, { id: 'r4' }] as typeof one.rows });
    for (const before of [bare, plain, bench]) {
      for (const after of [bare, plain, bench]) expectBetween(before, after);
    }
  });
});
