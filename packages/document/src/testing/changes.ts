import fc from 'fast-check';
import type { Change } from '../changes/types.ts';
import type { CellDocument } from '../format/schema.ts';
import { documentOf } from './sample.ts';

/** A workbook small enough for changes to meet in it. */
export const bench = documentOf({
  sheets: {
    One: [
      [{ value: 84, quantity: 'length', name: 'top' }, 2, 'oak'],
      ['=top/2', '=SUM([c2.r1]:[c2.r3])', null],
      [null, 3, { value: 4, name: 'low' }],
      [{ formula: '=[c2.r1]*2', override: { value: 7 } }, null, null],
    ],
    Two: [[1, { value: 'elm', remark: 'Dry.' }], [{ value: true, name: 'yes' }]],
  },
  checks: [
    { id: 'k1', name: 'A', formula: '=top>1', severity: 'care', says: 'Short.', sheet: 's2' },
    { id: 'k2', name: 'B', formula: '=[s1!c1.r1]>1', severity: 'stop', says: '{top}' },
  ],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r3' }],
});

const numbered = (letter: string, most: number) =>
  fc.integer({ min: 1, max: most }).map((n) => `${letter}${n}`);
const row = numbered('r', 7);
const column = numbered('c', 5);
const sheet = numbered('s', 3);
const check = numbered('k', 3);
const table = numbered('t', 3);
const name = fc.constantFrom('top', 'low', 'yes', 'TOP', 'depth');
const title = fc.constantFrom('One', 'Two', 'two', 'Three');

const anyCell: fc.Arbitrary<CellDocument> = fc.record(
  {
    value: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constant('ash')),
    formula: fc.constantFrom('=top', '=[c1.r2]+1', '=SUM([s2!c1.r1]:[c1.r2])', '=A9'),
    name,
    remark: fc.constantFrom('Dry.', 'Wet.'),
  },
  { requiredKeys: [] },
);

const about = (part: Record<string, fc.Arbitrary<unknown>>) =>
  fc.record(part, { requiredKeys: [] });
const flag = fc.constantFrom(true, null);
const newColumn = fc.record({ id: column });
const newCheck = fc.record(
  {
    id: check,
    name: fc.constantFrom('C', 'D'),
    formula: fc.constantFrom('=top>2', '=[s1!c1.r2]>0'),
    severity: fc.constantFrom('care', 'stop'),
    says: fc.constant('Look.'),
    sheet,
  },
  { requiredKeys: ['id', 'name', 'formula', 'severity', 'says'] },
);
const newTable = fc.record({
  id: table,
  kind: fc.constantFrom('parts', 'stock', 'joints'),
  sheet,
  header: row,
  last: row,
});

function ofList(
  of: Record<string, fc.Arbitrary<unknown>>,
  id: fc.Arbitrary<string>,
  item: fc.Arbitrary<unknown>,
  set: fc.Arbitrary<object>,
) {
  const after = fc.option(id, { freq: 4 });
  const ids = fc.array(id, { maxLength: 3 });
  const change = (kind: string) => fc.constant(kind);
  return fc.oneof(
    fc.record({ change: change('insert'), ...of, after, items: fc.array(item, { maxLength: 2 }) }),
    fc.record({ change: change('remove'), ...of, ids }),
    fc.record({ change: change('order'), ...of, ids, after }),
    'sheet' in of
      ? fc.record({ change: change('set'), ...of, ids, set })
      : fc.record({ change: change('set'), ...of, id, set }),
  );
}

/** Any change that may be read from a log, of what is there and of what is not, with such cells. */
export function changesWith(cell: fc.Arbitrary<CellDocument>): fc.Arbitrary<Change> {
  const cells = fc.dictionary(column, cell, { maxKeys: 2 });
  const newRow = fc.record({ id: row, hidden: fc.constant(true), cells }, { requiredKeys: ['id'] });
  const newSheet = fc.record({
    id: sheet,
    name: title,
    columns: fc.uniqueArray(newColumn, { maxLength: 2, selector: ({ id }) => id }),
    rows: fc.uniqueArray(newRow, { maxLength: 2, selector: ({ id }) => id }),
  });
  return fc.oneof(
    {
      weight: 3,
      arbitrary: fc.record({
        change: fc.constant('cells'),
        sheet,
        cells: fc.array(fc.record({ row, column, cell: fc.option(cell, { freq: 4 }) }), {
          maxLength: 4,
        }),
      }),
    },
    {
      weight: 3,
      arbitrary: ofList(
        { list: fc.constant('rows'), sheet },
        row,
        newRow,
        about({ hidden: flag, group: fc.constantFrom(1, 2, null) }),
      ),
    },
    {
      weight: 2,
      arbitrary: ofList(
        { list: fc.constant('columns'), sheet },
        column,
        newColumn,
        about({ hidden: flag, width: fc.constantFrom(50, 90, null) }),
      ),
    },
    ofList(
      { list: fc.constant('sheets') },
      sheet,
      newSheet,
      about({ name: title, frozenColumns: fc.constantFrom(1, null) }),
    ),
    ofList(
      { list: fc.constant('checks') },
      check,
      newCheck,
      about({
        says: fc.constantFrom('Other.', 'More.'),
        sheet: fc.option(sheet),
        cells: fc.constantFrom('=[s1!c1.r1]', null),
      }),
    ),
    ofList({ list: fc.constant('tables') }, table, newTable, about({ last: row })),
    fc.record({
      change: fc.constant('head'),
      set: about({
        title: fc.constantFrom('A bench', 'A shelf'),
        author: fc.constantFrom('B', null),
      }),
    }),
  ) as fc.Arbitrary<Change>;
}

/** Any change with the cells of a few formulas and names. */
export const anyChange = changesWith(anyCell);
