import type { BookDocument, Edit } from '@kerfbook/document';
import fc from 'fast-check';
import type { MakeEngine } from '../port.ts';
import { bookOf } from './sample.ts';

const OWN_WOODS: BookDocument['tables'] = [
  { id: 't1', kind: 'woods', sheet: 's3', header: 'r1', last: 'r3' },
];
const OWN_BOTH: BookDocument['tables'] = [
  ...OWN_WOODS,
  { id: 't2', kind: 'screws', sheet: 's3', header: 'r1', last: 'r2' },
];

/** A workbook of three sheets with names, own tables, a check and an error or two. */
export const startBook = (engine?: MakeEngine) =>
  bookOf(
    {
      sheets: {
        One: [
          [{ value: 84, quantity: 'length', name: 'top' }, '=top/2', '=[c2.r1]+[c1.r2]'],
          [2, '=SUM([c1.r1]:[c1.r3])', '=[s2!c1.r1]'],
          [3, { formula: '=[c1.r3]*top', role: 'calculated' }, 'words'],
        ],
        Two: [
          ['=SUM([s1!c1.r1]:[c2.r3])', '=[c1.r1]+1'],
          ['=top', 5],
          ['=SCREW_DIAMETER(8)', '=SPECIFIC_GRAVITY("plum")'],
        ],
        Own: [
          ['species', 'gravity', 'gauge', 'diameter'],
          ['plum', 0.7, 8, 0.17],
          ['', '=top/100', 9, '=top/500'],
        ],
      },
      tables: OWN_WOODS,
      checks: [
        { id: 'k1', name: 'A', formula: '=top>[s1!c1.r2]', severity: 'care', says: '{top}' },
      ],
    },
    engine,
  );

const sheet = fc.constantFrom('s1', 's2', 's3');
const row = fc.nat(4);
const column = fc.nat(3);
const anyText = fc.oneof(
  fc.constantFrom(
    '=A1',
    '=top*2',
    '=One!B2+1',
    '=SUM(A1:A3)',
    '=SUM(Two!A1:B2)',
    '=$A$1-B$2',
    '=1/0',
    '=SORT(A1:A3)',
    '=SPECIFIC_GRAVITY("plum")+SCREW_DIAMETER(8)',
    'plum',
    'gauge',
  ),
  fc.constantFrom('', '1 1/2', '8 ft', 'oak', '45%', '=SUM(', '12', '-3', '=C9'),
);
const fresh = fc.stringMatching(/^z[a-z]{6}$/);

/** Any edit of {@link startBook} with these texts typed into cells. */
export const editOf = (text: fc.Arbitrary<string>): fc.Arbitrary<Edit> =>
  fc.oneof(
    {
      weight: 6,
      arbitrary: fc.record({
        do: fc.constant('enter' as const),
        sheet,
        cells: fc.array(fc.record({ row, column, text }), { minLength: 1, maxLength: 3 }),
      }),
    },
    fc.record({
      do: fc.constant('clear' as const),
      sheet,
      cells: fc.array(fc.record({ row, column }), { minLength: 1, maxLength: 3 }),
    }),
    fc.record({
      do: fc.constant('insertRows' as const),
      sheet,
      at: row,
      rows: fresh.map((id) => [{ id }]),
    }),
    fc.record({
      do: fc.constant('deleteRows' as const),
      sheet,
      at: row,
      count: fc.integer({ min: 1, max: 2 }),
    }),
    fc.record({
      do: fc.constant('insertColumns' as const),
      sheet,
      at: column,
      columns: fresh.map((id) => [{ id }]),
    }),
    fc.record({
      do: fc.constant('deleteColumns' as const),
      sheet,
      at: column,
      count: fc.constant(1),
    }),
    fc.record({
      do: fc.constant('renameSheet' as const),
      sheet,
      name: fc.constantFrom('One', 'Two', 'Trois', 'a b'),
    }),
    fc.record({ do: fc.constant('removeSheet' as const), sheet }),
    fc.record({
      do: fc.constant('changeUnits' as const),
      to: fc.constantFrom('us' as const, 'metric' as const),
    }),
    fc.record({ do: fc.constant('freeze' as const), sheet, columns: fc.nat(3) }),
    fc.record({ do: fc.constant('freeze' as const), sheet, rows: fc.nat(3) }),
    fc.record({
      do: fc.constant('hideRows' as const),
      sheet,
      rows: fc.array(row, { maxLength: 3 }),
      hidden: fc.boolean(),
    }),
    fc.record({
      do: fc.constant('groupRows' as const),
      sheet,
      rows: fc.array(fc.record({ row, group: fc.nat(3) }), { maxLength: 3 }),
    }),
    fc.record({
      do: fc.constant('hideColumns' as const),
      sheet,
      columns: fc.array(column, { maxLength: 3 }),
      hidden: fc.boolean(),
    }),
    fc.record({
      do: fc.constant('place' as const),
      sheet,
      cells: fc.array(
        fc.record({
          row,
          column,
          cell: fc.constantFrom(
            null,
            { value: 4 },
            { formula: '=A1+$B$2' },
            { formula: '=top+D9' },
          ),
        }),
        { minLength: 1, maxLength: 3 },
      ),
    }),
    fc.record({
      do: fc.constant('moveCells' as const),
      sheet,
      from: fc.record({
        row,
        column,
        rows: fc.integer({ min: 1, max: 3 }),
        columns: fc.integer({ min: 1, max: 2 }),
      }),
      to: fc.record({ sheet, row, column }),
    }),
    fc.record({
      do: fc.constant('setTables' as const),
      tables: fc.constantFrom([], OWN_WOODS, OWN_BOTH),
    }),
    fc.record({
      do: fc.constant('renameName' as const),
      from: fc.constantFrom('top', 'high'),
      to: fc.constantFrom('high', 'top', 'B2'),
    }),
    fc.record({
      do: fc.constant('nameCell' as const),
      at: fc.record({ sheet, row, column }),
      name: fc.constantFrom('top', 'low', null),
    }),
  );

export const anyEdit = editOf(anyText);
