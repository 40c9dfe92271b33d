import { readFileSync } from 'node:fs';
import { type CellDocument, DOCUMENT_VERSION } from '@kerfbook/document';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';

/** A made-up workbook: a shelf whose price follows its length, its wood and the hours it takes. */
export function shelf(
  more: readonly (readonly CellDocument[])[] = [],
  tables: BookDocument['tables'] = [],
): Workbook {
  const line = (name: string, cell: CellDocument): readonly CellDocument[] => [
    { value: name },
    { ...cell, name },
  ];
  const input = (value: number | string, min?: number, max?: number): CellDocument => ({
    value,
    role: 'input',
    quantity: typeof value === 'string' ? 'text' : 'number',
    ...(min === undefined || max === undefined ? {} : { allow: { min, max } }),
  });
  const length: CellDocument = {
    value: 48,
    role: 'input',
    quantity: 'length',
    allow: { min: 12, max: 120 },
  };
  const rows: readonly (readonly CellDocument[])[] = [
    line('long', length),
    line('deep', { value: 10, role: 'input', quantity: 'length', allow: { min: 6, max: 16 } }),
    line('wood', {
      value: 'oak',
      quantity: 'text',
      role: 'input',
      allow: { list: ['oak', 'ash', 'pine'] },
    }),
    line('hours', input(6, 0, 100)),
    line('boards', {
      value: 2,
      role: 'input',
      quantity: 'count',
      allow: { min: 1, max: 9, whole: true },
    }),
    line('rate', input(40, 0, 200)),
    line('per_foot', { formula: '=IF(wood="oak",9,IF(wood="ash",6,4))' }),
    line('area', { formula: '=long*deep' }),
    line('price', { formula: '=ROUNDUP(area/144,0)*per_foot+hours*rate' }),
    line('smooth', { formula: '=area/144*per_foot+hours*rate' }),
    line('sag', { formula: '=long*long*long/deep' }),
    line('bump', { formula: '=(long-60)*(long-60)' }),
    line('broken', { formula: '=IF(long>100,1/0,long)' }),
    line('mass', { formula: '=area*boards' }),
    ...more,
  ];
  const columns = Math.max(2, ...rows.map((row) => row.length));
  const document: BookDocument = {
    kerfbook: DOCUMENT_VERSION,
    title: 'A made-up shelf',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Shelf',
        columns: Array.from({ length: columns }, (_, i) => ({ id: `c${i + 1}` })),
        rows: rows.map((cells, i) => ({
          id: `r${i + 1}`,
          cells: Object.fromEntries(
            cells.flatMap((cell, c) =>
              Object.keys(cell).length === 0 ? [] : [[`c${c + 1}`, cell]],
            ),
          ),
        })),
      },
    ],
    checks: [
      { id: 'k1', name: 'Sag', formula: '=sag<60000', severity: 'stop', says: 'It sags.' },
      { id: 'k2', name: 'Long', formula: '=long<90', severity: 'care', says: 'It is long.' },
    ],
    tables,
  };
  const loaded = loadText(JSON.stringify(document));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** The template that ships under this name. */
export function template(name: string): Workbook {
  const file = new URL(`../../../../templates/${name}.json`, import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}
