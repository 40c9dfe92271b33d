import type { BookDocument } from '@kerfbook/workbook';

/** A small sound workbook for spoiling: every kind of part is in it once. */
export function specimen(): BookDocument {
  return {
    kerfbook: 8,
    title: 'An invented stool',
    about: 'Made up for trying bad files.',
    units: 'us',
    currency: 'USD',
    sheets: [
      {
        id: 's1',
        name: 'Seat',
        columns: [{ id: 'c1', width: 120 }, { id: 'c2' }],
        rows: [
          {
            id: 'r1',
            cells: {
              c1: { value: 'Width' },
              c2: { value: 14, quantity: 'length', name: 'seat_width' },
            },
          },
          {
            id: 'r2',
            cells: {
              c2: { formula: '=seat_width*2', role: 'calculated', override: { value: 30 } },
            },
          },
          { id: 'r3', cells: { c2: { formula: '=SUM([c2.r1]:[c2.r2])', name: 'total' } } },
        ],
      },
      {
        id: 's2',
        name: 'Legs',
        columns: [{ id: 'c1' }],
        rows: [{ id: 'r1', cells: { c1: { formula: '=[s1!c2.r3]+1' } } }],
      },
    ],
    checks: [
      {
        id: 'k1',
        name: 'Wide enough',
        sheet: 's1',
        formula: '=seat_width>=12',
        severity: 'care',
        says: 'A seat of {seat_width} is narrow.',
      },
    ],
    tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r3' }],
  };
}

/** The specimen as text, after a change to it. */
export function spoilt(change: (book: BookDocument) => unknown): string {
  const book = specimen();
  change(book);
  return JSON.stringify(book);
}

/** The specimen with a value put at a path that its type would not allow. */
export function withAt(path: readonly (string | number)[], value: unknown): string {
  const book = specimen();
  let place: unknown = book;
  for (const step of path.slice(0, -1)) place = (place as Record<string | number, unknown>)[step];
  (place as Record<string | number, unknown>)[path.at(-1) ?? ''] = value;
  return JSON.stringify(book);
}

/** One plain sentence or two, made for a person: no jargon of the machine in it. */
export const plainSentence =
  /^(?!.*(?:undefined|NaN|\[object|TypeError|stack| at .*:\d+:\d+)).{20,600}\.$/su;
