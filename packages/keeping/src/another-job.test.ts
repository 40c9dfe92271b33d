import { loadValue, type RowDocument, saveText } from '@kerfbook/workbook';
import { expect, it } from 'vitest';
import { forAnotherJob } from './another-job.ts';

const row = (id: string, cells: object) => ({ id, cells });

/** A workbook with hours worked, and a sum of them beside and below. */
function worked() {
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Made-up bench',
    units: 'us',
    currency: 'USD',
    sheets: [
      {
        id: 's1',
        name: 'Hours',
        columns: ['c1', 'c2', 'c3'].map((id) => ({ id })),
        rows: [
          row('r1', { c1: { value: 'operation' }, c2: { value: 'hours' } }),
          row('r2', {
            c1: { value: 'Made-up gluing' },
            c2: { value: 4, quantity: 'duration', role: 'input' },
            c3: { formula: '=[c2.r2]*2' },
          }),
          row('r3', { c1: { value: 'Made-up sanding' }, c2: { value: 3, quantity: 'duration' } }),
          row('r4', { c1: { value: 'In all' }, c2: { formula: '=SUM([c2.r2]:[c2.r3])' } }),
        ],
      },
    ],
    checks: [],
    tables: [{ id: 't1', kind: 'hours', sheet: 's1', header: 'r1', last: 'r3' }],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

it('has nothing of the hours that the last job took, and room for those of the next', () => {
  const before = worked();
  const kept = forAnotherJob(before);
  expect(saveText(kept)).not.toContain('Made-up gluing');
  expect(saveText(kept)).not.toContain('Made-up sanding');
  const [head, first, second, sum] = kept.sheets[0]?.rows ?? [];
  expect(head).toEqual(before.sheets[0]?.rows[0]);
  // The next entries are read as the last ones were.
  expect(first?.cells?.c2).toEqual({ quantity: 'duration', role: 'input' });
  expect(first?.cells?.c3).toEqual(before.sheets[0]?.rows[1]?.cells?.c3);
  expect(second?.cells?.c2).toEqual({ quantity: 'duration' });
  expect(sum).toEqual(before.sheets[0]?.rows[3]);
  expect(loadValue(JSON.parse(saveText(kept))).ok).toBe(true);
});

it('is the same workbook where nobody wrote down hours', () => {
  const { tables: _none, ...rest } = worked();
  const without = { ...rest, tables: [] };
  expect(forAnotherJob(without)).toEqual(without);
});

it('begins on no day yet, and keeps what else stands in that row', () => {
  const { sheets, ...rest } = worked();
  const start: RowDocument = {
    id: 'r5',
    cells: {
      c1: { value: 'The work begins on' },
      c2: { value: 46_000, quantity: 'date', role: 'input', name: 'start_day' },
    },
  };
  const [first] = sheets;
  if (first === undefined) throw new Error('no sheet');
  const document = { ...rest, sheets: [{ ...first, rows: [...first.rows, start] }] };
  expect(forAnotherJob(document).sheets[0]?.rows.at(-1)).toEqual(
    row('r5', {
      c1: { value: 'The work begins on' },
      c2: { quantity: 'date', role: 'input', name: 'start_day' },
    }),
  );
});
