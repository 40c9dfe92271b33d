import { describe, expect, it } from 'vitest';
import type { BookDocument, CellDocument } from '../format/schema.ts';
import { documentProblem } from '../loading/consistency.ts';
import { documentOf, type Sketch } from '../testing/sample.ts';
import { joinBooks } from './join.ts';

const input = (name: string, value: number): CellDocument => ({
  value,
  quantity: 'length',
  role: 'input',
  name,
});
const worked = (name: string, formula: string): CellDocument => ({
  formula,
  quantity: 'length',
  role: 'calculated',
  name,
});

const HEADS = ['Part', 'Count', 'Length', 'Material'];
const partsTable = (rows: number, sheet = 's1'): BookDocument['tables'] => [
  { id: 't1', kind: 'parts', sheet, header: 'r1', last: `r${rows}` },
];

function joined(book: BookDocument, other: BookDocument) {
  const result = joinBooks(book, other);
  if (!result.ok) throw new Error(result.says);
  expect(documentProblem(result.document)).toBeUndefined();
  return result;
}

function cellNamed(book: BookDocument, name: string): CellDocument | undefined {
  const cells = book.sheets.flatMap(({ rows }) =>
    rows.flatMap((row) => Object.values(row.cells ?? {})),
  );
  return cells.find((cell) => cell.name === name);
}

const grid = (
  book: BookDocument,
  sheet: string,
): (readonly (string | number | boolean | null)[])[] => {
  const found = book.sheets.find(({ name }) => name === sheet);
  return (found?.rows ?? []).map(({ cells }) =>
    (found?.columns ?? []).map(({ id }) => cells?.[id]?.formula ?? cells?.[id]?.value ?? null),
  );
};

const top = documentOf({
  sheets: {
    Top: [
      ['Length', input('top_length', 84)],
      ['Weight', worked('top_weight', '=top_length*2')],
    ],
  },
});

describe('two workbooks put together', () => {
  it('J1 puts the sheets of the other after those there, under ids and names that are free', () => {
    const other = documentOf({
      sheets: {
        Top: [
          ['A', 1],
          ['B', '=[c2.r1]+1'],
        ],
        Legs: [['=[s1!c2.r1]']],
      },
    });
    const { document, sheets } = joined(top, other);
    expect(document.sheets.map(({ name }) => name)).toEqual(['Top', 'Top 2', 'Legs']);
    expect(document.sheets.slice(1).map(({ id }) => id)).toEqual(sheets);
    expect(new Set(document.sheets.map(({ id }) => id)).size).toBe(3);
    expect(grid(document, 'Top 2')[1]).toEqual(['B', '=[c2.r1]+1']);
    expect(grid(document, 'Legs')).toEqual([[`=[${sheets[0]}!c2.r1]`]]);
    expect(document.sheets[0]).toEqual(top.sheets[0]);
    expect(document.title).toBe(top.title);
  });

  it('J2 an input takes what the other workbook works out, on whichever side it is', () => {
    const base = documentOf({
      sheets: {
        Base: [
          ['Top weighs', input('top_weight', 100)],
          ['All', worked('all_weight', '=top_weight+20')],
        ],
      },
    });
    const one = joined(top, base);
    expect(grid(one.document, 'Base')).toEqual([
      ['Top weighs', '=top_weight'],
      ['All', '=top_weight+20'],
    ]);
    expect(cellNamed(one.document, 'top_weight')?.formula).toBe('=top_length*2');
    expect(one.told).toEqual([]);
    const two = joined(base, top);
    expect(grid(two.document, 'Base')[0]).toEqual(['Top weighs', '=top_weight']);
    expect(cellNamed(two.document, 'top_weight')?.formula).toBe('=top_length*2');
    expect(two.told).toEqual([
      {
        code: 'J2',
        says: '1 input of this workbook will follow what the new sheets work out.',
        which: ['top_weight'],
      },
    ]);
  });

  it('J2 of two inputs that of the workbook they come into counts, and that is told', () => {
    const base = documentOf({
      sheets: { Base: [[input('top_length', 60), worked('apron', '=top_length-12')]] },
    });
    const { document, told } = joined(top, base);
    expect(cellNamed(document, 'top_length')).toEqual(input('top_length', 84));
    expect(grid(document, 'Base')).toEqual([['=top_length', '=top_length-12']]);
    expect(told.map(({ code, which }) => [code, which])).toEqual([['J1', ['top_length']]]);
  });

  it('J3 what both work out in ways of their own is kept apart, in formulas and sentences too', () => {
    const other = documentOf({
      sheets: { Other: [[worked('top_weight', '=12'), worked('twice', '=Top_Weight*2')]] },
      checks: [
        {
          id: 'k1',
          name: 'Light',
          sheet: 's1',
          formula: '=top_weight<20',
          severity: 'care',
          says: 'It weighs {top_weight}.',
          cells: '=[c1.r1]',
        },
      ],
    });
    const { document, sheets, told } = joined(top, other);
    expect(grid(document, 'Other')).toEqual([['=12', '=top_weight_2*2']]);
    expect(cellNamed(document, 'top_weight')?.formula).toBe('=top_length*2');
    expect(document.checks).toEqual([
      {
        id: 'k1',
        name: 'Light',
        sheet: sheets[0],
        formula: '=top_weight_2<20',
        severity: 'care',
        says: 'It weighs {top_weight_2}.',
        cells: '=[c1.r1]',
      },
    ]);
    expect(told.map(({ code }) => code)).toEqual(['J3']);
    expect(told[0]?.which).toEqual(['top_weight, which becomes top_weight_2']);
  });

  it('J3 a name that means another quantity is kept apart', () => {
    const other = documentOf({
      sheets: {
        Other: [
          [{ value: 3, quantity: 'count', role: 'input', name: 'top_length' }],
          ['Do it {top_length} times.'],
        ],
      },
    });
    const { document, told } = joined(top, other);
    expect(cellNamed(document, 'top_length_2')?.value).toBe(3);
    // The text of a step goes on showing its own cell.
    expect(JSON.stringify(document)).toContain('Do it {top_length_2} times.');
    expect(told.map(({ code }) => code)).toEqual(['J4']);
  });

  it('J3 what both work out alike is there once, with its row and its check', () => {
    const sums = (more: readonly Sketch[][] = []): BookDocument =>
      documentOf({
        sheets: {
          Parts: [
            HEADS,
            ['Leg', 4, 28, 'oak'],
            ...more,
            [],
            ['Sum', worked('all_long', `=SUM([c3.r1]:[c3.r${3 + more.length}])`)],
          ],
        },
        tables: partsTable(3 + more.length),
        checks: [
          {
            id: 'k1',
            name: 'Some',
            sheet: 's1',
            formula: '=all_long>0',
            severity: 'care',
            says: 'Nothing.',
          },
        ],
      });
    const { document, sheets, told } = joined(sums(), sums([['Apron', 2, 50, 'oak']]));
    expect(sheets).toEqual([]);
    expect(grid(document, 'Parts')).toEqual([
      HEADS,
      ['Leg', 4, 28, 'oak'],
      ['Leg', 4, 28, 'oak'],
      ['Apron', 2, 50, 'oak'],
      [null, null, null, null],
      ['Sum', '=SUM([c3.r1]:[c3.r3])', null, null],
    ]);
    expect(document.checks).toHaveLength(1);
    expect(told.map(({ code, which }) => [code, which])).toEqual([['J6', ['Leg']]]);
  });

  it('J4 rows of tables go under the same heads, with columns that were not there', () => {
    const book = documentOf({
      sheets: { Parts: [HEADS, ['Top', 1, 84, 'oak'], [], ['All', '=COUNTA([c1.r1]:[c4.r3])']] },
      tables: partsTable(3),
    });
    const base = documentOf({
      sheets: {
        Base: [[input('leg_length', 28)]],
        Parts: [
          ['Part', 'Material', 'Count', 'Place'],
          ['Leg', 'oak', 4, 'four corners of Top'],
          [],
          ['Legs', '=[c3.r2]*[s1!c1.r1]'],
        ],
      },
      tables: partsTable(3, 's2'),
    });
    const { document, sheets } = joined(book, base);
    const [, placeColumn] = [0, document.sheets[0]?.columns[4]?.id];
    expect(grid(document, 'Parts')).toEqual([
      [...HEADS, 'Place'],
      ['Top', 1, 84, 'oak', null],
      ['Leg', 4, null, 'oak', 'four corners of Top'],
      [null, null, null, null, null],
      ['All', `=COUNTA([c1.r1]:[${placeColumn}.r3])`, null, null, null],
    ]);
    const leg = document.sheets[0]?.rows[2]?.id;
    // What was left of its sheet beside the table comes along, and points to where the rows are now.
    expect(document.sheets.map(({ name }) => name)).toEqual(['Parts', 'Base', 'Parts 2']);
    expect(grid(document, 'Parts 2')).toEqual([
      ['Legs', `=[s1!c2.${leg}]*[${sheets[0]}!c1.r1]`, null, null],
    ]);
    expect(document.tables).toEqual(book.tables);
  });

  it('J4 a part counted 0 stands in for that of the other workbook, on either side', () => {
    const book = documentOf({
      sheets: { Parts: [HEADS, ['Top', 1, 84, 'oak'], []], Other: [['=[s1!c3.r2]']] },
      tables: partsTable(3),
    });
    const base = documentOf({
      sheets: {
        Parts: [HEADS, ['Top', 0, 60, 'oak'], ['Leg', 4, 28, 'oak'], []],
        Base: [['=[s1!c3.r2]-12']],
      },
      tables: partsTable(4),
    });
    const one = joined(book, base);
    const parts = [HEADS, ['Top', 1, 84, 'oak'], ['Leg', 4, 28, 'oak'], [null, null, null, null]];
    expect(grid(one.document, 'Parts')).toEqual(parts);
    expect(grid(one.document, 'Base')).toEqual([['=[s1!c3.r2]-12']]);
    expect(one.told).toEqual([]);
    const two = joined(base, book);
    expect(grid(two.document, 'Parts')).toEqual(parts);
    expect(grid(two.document, 'Other')).toEqual([['=[s1!c3.r2]']]);
    expect(grid(two.document, 'Base')).toEqual([['=[s1!c3.r2]-12']]);
  });

  it('J4 stock that is there already is not there twice; the same name in another wood is another', () => {
    const stock = (wood: string, price: number): BookDocument =>
      documentOf({
        sheets: { Stock: [['Stock', 'Material', 'Price'], ['8/4 board', wood, price], []] },
        tables: [{ id: 't1', kind: 'stock', sheet: 's1', header: 'r1', last: 'r3' }],
      });
    expect(grid(joined(stock('oak', 90), stock('oak', 70)).document, 'Stock')).toEqual([
      ['Stock', 'Material', 'Price'],
      ['8/4 board', 'oak', 90],
      [null, null, null],
    ]);
    expect(grid(joined(stock('oak', 90), stock('ash', 70)).document, 'Stock')[2]).toEqual([
      '8/4 board',
      'ash',
      70,
    ]);
  });

  it('J4 stock whose name is worked out is the same where all that is said of it is', () => {
    const stock = (...rows: readonly (readonly Sketch[])[]): BookDocument =>
      documentOf({
        sheets: {
          Stock: [['Stock', 'Width', 'Price'], ...rows, []],
          Wood: [[input('quarters', 8)]],
        },
        tables: [
          { id: 't1', kind: 'stock', sheet: 's1', header: 'r1', last: `r${rows.length + 2}` },
        ],
      });
    const named = '=quarters&"/4 board"';
    const { document } = joined(
      stock([named, 6, '=[c2.r2]*9']),
      stock([named, 6, '=[c2.r2]*9'], [named, 8, '=[c2.r3]*9']),
    );
    expect(grid(document, 'Stock').map(([name, width]) => [name, width])).toEqual([
      ['Stock', 'Width'],
      [named, 6],
      [named, 8],
      [null, null],
    ]);
  });

  it('J4 stock with a named cell comes though it is there: what uses the name goes on', () => {
    const stock = (price: Sketch, uses: Sketch): BookDocument =>
      documentOf({
        sheets: { Stock: [['Stock', 'Price'], ['8/4 board', price], []], Cost: [[uses]] },
        tables: [{ id: 't1', kind: 'stock', sheet: 's1', header: 'r1', last: 'r3' }],
      });
    const { document, told } = joined(
      stock(90, 1),
      stock({ value: 70, name: 'board' }, '=board*2'),
    );
    expect(cellNamed(document, 'board')?.value).toBe(70);
    expect(grid(document, 'Cost 2')).toEqual([['=board*2']]);
    expect(told).toEqual([]);
  });

  it('J5 nothing comes to be worked out from itself: the last that would is kept apart and told', () => {
    const book = documentOf({ sheets: { One: [[input('a', 1), worked('b', '=a+1')]] } });
    const other = documentOf({ sheets: { Two: [[input('b', 5), worked('a', '=b*2')]] } });
    const { document, told } = joined(book, other);
    expect(told.map(({ code }) => code)).toContain('J5');
    // `b` of the other follows this one, whose `a` stays the input that it was.
    expect(grid(document, 'One')).toEqual([[1, '=a+1']]);
    expect(grid(document, 'Two')).toEqual([['=b', '=b*2']]);
    expect(cellNamed(document, 'a_2')?.formula).toBe('=b*2');
  });

  it('J1 refuses a workbook in other units, and more sheets than a workbook may have', () => {
    const metric = documentOf({ units: 'metric', sheets: { One: [[1]] } });
    expect(joinBooks(top, metric)).toMatchObject({ ok: false, code: 'W31' });
    const many = documentOf({
      sheets: Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`Sheet ${i}`, [[i]]])),
    });
    expect(joinBooks(top, many)).toMatchObject({ ok: false, code: 'W24' });
  });

  it('J6 what matters most, promises and checks of both are those of the whole', () => {
    const one = { ...top, results: ['top_weight'], promises: ['drawing' as const] };
    const other = {
      ...documentOf({ sheets: { Other: [[worked('top_weight', '=9'), worked('price', '=10')]] } }),
      results: ['price', 'top_weight'],
      promises: ['finish' as const, 'drawing' as const],
    };
    const { document } = joined(one, other);
    expect(document.results).toEqual(['top_weight', 'price', 'top_weight_2']);
    expect(document.promises).toEqual(['drawing', 'finish']);
  });

  it('J3 lists what is kept apart by its new name, in studies, steps and over the columns of variants', () => {
    const tables = (kind: 'studies' | 'variants' | 'steps'): BookDocument['tables'] => [
      { id: 't1', kind, sheet: 's2', header: 'r1', last: 'r2' },
    ];
    const there = (kind: 'studies' | 'variants' | 'steps', rows: readonly (readonly Sketch[])[]) =>
      documentOf({
        sheets: {
          Top: [
            ['Length', input('width', 30)],
            ['Price', worked('price', '=width*2')],
            // Of another kind than the one that comes in: kept apart.
            ['Size', { value: 'large', name: 'size' }],
          ],
          Asked: rows,
        },
        tables: tables(kind),
      });
    const comes = (kind: 'studies' | 'variants' | 'steps', rows: readonly (readonly Sketch[])[]) =>
      documentOf({
        sheets: {
          Base: [
            ['Depth', input('depth', 20)],
            ['Price', worked('price', '=depth*3')],
            ['Size', input('size', 7)],
          ],
          Asked: rows,
        },
        tables: tables(kind),
      });
    const heads = ['study', 'over', 'show', 'goal'];
    const studies = joined(
      there('studies', [heads, ['Mine', 'width 1, 2', 'price', '']]),
      comes('studies', [heads, ['Other', 'depth 1, 2; size 3', 'depth, price', 'price at most 9']]),
    ).document;
    expect(cellNamed(studies, 'price_2')).toMatchObject({ formula: '=depth*3' });
    expect(cellNamed(studies, 'size_2')?.value).toBe(7);
    expect(grid(studies, 'Asked')).toContainEqual(['Mine', 'width 1, 2', 'price', '']);
    expect(grid(studies, 'Asked')).toContainEqual([
      'Other',
      'depth 1, 2; size_2 3',
      'depth, price_2',
      'price_2 at most 9',
    ]);

    // What a variant has in its own size stands under a head of its own, not under that of the other workbook.
    const variants = joined(
      there('variants', [
        ['variant', 'size'],
        ['Big', 'huge'],
      ]),
      comes('variants', [
        ['variant', 'size', 'depth'],
        ['Deep', 9, 30],
      ]),
    ).document;
    expect(grid(variants, 'Asked')).toEqual([
      ['variant', 'size', 'size_2', 'depth'],
      ['Deep', null, 9, 30],
      ['Big', 'huge', null, null],
    ]);

    const steps = joined(
      there('steps', [
        ['step', 'measure'],
        ['Plane', 'width, price'],
      ]),
      comes('steps', [
        ['step', 'measure'],
        ['Saw', 'size, price, depth'],
      ]),
    ).document;
    expect(grid(steps, 'Asked')).toContainEqual(['Saw', 'size_2, price_2, depth']);
    expect(grid(steps, 'Asked')).toContainEqual(['Plane', 'width, price']);
  });

  it('J3 lists by its new name what comes on a sheet of its own too, where there is no such table', () => {
    const base = documentOf({ sheets: { Top: [['Price', worked('price', '=1+1')]] } });
    const other = documentOf({
      sheets: {
        Base: [['Price', worked('price', '=2+3')]],
        Asked: [
          ['study', 'over', 'show'],
          ['All', 'price 1', 'price'],
        ],
      },
      tables: [{ id: 't1', kind: 'studies', sheet: 's2', header: 'r1', last: 'r2' }],
    });
    const { document } = joined(base, other);
    expect(grid(document, 'Asked')).toEqual([
      ['study', 'over', 'show'],
      ['All', 'price_2 1', 'price_2'],
    ]);
  });
});
