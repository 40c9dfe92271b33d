import type { CellValue } from '@kerfbook/workbook';
import type { PartsSource } from '../parts-source.ts';

export type Fake = string | number | boolean | null | { readonly word: '#NUM!' | '#DIV/0!' };

/** A workbook of one sheet, `s1`, that holds a parts table from its first row on; no engine. */
export function fakeBook(
  rows: readonly (readonly Fake[])[],
  units: PartsSource['units'] = 'us',
): PartsSource {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  return {
    units,
    tables: () => [{ id: 't1', kind: 'parts', sheet: 's1', header: 0, last: rows.length - 1 }],
    sheet: (id) =>
      id === 's1'
        ? {
            id,
            name: 'Parts',
            isHidden: false,
            rows: rows.length,
            columns,
            widths: [],
            hidden: [],
            hiddenRows: [],
            frozenRows: 0,
            groups: [],
            mayWrap: [],
            frozenColumns: 0,
          }
        : undefined,
    value: ({ row, column }) => toValue(rows[row]?.[column] ?? null),
  };
}

function toValue(fake: Fake): CellValue {
  if (fake === null) return { kind: 'empty' };
  if (typeof fake === 'number') return { kind: 'number', number: fake };
  if (typeof fake === 'string') return { kind: 'text', text: fake };
  if (typeof fake === 'boolean') return { kind: 'logical', logical: fake };
  return { kind: 'error', error: { word: fake.word, says: 'An invented error of a test.' } };
}
