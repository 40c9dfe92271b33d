import { type Change, type Edit, loadText, mergeLogs, saveText } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const start = () =>
  bookOf({
    sheets: {
      Base: [
        [{ value: 84, quantity: 'length', name: 'top' }, '=top/2', '=[c2.r1]+[c1.r2]'],
        [2, '=SUM([c1.r1]:[c1.r4])', '=[s2!c1.r1]'],
        [3, { formula: '=[c1.r3]*top', role: 'calculated' }, 'oak'],
        [4, { value: 1, name: 'low' }, '=low+top'],
      ],
      Cuts: [['=SUM([s1!c1.r1]:[c2.r3])', '=[c1.r1]+1'], ['=top', 5], ['=SORT([c2.r1]:[c2.r2])']],
    },
    checks: [{ id: 'k1', name: 'A', formula: '=top>[s1!c1.r2]', severity: 'care', says: '{top}' }],
    tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r4' }],
  });

const sheet = fc.constantFrom('s1', 's2');
const [row, column] = [fc.nat(4), fc.nat(3)];
const text = fc.constantFrom(
  ...['=A1', '=top*2', '=low', '=Base!B2+1', '=SUM(A1:A3)', '=SUM(Base!A1:B4)', '12', 'oak', ''],
);
const edit: fc.Arbitrary<Edit> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant('enter' as const),
      sheet,
      cells: fc.array(fc.record({ row, column, text }), { minLength: 1, maxLength: 2 }),
    }),
  },
  fc.record({
    do: fc.constant('insertRows' as const),
    sheet,
    at: row,
    rows: fc.stringMatching(/^z[a-z]{6}$/).map((id) => [{ id }]),
  }),
  fc.record({
    do: fc.constant('insertColumns' as const),
    sheet,
    at: column,
    columns: fc.stringMatching(/^z[a-z]{6}$/).map((id) => [{ id }]),
  }),
  fc.record({ do: fc.constant('deleteRows' as const), sheet, at: row, count: fc.constant(1) }),
  fc.record({
    do: fc.constant('deleteColumns' as const),
    sheet,
    at: column,
    count: fc.constant(1),
  }),
  fc.record({
    do: fc.constant('renameName' as const),
    from: fc.constantFrom('top', 'low'),
    to: fc.constantFrom('high', 'deep'),
  }),
  fc.record({
    do: fc.constant('nameCell' as const),
    at: fc.record({ sheet, row, column }),
    name: fc.constantFrom('wide', 'deep', null),
  }),
  fc.record({
    do: fc.constant('moveCells' as const),
    sheet,
    from: fc.record({ row, column, rows: fc.constant(1), columns: fc.constant(1) }),
    to: fc.record({ sheet, row, column }),
  }),
  fc.record({ do: fc.constant('removeSheet' as const), sheet }),
  fc.record({
    do: fc.constant('renameSheet' as const),
    sheet,
    name: fc.constantFrom('Cuts', 'Jigs'),
  }),
);
const edits = fc.array(edit, { maxLength: 5 });

/** A maker's workbook after some edits, and the log of them. */
function worked(steps: readonly Edit[]) {
  const book = Workbook.open(start().document());
  const changes: Change[] = [];
  for (const one of steps) {
    const done = book.apply(one);
    if (done.ok) changes.push(...done.edit.changes);
  }
  return { book, changes };
}

const valuesOf = (book: Workbook) =>
  book
    .sheets()
    .map(({ id, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) =>
        book.value({ sheet: id, row: Math.floor(i / columns), column: i % columns }),
      ),
    );

describe('two makers who edit one workbook', () => {
  it('H5 H7 get the same workbook, each by changes that their engine follows', () => {
    fc.assert(
      fc.property(edits, edits, (mine, theirs) => {
        const [ann, bea] = [worked(mine), worked(theirs)];
        const merged = mergeLogs(start().document(), [
          { name: 'Ann', changes: ann.changes },
          { name: 'Bea', changes: bea.changes },
        ]);
        if (!merged.ok) throw new Error(merged.says);
        const loaded = loadText(saveText(merged.document));
        if (!loaded.ok) throw new Error(loaded.says);
        const opened = Workbook.open(loaded.document);
        expect(saveText(opened.document())).toBe(saveText(merged.document));
        for (const [i, { book }] of [ann, bea].entries()) {
          const changes = merged.changes[i as 0 | 1];
          expect(book.apply({ do: 'change', changes })).toMatchObject({ ok: true });
          expect(saveText(book.document())).toBe(saveText(merged.document));
          expect(valuesOf(book)).toEqual(valuesOf(opened));
          expect(book.checks()).toEqual(opened.checks());
        }
      }),
      { numRuns: 50 },
    );
  });
});
