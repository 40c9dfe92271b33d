import { BookState, formulaOf } from '@kerfbook/document';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { Flattening, sameValue } from './flatten.ts';
import { LISTED_PRICES } from './price-forms.ts';
import { writeFormula } from './write-formula.ts';

type Row = readonly [
  wood: string,
  thickness: number | '',
  grade: string,
  price: number | '',
  per: string,
  day: number | '',
];

const HEADS = ['wood', 'thickness', 'grade', 'price', 'per', 'day'];
const WOODS = ['white oak', 'black walnut', 'black cherry', 'birch plywood', 'sugar maple'];

/** Thicknesses in inches; what is alike, asked on several days, and by the cubic meter among it. */
const LIST: readonly Row[] = [
  ['white oak', 1, '', 8, 'board foot', 46300],
  ['white oak', 2, '', 9, '', 46300],
  ['white oak', '', '', 12.5, 'board foot', ''],
  ['white oak', 1, '', 8.5, 'board foot', 46310],
  ['white oak', 1, '', 7.5, 'board foot', ''],
  ['black walnut', 1, '', 2400, 'cubic meter', 46300],
  ['black walnut', 2, '', 12.5, 'board foot', 46300],
  ['black walnut', 2.25, '', 13.25, 'board foot', 46300],
  ['black walnut', 1.5, '', '', 'board foot', 46300],
  ['birch plywood', 0.5, '', 72, 'piece', 46300],
  ['birch plywood', 0.75, '', 96, 'piece', 46300],
  ['birch plywood', 0.75, '', 4.2, 'board foot', 46300],
  ['Sugar Maple', '', '', 7.125, 'board foot', 46299.5],
];

const FORMULAS: Readonly<Record<string, string>> = {
  WOOD_PRICE: '=IFNA(WOOD_PRICE(wood,thick+0),-1)',
  PIECE_PRICE: '=IFNA(PIECE_PRICE(wood,thick),-1)',
};

function bookWith(
  list: readonly Row[],
  units: 'us' | 'metric' = 'us',
  formulas: readonly string[] = Object.values(FORMULAS),
): Workbook {
  const inch = units === 'us' ? 1 : 25.4;
  const lines = list.map((row) =>
    row.map((value, at) => (at === 1 && typeof value === 'number' ? value * inch : value)),
  );
  const cells = (line: readonly (string | number)[]) =>
    Object.fromEntries(
      line.flatMap((value, at) => (value === '' ? [] : [[`c${at + 1}`, { value }]])),
    );
  const loaded = loadValue({
    kerfbook: 8,
    title: 'A bench for prices',
    units,
    sheets: [
      {
        id: 's1',
        name: 'Sheet',
        columns: [{ id: 'c1' }],
        rows: [
          {
            id: 'r1',
            cells: {
              c1: { value: 'white oak', name: 'wood', allow: { list: WOODS }, quantity: 'text' },
            },
          },
          { id: 'r2', cells: { c1: { value: inch, name: 'thick', quantity: 'length' } } },
          ...formulas.map((formula, at) => ({ id: `q${at + 1}`, cells: { c1: { formula } } })),
        ],
      },
      {
        id: 's2',
        name: 'Prices',
        columns: HEADS.map((_, at) => ({ id: `c${at + 1}` })),
        rows: [HEADS, ...lines].map((line, at) => ({ id: `r${at + 1}`, cells: cells(line) })),
      },
    ],
    checks: [],
    tables: [
      { id: 'prices', kind: 'prices', sheet: 's2', header: 'r1', last: `r${list.length + 1}` },
    ],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** Each formula as it is written out, or why it is not. */
function writtenOut(book: Workbook): ReadonlyMap<string, string> {
  const out = new Flattening(book);
  const state = BookState.of(book.document());
  const found = new Map<string, string>();
  for (const [row, line] of (state.sheets[0]?.rows ?? []).entries()) {
    const cell = line.cells.get('c1');
    const root = cell === undefined ? undefined : formulaOf(cell)?.root;
    if (root === undefined) continue;
    const home = { sheet: 's1', evaluates: 's1' };
    const made = out.formulaOut(root, book.value({ sheet: 's1', row, column: 0 }), home);
    found.set(
      cell?.formula ?? '',
      'formula' in made ? `=${writeFormula(made.formula.root, out.writing('s1'))}` : made.why,
    );
  }
  return found;
}

function type(book: Workbook, sheet: string, row: number, column: number, text: string): void {
  const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!done.ok) throw new Error(done.says);
}

describe('prices of the list, written out over its columns', () => {
  it('are each tried here', () => {
    expect(Object.keys(FORMULAS).sort()).toEqual([...LISTED_PRICES].sort());
  });

  it.each(['us', 'metric'] as const)(
    'follow every wood and thickness as ours does, in %s',
    (units) => {
      const book = bookWith(LIST, units);
      const forms = writtenOut(book);
      const inch = units === 'us' ? 1 : 25.4;
      const said = new Set<string>();
      for (const wood of WOODS) {
        type(book, 's1', 0, 0, wood);
        // 50 mm is 2 in; 2 1/8 in is as near to 2 as to 2 1/4 in and as near to neither as the same.
        for (const thick of [0.5, 0.75, 1, 1.06, 1.09, 1.5, 50 / 25.4, 2.07, 2.125, 2.3, 3]) {
          type(book, 's1', 1, 0, String(thick * inch));
          for (const [formula, form] of forms) {
            const ours = book.evaluate(formula);
            const comes = book.evaluate(form);
            const what = `${formula} ${wood} ${thick} ${JSON.stringify([ours, comes])} ${form}`;
            expect(sameValue(comes, ours), what).toBe(true);
            said.add(JSON.stringify(ours));
          }
        }
      }
      // Most rows were really come to, and some woods have no price in some thickness.
      expect(said.size).toBeGreaterThan(8);
      expect(said).toContain('{"kind":"number","number":-1}');
      expect(said).toContain('{"kind":"number","number":8.5}');
    },
  );

  it('follow another price in the list', () => {
    const book = bookWith(LIST);
    const [form = ''] = writtenOut(book).values();
    type(book, 's2', 4, 3, '11.25');
    expect(book.evaluate(form)).toEqual({ kind: 'number', number: 11.25 });
    // A later day, on the row that stood behind.
    type(book, 's2', 1, 5, '2030-01-01');
    expect(book.evaluate(form)).toEqual({ kind: 'number', number: 8 });
    expect(book.evaluate('=WOOD_PRICE(wood,thick)')).toEqual({ kind: 'number', number: 8 });
  });

  it.each([
    ['two rows of one day', [5, 5, '46300']],
    ['a grade', [5, 2, 'FAS']],
    ['a unit by another word', [5, 4, 'bf']],
  ] as const)('are never another price once the list has %s', (_, [row, column, text]) => {
    const book = bookWith([LIST[0] ?? fail(), ...LIST.slice(5, 8), LIST[12] ?? fail(), [...TWIN]]);
    const [form = ''] = writtenOut(book).values();
    expect(book.evaluate(form)).toEqual({ kind: 'number', number: 8.25 });
    type(book, 's2', row + 1, column, text);
    expect(book.evaluate(form)).toMatchObject({ kind: 'error', error: { word: '#NUM!' } });
  });

  it('stand as their last value where the list or the question asks for more than is read', () => {
    const frozen = (list: readonly Row[], formula = '=WOOD_PRICE(wood,thick)') =>
      [...writtenOut(bookWith(list, 'us', [formula])).values()][0];
    expect(frozen(LIST)).toContain('INDEX(');
    expect(frozen([['Quercus alba', 1, '', 8, '', '']])).toContain('is a function of Kerfbook');
    expect(frozen([['white oak', 1, 'FAS', 8, '', '']])).toContain('would not come to the same');
    expect(frozen(LIST, '=WOOD_PRICE(wood,thick,"FAS")')).toContain('is a function of Kerfbook');
    expect(frozen(LIST, '=PIECE_PRICE("birch plywood")+1')).toContain('is a function of Kerfbook');
  });
});

/** Another row of the first wood, a day later. */
const TWIN: Row = ['white oak', 1, '', 8.25, '', 46301];
function fail(): never {
  throw new Error('the list is shorter than that');
}
