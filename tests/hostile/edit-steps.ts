import { changesWith } from '@kerfbook/document/testing/changes';
import type { BookDocument, CellDocument, Edit, SheetDocument } from '@kerfbook/workbook';
import fc from 'fast-check';

/** One thing done to an open workbook. */
export type Step =
  | { readonly edit: Edit; readonly pace?: number }
  | { readonly turn: 'undo' | 'redo'; readonly pace?: number }
  | { readonly goOn: number }
  | { readonly long: readonly Edit[]; readonly keep: boolean };

const OWN: BookDocument['tables'] = [
  { id: 't1', kind: 'woods', sheet: 's3', header: 'r1', last: 'r3' },
];

const cells = (...entries: (CellDocument | string | number | null)[]) =>
  Object.fromEntries(
    entries.flatMap((entry, i) => {
      if (entry === null) return [];
      const formula = typeof entry === 'string' && entry.startsWith('=');
      const cell =
        typeof entry === 'object' ? entry : formula ? { formula: entry } : { value: entry };
      return [[`c${i + 1}`, cell]];
    }),
  );

const columns = (count: number) => Array.from({ length: count }, (_, i) => ({ id: `c${i + 1}` }));

/** Rows below the others, each resting on those before it and on the first cell. */
const more = (count: number): SheetDocument['rows'] =>
  Array.from({ length: count }, (_, i) => {
    const row = `r${100 + i}`;
    const before = i === 0 ? '[c1.r1]' : `[c2.r${99 + i}]`;
    const first = `r${Math.max(100, 91 + i)}`;
    return {
      id: row,
      cells: cells(
        i,
        `=${before}+[$c1.$r1]*0.5`,
        `=IF([c2.${row}]>10,[c2.${row}]*2,[c1.${row}])`,
        `=ROUND(SUM([c2.${first}]:[c2.${row}])/3,2)`,
      ),
    };
  });

/** What every sequence begins with, and as many rows more. */
export function firstBook(rows = 0): BookDocument {
  return {
    kerfbook: 8,
    title: 'A bench for trying things',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'One',
        columns: columns(4),
        rows: [
          {
            id: 'r1',
            cells: cells({ value: 84, quantity: 'length', name: 'top' }, '=top/2', '=[c2.r1]*2'),
          },
          { id: 'r2', cells: cells(2, '=SUM([c1.r1]:[c1.r3])', '=[s2!c1.r1]') },
          { id: 'r3', cells: cells(3, { formula: '=[c1.r2]*top', role: 'calculated' }, 'oak') },
          { id: 'r4' },
          ...more(rows),
        ],
      },
      {
        id: 's2',
        name: 'Two',
        columns: columns(3),
        rows: [
          { id: 'r1', cells: cells('=SUM([s1!c1.r1]:[c2.r3])', '=[c1.r1]+1') },
          { id: 'r2', cells: cells('=top', 5) },
          { id: 'r3', cells: cells(null, '=SPECIFIC_GRAVITY("plum")') },
        ],
      },
      {
        id: 's3',
        name: 'Own',
        columns: columns(3),
        rows: [
          { id: 'r1', cells: cells('species', 'gravity') },
          { id: 'r2', cells: cells('plum', 0.7) },
          { id: 'r3', cells: cells(null, '=top/100') },
        ],
      },
    ],
    checks: [{ id: 'k1', name: 'A', formula: '=top>[s1!c1.r2]', severity: 'care', says: '{top}' }],
    tables: OWN,
  };
}

/** Formulas as typed: what a spreadsheet may hold that depends on more than the values it names. */
const FORMULAS = [
  ...['=A1', '=A1+1', '=B2*2', '=$A$1-B$2', '=top*2', '=low+1', '=One!B2+1', '=Two!A1', '=C9'],
  ...['=SUM(A1:A3)', '=SUM(Two!A1:B2)', '=SUM(A:A)', '=COUNT(1:2)', '=COUNTBLANK(A:B)'],
  ...[
    '=COUNTBLANK(B1:C4)',
    '=SUM(A1:A9)',
    '=SUM(A1:A70)',
    '=MAX(B1:B80)',
    '=SUMIF(A1:A4,">2")',
    '=COUNTIF(A:A,3)',
  ],
  ...[
    '=MATCH(3,A1:A4,0)',
    '=VLOOKUP(3,A1:B4,2,FALSE)',
    '=VLOOKUP(3,A1:B4,2,TRUE)',
    '=INDEX(A1:B3,2,1)',
  ],
  ...['=XLOOKUP(2,A1:A4,B1:B4)', '=MAX(A1:C2)', '=MEDIAN(A:A)', '=SUMPRODUCT(A1:A3,B1:B3)'],
  ...['=ROW()', '=ROW(B3)', '=ROW(D7)', '=ROWS(A1:A4)', '=ROWS(B2:B6)', '=COLUMN()', '=COLUMN(C1)'],
  ...[
    '=COLUMNS(A1:C1)',
    '=COLUMNS(B:C)',
    '=SHEET()',
    '=SHEETS()',
    '=SHEET("Two")',
    '=SHEET(Two!A1)',
  ],
  ...['=OFFSET(A1,1,1)', '=OFFSET(A1,1,0,2,1)', '=SUM(OFFSET(A1,0,0,3,1))', '=FORMULATEXT(B1)'],
  ...[
    '=FORMULATEXT(A2)',
    '=ISFORMULA(B1)',
    '=ISFORMULA(A2)',
    '=ISBLANK(B3)',
    '=ISREF(A1)',
    '=ADDRESS(2,3)',
  ],
  ...[
    '=SORT(A1:A3)',
    '=SORT(B1:C3)',
    '=UNIQUE(A1:A4)',
    '=UNIQUE(A:A)',
    '=SORT(B:B)',
    '=SUM(A:A*2)',
    '=FILTER(A1:A3,B1:B3>1)',
  ],
  ...[
    '=SEQUENCE(2,2)',
    '=SEQUENCE(3)',
    '=TRANSPOSE(A1:B3)',
    '=TRANSPOSE(A1:B2)',
    '={1,2;3,4}',
    '={1;2}',
  ],
  ...[
    '=ARRAYFORMULA(A1:A3*2)',
    '=A1:A3',
    '=A1:B2*2',
    '=MMULT(A1:B2,A1:B2)',
    '=SUM(A1:A3*2)',
    '=B1:C2',
  ],
  ...[
    '={top}',
    '={A1}',
    '={top}+1',
    '=Brif!B4',
    '=Brif!A1:A3',
    '=SUM(Brif!A:A)',
    "='a b'!A1+1",
    '=Trois!A1',
  ],
  ...[
    '=SUM(Trois!A1:B2)',
    '=nowhere+1',
    '=SUM(',
    '=A1:',
    '=(A1',
    '=#REF!+1',
    '=1/0',
    '=NA()',
    '=IFERROR(A1,B2)',
  ],
  ...[
    '=A1&"x"',
    '=TRUE()',
    '=IF(A1>2,B1,C1)',
    '=CHOOSE(2,A1,B1)',
    '=SWITCH(A1,3,"x","y")',
    '=A1=B1',
  ],
  ...[
    '=SPECIFIC_GRAVITY("plum")',
    '=SCREW_DIAMETER(8)',
    '=ISERROR(A1)',
    '=HYPERLINK("x","y")',
    '=COUNTA(A:C)',
  ],
  ...[
    '=SUMIFS(A1:A4,B1:B4,">1")',
    '=AVERAGEIF(A:A,">1",B:B)',
    '=MAXIFS(A1:A4,B1:B4,">1")',
    '=LARGE(A1:A4,2)',
  ],
  ...[
    '=A1%',
    '=-A2',
    '=ROWS(A:A)',
    '=COLUMNS(1:1)',
    '=AREAS(A1)',
    '=SUM(A1,Two!B2,top)',
    '=SUBTOTAL(9,A1:A4)',
  ],
];
const WORDS = [
  '',
  '1 1/2',
  '8 ft',
  'oak',
  '45%',
  '12',
  '-3',
  '3',
  '2',
  'plum',
  'TRUE',
  '1/2',
  '$5',
  "'=A1",
];

const SHEETS = ['s1', 's2', 's3', 's4', 's5'];
const sheet = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom('s1', 's2') },
  { weight: 3, arbitrary: fc.constantFrom(...SHEETS) },
);
const row = fc.nat(5);
const column = fc.nat(3);
const place = { row, column };
const text = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...FORMULAS) },
  { weight: 1, arbitrary: fc.constantFrom(...WORDS) },
);
const some = <T>(one: fc.Arbitrary<T>, most = 3) =>
  fc.array(one, { minLength: 1, maxLength: most });

const KEPT = [
  '=[c1.r1]+1',
  '=[s2!c1.r1]',
  '=SUM([c1.r1]:[c2.r3])',
  '=[c9.r9]',
  '=A1*2',
  '=SORT([c1.r1]:[c1.r3])',
];
const cell: fc.Arbitrary<CellDocument> = fc.oneof(
  fc.constantFrom<CellDocument[]>(
    { value: 4 },
    { value: 'oak' },
    { value: true },
    { value: 9, name: 'low' },
    { value: 5, name: 'top' },
    { quantity: 'length' },
    { remark: 'planed' },
    { formula: '=[c1.r1]', role: 'calculated', override: { value: 7 } },
  ),
  fc.constantFrom(...KEPT).map((formula): CellDocument => ({ formula })),
);
const placed: fc.Arbitrary<CellDocument> = fc.oneof(
  cell.filter(({ formula }) => formula === undefined),
  fc.constantFrom(...FORMULAS).map((formula): CellDocument => ({ formula })),
);
const orNull = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: null, freq: 4 });

const SHEET_NAMES = ['One', 'Two', 'Trois', 'a b', 'Brif', 'Полка', '棚', 'top', 'A1'];
const id = (kind: string) => fc.constantFrom(...[1, 2, 3, 6, 7, 8, 9].map((n) => `${kind}${n}`));
const newRow = fc
  .tuple(id('r'), orNull(cell))
  .map(([one, kept]) => (kept === null ? { id: one } : { id: one, cells: { c1: kept } }));

const newSheet: fc.Arbitrary<SheetDocument> = fc
  .tuple(fc.constantFrom(...SHEETS), fc.constantFrom(...SHEET_NAMES), some(cell, 2))
  .map(([one, name, kept]) => ({
    id: one,
    name,
    columns: columns(2),
    rows: [{ id: 'r1', cells: cells(...kept) }, { id: 'r2' }],
  }));

const CHECK_FORMULAS = [
  ...[
    '=top>[s1!c1.r2]',
    '=[s2!c1.r1]>1',
    '=Brif!B4>1',
    '=SUM(Brif!A1:B2)>0',
    '=Trois!A1',
    '=nowhere>1',
    '=SUM(',
  ],
  ...[
    '=A1:',
    '=One!A1:',
    '=[s1!c1.r1]:[c9.r9]',
    '=[s1!c1.r1]:[c1.r3]',
    '=ROWS([s1!c1.r1]:[c1.r3])=3',
    '=SHEETS()>2',
  ],
  ...[
    '=SUM([s1!c1.r1]:[c1.r3])>3',
    '=COUNTBLANK(One!A:A)>1',
    '={top}>1',
    '=ISFORMULA([s1!c1.r1])',
    '=One!A1>1',
  ],
  ...['=SORT([s1!c1.r1]:[c1.r3])', '=A1:A3', '=One!A1:B2:C3', '=SUM([s1!c1]:[c2])>1', '=TRUE()'],
];
const MARKED = ['=[s1!c1.r1]', '=[s1!c1.r1]:[c2.r2]', '=[s2!c1.r1]', '=[c1.r1]', '=One!A1:'];
const check = fc.record(
  {
    id: fc.constantFrom('k1', 'k2', 'k3'),
    name: fc.constantFrom('A', 'B'),
    formula: fc.constantFrom(...CHECK_FORMULAS),
    severity: fc.constantFrom('care' as const, 'stop' as const),
    says: fc.constantFrom('{top}', '{low} and {nowhere}', 'Too narrow.'),
    cells: fc.constantFrom(...MARKED),
    sheet: fc.constantFrom('s1', 's2', 's4'),
  },
  { requiredKeys: ['id', 'name', 'formula', 'severity', 'says'] },
);

/** The kinds of edits, each with how often it comes. */
type Kinds = {
  readonly [K in Exclude<Edit['do'], 'batch' | 'become' | 'change' | 'changeUnits'>]: [
    number,
    fc.Arbitrary<object>,
  ];
};

const KINDS: Kinds = {
  enter: [18, fc.record({ sheet, cells: some(fc.record({ ...place, text })) })],
  clear: [2, fc.record({ sheet, cells: some(fc.record(place), 5) })],
  setCells: [3, fc.record({ sheet, cells: some(fc.record({ ...place, cell: orNull(cell) })) })],
  place: [4, fc.record({ sheet, cells: some(fc.record({ ...place, cell: orNull(placed) })) })],
  moveCells: [
    3,
    fc.record({
      sheet,
      from: fc.record({
        ...place,
        rows: fc.integer({ min: 1, max: 3 }),
        columns: fc.integer({ min: 1, max: 2 }),
      }),
      to: fc.record({ sheet, ...place }),
    }),
  ],
  restore: [1, fc.record({ sheet, cells: some(fc.record(place)) })],
  describeCells: [
    2,
    fc.record({
      sheet,
      cells: some(
        fc.record({
          ...place,
          traits: fc.constantFrom(
            { quantity: 'length' },
            { quantity: 'angle' },
            { quantity: null },
            { role: 'calculated' },
            { role: 'input' },
            { remark: 'sharp' },
            { style: { bold: true } },
            { style: { wrap: true } },
            {},
          ),
        }),
      ),
    }),
  ],
  nameCell: [
    2,
    fc.record({
      at: fc.record({ sheet, ...place }),
      name: fc.constantFrom('top', 'low', 'Brif', null),
    }),
  ],
  renameName: [
    2,
    fc.record({
      from: fc.constantFrom('top', 'low', 'high'),
      to: fc.constantFrom('high', 'top', 'low', 'nowhere'),
    }),
  ],
  insertRows: [4, fc.record({ sheet, at: row, rows: some(newRow, 2) })],
  deleteRows: [3, fc.record({ sheet, at: row, count: fc.integer({ min: 1, max: 2 }) })],
  insertColumns: [
    3,
    fc.record({
      sheet,
      at: column,
      columns: some(
        id('c').map((one) => ({ id: one })),
        2,
      ),
    }),
  ],
  deleteColumns: [2, fc.record({ sheet, at: column, count: fc.integer({ min: 1, max: 2 }) })],
  setColumn: [1, fc.record({ sheet, column, width: fc.constantFrom(80, 120, 3, null) })],
  freeze: [1, fc.record({ sheet, columns: fc.nat(3), rows: fc.nat(2) })],
  hideColumns: [
    1,
    fc.record({ sheet, columns: fc.array(column, { maxLength: 2 }), hidden: fc.boolean() }),
  ],
  hideSheet: [1, fc.record({ sheet, hidden: fc.boolean() })],
  hideRows: [1, fc.record({ sheet, rows: fc.array(row, { maxLength: 2 }), hidden: fc.boolean() })],
  groupRows: [
    1,
    fc.record({ sheet, rows: fc.array(fc.record({ row, group: fc.nat(4) }), { maxLength: 3 }) }),
  ],
  addSheet: [2, fc.record({ at: fc.nat(3), sheet: newSheet })],
  removeSheet: [1, fc.record({ sheet: fc.constantFrom(...SHEETS) })],
  renameSheet: [2, fc.record({ sheet, name: fc.constantFrom(...SHEET_NAMES) })],
  moveSheet: [1, fc.record({ sheet, to: fc.nat(3) })],
  setChecks: [2, fc.record({ checks: fc.array(check, { maxLength: 3 }) })],
  setTables: [
    1,
    fc.record({
      tables: fc.constantFrom<BookDocument['tables'][]>([], OWN, [
        ...OWN,
        { id: 't2', kind: 'screws', sheet: 's2', header: 'r1', last: 'r2' },
      ]),
    }),
  ],
  setBook: [
    1,
    fc.record({
      set: fc.constantFrom(
        { title: 'Other' },
        { currency: 'EUR' },
        { currency: null },
        { locked: true },
        { locked: null },
        { title: '' },
        { customer: 'A made-up family', job: '26-014', due: '2026-03-14', revision: 'B' },
        { due: '2026-02-30' },
        { agreed: '2026-03-01', letterhead: { name: 'A made-up shop', tax: '00-0000000' } },
        { agreed: null, letterhead: null },
        { guide: { inputs: ['kerf', 'price'], tone: 'moss' } },
        { guide: null, photos: { clamps: { data: 'data:image/png;base64,AbC=' } } },
        { customer: null, due: null, terms: 'Half now, half on delivery.' },
        { results: ['kerf', 'price'] },
        { results: null },
        { tags: ['oak', 'hall'] },
        { tags: null },
      ),
    }),
  ],
};

const simple: fc.Arbitrary<Edit> = fc.oneof(
  ...Object.entries(KINDS).map(([kind, [weight, rest]]) => ({
    weight,
    arbitrary: rest.map((fields) => ({ do: kind, ...fields }) as Edit),
  })),
);
/** A state that is taken over whole stands for what the sequence began with, or another book. */
const become = fc.constantFrom('first', 'other').map((which): Edit => {
  const book = firstBook();
  const [one] = book.sheets;
  return {
    do: 'become',
    book: which === 'first' || one === undefined ? book : { ...book, sheets: [one], tables: [] },
  };
});
const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 40, arbitrary: simple },
  { weight: 3, arbitrary: some(simple).map((edits): Edit => ({ do: 'batch', edits })) },
  {
    weight: 4,
    arbitrary: some(changesWith(cell), 2).map((changes): Edit => ({ do: 'change', changes })),
  },
  { weight: 1, arbitrary: become },
);

const pace = fc.option(fc.nat(3), { nil: undefined, freq: 4 });
const paced = <T extends object>(one: fc.Arbitrary<T>) =>
  fc
    .tuple(one, pace)
    .map(([kept, count]) => (count === undefined ? kept : { ...kept, pace: count }));

const anyStep = fc.oneof(
  { weight: 40, arbitrary: paced(fc.record({ edit: anyEdit })) },
  {
    weight: 6,
    arbitrary: paced(
      fc.record({ turn: fc.constantFrom('undo' as const, 'undo' as const, 'redo' as const) }),
    ),
  },
  { weight: 2, arbitrary: fc.record({ goOn: fc.nat(3) }) },
  { weight: 1, arbitrary: fc.record({ long: some(simple), keep: fc.boolean() }) },
) as fc.Arbitrary<Step>;

/** Formulas for which the engine is built anew again and again: it follows the others by itself. */
const SPECIAL =
  /^=.*(?:\b(?:ROWS?|COLUMNS?|SHEETS?|OFFSET|FORMULATEXT|ISFORMULA|COUNTBLANK|SORT|UNIQUE|FILTER|SEQUENCE|TRANSPOSE|ARRAYFORMULA|MMULT)\(|\{|\b[A-C]:|\b\d:|\*2\)$)|^=[A-Z]\d:[A-Z]\d/;
const PLAIN = FORMULAS.filter((formula) => !SPECIAL.test(formula));

/** The same step without formulas that are special to the engine. */
function plainly(step: Step): Step {
  return JSON.parse(JSON.stringify(step), (_, value: unknown) =>
    typeof value === 'string' && SPECIAL.test(value)
      ? PLAIN[(value.length * 7) % PLAIN.length]
      : value,
  ) as Step;
}

const mostly = (value: boolean) => fc.constantFrom(value, value, !value);

/** What is done to a workbook. */
export interface Run {
  readonly steps: readonly Step[];
  /** Rows that the workbook has besides the few it always has. */
  readonly rows?: number | undefined;
  /** After which step to look. */
  readonly look?: number | undefined;
  /** All is undone in the end. */
  readonly undo?: boolean;
}

/** So many steps, most times plain ones and in a small workbook. */
export const anyRun = (steps: number): fc.Arbitrary<Run> =>
  fc
    .record({
      steps: fc.array(anyStep, { minLength: steps, maxLength: steps }),
      plain: mostly(true),
      rows: fc.constantFrom(80, ...Array<undefined>(7).fill(undefined)),
      look: fc.option(fc.nat(steps - 1), { nil: undefined, freq: 1 }),
      undo: mostly(false),
    })
    .map(({ plain, ...run }) => (plain ? { ...run, steps: run.steps.map(plainly) } : run));

/** The same, with changes of the workbook's units among its steps. */
export const anyRunInUnits = (steps: number): fc.Arbitrary<Run> =>
  fc
    .record({
      run: anyRun(steps),
      changes: fc.array(fc.nat(steps), { minLength: 1, maxLength: 3 }),
    })
    .map(({ run, changes }) => {
      const all = [...run.steps.map(plainly)];
      for (const [i, at] of changes.entries()) {
        all.splice(at, 0, { edit: { do: 'changeUnits', to: i % 2 === 0 ? 'metric' : 'us' } });
      }
      return { ...run, steps: all };
    });
