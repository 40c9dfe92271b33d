import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellIds, CellValue, Moved } from '../api.ts';
import { anyEdit, startBook } from '../testing/edits.ts';
import { HYPERFORMULA } from '../testing/engines.ts';
import { bookOf, place, type } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';
import { promiseProblems } from './promises.ts';

/** A value in letters: an error by its word alone, since its sentence may name another place. */
const plain = (value: CellValue): string =>
  value.kind === 'error' ? value.error.word : JSON.stringify(value);

const keyOf = ({ sheet, row, column }: CellIds): string => `${sheet} ${row} ${column}`;

/** What all cells that hold something come to, by ids. */
function held(book: Workbook): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { id, rows, columns } of book.document().sheets) {
    for (const [row, { id: rowId, cells = {} }] of rows.entries()) {
      for (const columnId of Object.keys(cells)) {
        const column = columns.findIndex((one) => one.id === columnId);
        found.set(`${id} ${rowId} ${columnId}`, plain(book.value({ sheet: id, row, column })));
      }
    }
  }
  return found;
}

const told = (moved: readonly Moved[]): readonly string[] =>
  moved.map(({ ids, was, is }) => `${keyOf(ids)}: ${plain(was)} → ${plain(is)}`).sort();

/** What moved between two looks at all cells, by comparing each. */
function compared(
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): readonly string[] {
  return [...after]
    .flatMap(([key, is]) => {
      const was = before.get(key);
      return was === undefined || was === is ? [] : `${key}: ${was} → ${is}`;
    })
    .sort();
}

describe('what a workbook came to', () => {
  it('C3 is looked at beside what it comes to now without being forgotten, as while a number is pulled', () => {
    const book = bookOf({ sheets: { One: [[2, '=A1*2', '=A1>100']] } });
    const remembered = book.remember();
    remembered.take();
    const cells = ['A1', 'B1', 'C1'].map((address) => place(book, address));
    type(book, 'A1', '3');
    const numbers = () =>
      remembered.differing(cells).map(({ was, is }) => `${plain(was)} → ${plain(is)}`);
    const [two, three] = ['2', '3'].map((n) => plain({ kind: 'number', number: Number(n) }));
    expect(numbers()).toHaveLength(2);
    expect(numbers()[0]).toBe(`${two} → ${three}`);
    type(book, 'A1', '2');
    expect(numbers()).toEqual([]);
  });

  it.each([
    ['as it is opened', undefined],
    ['by HyperFormula', HYPERFORMULA],
  ])('C3 is compared with what it comes to now, whatever was changed, %s', (_, engine) => {
    const step = fc.oneof(
      { weight: 5, arbitrary: anyEdit },
      { weight: 1, arbitrary: fc.constantFrom('undo' as const, 'redo' as const) },
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(step, { minLength: 1, maxLength: 3 }), { maxLength: 4 }),
        (rounds) => {
          const book = startBook(engine);
          const remembered = book.remember();
          // Looked at in parts, as an app does.
          let asked = 0;
          while (!remembered.take(() => ++asked % 2 === 0));
          for (const round of rounds) {
            const before = held(book);
            for (const one of round) {
              if (typeof one === 'string') book[one]();
              else book.apply(one);
            }
            const comparison = remembered.compare();
            expect(comparison.go()).toBe(true);
            expect(told(comparison.moved)).toEqual(compared(before, held(book)));
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('C3 is compared where an edit says that it changed something, and nowhere else', () => {
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 8 }), (edits) => {
        const book = startBook();
        const remembered = book.remember();
        remembered.take();
        for (const edit of edits) {
          const before = held(book);
          const result = book.apply(edit);
          if (!result.ok) continue;
          const comparison = remembered.compare(result.structure ? undefined : result.changed);
          comparison.go();
          const all = compared(before, held(book));
          const found = told(comparison.moved);
          expect(found).toEqual(expect.arrayContaining([...all]));
          // What more there is held nothing before, or holds nothing now.
          for (const one of found.filter((line) => !all.includes(line))) {
            expect(one).toContain('{"kind":"empty"}');
          }
        }
      }),
      { numRuns: 25 },
    );
  });

  it('C3 goes on from where it was stopped', () => {
    const rows = Array.from({ length: 700 }, (_, i) => [`=[c2.r1]+${i}`, i === 0 ? 1 : null]);
    const book = bookOf({ sheets: { One: rows } });
    const remembered = book.remember();
    expect(remembered.take(() => false)).toBe(false);
    remembered.take();
    const { changed } = type(book, 'B1', '2');
    const comparison = remembered.compare(changed);
    expect(comparison.go(() => false)).toBe(false);
    expect(comparison.moved.length).toBeLessThan(400);
    expect(comparison.go()).toBe(true);
    expect(comparison.moved).toHaveLength(701);
    expect(comparison.moved.filter(({ calculated }) => calculated)).toHaveLength(700);
    const again = remembered.compare();
    expect(again.go()).toBe(true);
    expect(again.moved).toEqual([]);
  });
});

describe('a cell that is told of', () => {
  it('is found by its ids wherever it stands, until it is gone', () => {
    const book = bookOf({ sheets: { One: [['Price', 12]] } });
    const ids = book.idsAt(place(book, 'B1'));
    if (ids === undefined) throw new Error('a cell within the sheet has ids');
    book.apply({ do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'rx' }] });
    expect(book.placeOf(ids)).toEqual({ sheet: 's1', row: 1, column: 1 });
    book.apply({ do: 'deleteRows', sheet: 's1', at: 1, count: 1 });
    expect(book.placeOf(ids)).toBeUndefined();
    expect(book.idsAt({ sheet: 's1', row: 99, column: 0 })).toBeUndefined();
  });

  it('has the words at its left for a label, and shows another value as it shows its own', () => {
    const book = bookOf({
      sheets: { One: [['Price', { value: 12, quantity: 'money', name: 'price' }], [3]] },
    });
    const at = place(book, 'B1');
    expect(book.labelOf(at)).toBe('Price');
    expect(book.labelOf(place(book, 'A2'))).toBe('One!A2');
    expect(book.asShown(at, { kind: 'number', number: 3.5 }).text).toBe('$3.50');
  });
});

describe('results that matter most', () => {
  it('C4 are said of the workbook, taken back by undo, and follow a new name', () => {
    const book = bookOf({
      sheets: {
        One: [
          [
            { value: 1, name: 'Price' },
            { value: 2, name: 'weight' },
          ],
        ],
      },
    });
    expect(book.results).toEqual([]);
    expect(book.apply({ do: 'setBook', set: { results: ['price', 'weight'] } }).ok).toBe(true);
    book.apply({ do: 'renameName', from: 'price', to: 'asked' });
    expect(book.results).toEqual(['asked', 'weight']);
    expect(book.document().results).toEqual(['asked', 'weight']);
    book.undo();
    expect(book.results).toEqual(['price', 'weight']);
    book.undo();
    expect(book.document()).not.toHaveProperty('results');
  });

  it('C4 are told where no cell has the name', () => {
    const book = bookOf({ sheets: { One: [[{ value: 1, name: 'price' }]] } });
    book.apply({ do: 'setBook', set: { results: ['price', 'weight'] } });
    expect(promiseProblems(book)).toEqual([
      'weight is among the results told first, and no cell is named so. Name the cell, or take it out of them.',
    ]);
  });
});
