import type { BookDocument, RowDocument } from '@kerfbook/workbook';
import { SHOP_COLUMNS, type ShopTable, Workbook } from '@kerfbook/workbook';

/** A row of such a table, by the heads of its columns. */
export type Row = Readonly<Record<string, string | number | boolean>>;

interface StepBook {
  readonly steps: readonly Row[];
  readonly parts?: readonly Row[];
  readonly words?: readonly Row[];
  readonly head?: Partial<BookDocument>;
}

/** An invented stool of three parts, open, with the steps that a test is about; a text that begins with `=` is a formula. */
export function stepBook({ steps, parts = STOOL, words, head }: StepBook): Workbook {
  const sheets = [sizes(), sheetOf('parts', parts), sheetOf('steps', steps)];
  if (words !== undefined) sheets.push(sheetOf('words', words));
  const kinds = (['parts', 'steps', 'words'] as const).slice(0, words === undefined ? 2 : 3);
  return Workbook.open({
    kerfbook: 8,
    title: 'A made-up stool',
    units: 'us',
    sheets,
    checks: [],
    tables: kinds.map((kind, i) => ({
      id: kind,
      kind,
      sheet: kind,
      header: 'r0',
      last: `r${(sheets[i + 1]?.rows.length ?? 1) - 1}`,
    })),
    ...head,
  });
}

const STOOL: readonly Row[] = [
  { part: 'Seat', count: 1, thickness: 1.25, width: 12, length: '=seat_length' },
  { part: 'Leg', count: 4, thickness: 1.5, width: 1.5, length: 16.1875 },
  { part: 'Rail, long', count: 2, thickness: 0.75, width: 2, length: 14 },
];

function sizes(): BookDocument['sheets'][number] {
  const row = (id: string, label: string, cell: object): RowDocument => ({
    id,
    cells: { c1: { value: label }, c2: cell },
  });
  return {
    id: 'sizes',
    name: 'Sizes',
    columns: [{ id: 'c1' }, { id: 'c2' }],
    rows: [
      row('r1', 'Length of the seat', {
        value: 33.1875,
        quantity: 'length',
        role: 'input',
        name: 'seat_length',
        allow: { min: 10, max: 60 },
      }),
      row('r2', 'Rounds', { value: 3, quantity: 'count', name: 'rounds_needed' }),
      row('r3', 'Broken', { formula: '=1/0', quantity: 'length', name: 'broken' }),
      row('r4', 'Nothing', { quantity: 'length', name: 'nothing_yet' }),
    ],
  };
}

/** A template with a plan for others: its own tables, and the steps that a test is about. */
export function withSteps(document: BookDocument, steps: readonly Row[]): BookDocument {
  const sheet = sheetOf('steps', steps);
  return {
    ...document,
    kerfbook: 8,
    sheets: [...document.sheets.filter(({ id }) => id !== sheet.id), sheet],
    tables: [
      ...document.tables.filter(({ kind }) => kind !== 'steps'),
      { id: 'steps', kind: 'steps', sheet: sheet.id, header: 'r0', last: `r${steps.length}` },
    ],
  };
}

function sheetOf(kind: ShopTable, rows: readonly Row[]): BookDocument['sheets'][number] {
  const columns = SHOP_COLUMNS[kind];
  const line = (id: string, cells: readonly (object | undefined)[]): RowDocument => ({
    id,
    cells: Object.fromEntries(
      cells.flatMap((cell, i) => (cell === undefined ? [] : [[`c${i}`, cell]])),
    ),
  });
  const cellOf = (value: string | number | boolean | undefined, quantity: string) => {
    if (value === undefined) return undefined;
    const isFormula = typeof value === 'string' && value.startsWith('=');
    return { ...(isFormula ? { formula: value } : { value }), quantity };
  };
  return {
    id: kind,
    name: kind,
    columns: columns.map((_, i) => ({ id: `c${i}` })),
    rows: [
      line(
        'r0',
        columns.map(({ heads }) => ({ value: heads })),
      ),
      ...rows.map((row, i) =>
        line(
          `r${i + 1}`,
          columns.map(({ heads, quantity }) => cellOf(row[heads], quantity)),
        ),
      ),
    ],
  };
}
