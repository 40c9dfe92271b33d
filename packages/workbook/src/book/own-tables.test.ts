import type { Sketch } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';
import { ownTableEdit } from './own-sheet.ts';

const WOODS: Sketch[][] = [
  ['species', 'radial', 'gravity', 'tangential', 'what I think of it'],
  ['Orchard plum', 0.002, 0.7, 0.003, 'splits'],
  ['Walnut, black', null, 0.6, null, null],
];

/** An invented shop with a table of its own woods, and formulas on another sheet. */
const shop = (woods = WOODS, more: Sketch[][] = []) =>
  bookOf({
    sheets: {
      Table: [
        [{ name: 'wood', value: 'Orchard plum', allow: { list: ['Oak, white'], from: 'woods' } }],
        [{ name: 'gravity', formula: '=SPECIFIC_GRAVITY(wood)' }],
        [{ name: 'move', formula: '=MOVEMENT(10,wood,8,9)', quantity: 'length' }],
        [{ name: 'other', formula: '=2*SPECIFIC_GRAVITY("black walnut")' }],
        ...more,
      ],
      Woods: woods,
    },
    checks: [
      {
        id: 'k1',
        name: 'Light',
        formula: '=SPECIFIC_GRAVITY(wood)<0.75',
        severity: 'care',
        says: 'It is heavy.',
      },
    ],
    tables: [{ id: 't1', kind: 'woods', sheet: 's2', header: 'r1', last: 'r3' }],
  });

const numberOf = (book: Workbook, name: string): number | string => {
  const at = book.find(name);
  const value = at === undefined ? undefined : book.value(at);
  if (value?.kind === 'number') return value.number;
  return value?.kind === 'error' ? value.error.says : '';
};

const type = (book: Workbook, row: number, column: number, text: string, sheet = 's2') =>
  book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });

describe('own tables', () => {
  it('T1 win over the published ones and leave blanks to them', () => {
    const book = shop();
    expect(numberOf(book, 'gravity')).toBe(0.7);
    expect(numberOf(book, 'move')).toBeCloseTo(0.03, 12);
    expect(numberOf(book, 'other')).toBe(1.2);
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text: 'Walnut, black' }] });
    expect(numberOf(book, 'move')).toBeCloseTo(0.0274, 12);
  });

  it('T1 are read in the units of the workbook', () => {
    const document = shop([
      ['species', 'stiffness'],
      ['Orchard plum', 9000],
      ['', null],
    ]).document();
    const metric = { ...document, units: 'metric' as const };
    const book = Workbook.open(metric);
    const value = book.evaluate('=STIFFNESS("orchard plum")', 's1');
    expect(value).toEqual({ kind: 'number', number: 9000 });
  });

  it('T1 leave the formulas of their own sheet to the published ones', () => {
    const book = shop([...WOODS, ['=SPECIFIC_GRAVITY("white oak")', null, null, null, null]]);
    expect(book.value({ sheet: 's2', row: 3, column: 0 })).toEqual({
      kind: 'number',
      number: 0.68,
    });
  });

  it('T2 are followed at once, by cells and checks, and back', () => {
    const book = shop();
    const applied = type(book, 1, 2, '0.8');
    expect(applied.ok && applied.changed.map(({ row, column }) => [row, column])).toContainEqual([
      1, 0,
    ]);
    expect(numberOf(book, 'gravity')).toBe(0.8);
    expect(book.checks()[0]?.state).toBe('care');
    book.undo();
    expect(numberOf(book, 'gravity')).toBe(0.7);
    expect(book.checks()[0]?.state).toBe('pass');
  });

  it('T2 come and go with their sheet', () => {
    const book = shop();
    book.apply({ do: 'removeSheet', sheet: 's2' });
    expect(numberOf(book, 'gravity')).toMatch(/Orchard plum.* is not known/);
    expect(numberOf(book, 'other')).toBe(1.1);
    book.undo();
    expect(numberOf(book, 'gravity')).toBe(0.7);
  });

  it('T2 follow rows put in among them, and their sheet under another name', () => {
    const book = shop();
    book.apply({ do: 'renameSheet', sheet: 's2', name: "The shop's own" });
    book.apply({ do: 'insertRows', sheet: 's2', at: 2, rows: [{ id: 'rx' }] });
    type(book, 2, 0, 'Hedge elm');
    type(book, 2, 2, '0.5');
    expect(book.evaluate('=SPECIFIC_GRAVITY("elm, hedge")', 's1')).toEqual({
      kind: 'number',
      number: 0.5,
    });
    expect(numberOf(book, 'gravity')).toBe(0.7);
  });

  it('T3 say what is wrong with them', () => {
    const book = shop();
    type(book, 1, 2, 'heavy');
    expect(numberOf(book, 'gravity')).toContain('"heavy" under gravity');
    type(book, 1, 2, '=1/0');
    expect(numberOf(book, 'gravity')).toBe('It is worked out from Woods!C2; look there.');
    type(book, 1, 2, '0.7');
    type(book, 0, 0, 'timber');
    expect(numberOf(book, 'gravity')).toContain('no column headed species');
  });

  it('N4 keep a wood that is typed by another name as the list of its cell has it', () => {
    const book = shop();
    const typed = (text: string) => {
      type(book, 0, 0, text, 's1');
      const { entry, problem } = book.cell({ sheet: 's1', row: 0, column: 0 });
      return [entry, problem?.says];
    };
    for (const name of ['white oak', 'QUERCUS ALBA', 'oak white', 'Oak, white'])
      expect(typed(name)).toEqual(['Oak, white', undefined]);
    // An own wood, by another name of it, is looked up as it is typed.
    expect(typed('black walnut')).toEqual(['black walnut', undefined]);
    expect(numberOf(book, 'gravity')).toBe(0.6);
    expect(typed('red maple')[1]).toMatch(/^"red maple" is not one of the choices/);
  });

  it('T4 add their names to the choices that say so', () => {
    const book = shop();
    const at = { sheet: 's1', row: 0, column: 0 };
    expect(book.cell(at).problem).toBeUndefined();
    type(book, 1, 0, 'Garden plum');
    expect(book.cell(at).problem?.says).toContain('Garden plum');
  });

  it('T2 are told in explanations by their sheet, not cell by cell', () => {
    const book = shop();
    const why = book.explain({ sheet: 's1', row: 1, column: 0 });
    expect(why.looksIn).toEqual(['Woods']);
    expect(why.uses.map(({ label }) => label)).toEqual(['wood']);
    expect(why.rests.map(({ label }) => label)).toEqual(['wood']);
    const { usedBy } = book.explain({ sheet: 's2', row: 1, column: 2 });
    expect(usedBy.map(({ label }) => label)).toEqual(['gravity', 'move', 'other']);
  });

  it.each(['woods', 'screws', 'finishes'] as const)(
    'T1 of %s are added with a sheet to fill in, once',
    (kind) => {
      const book = bookOf({ sheets: { Table: [['=SCREW_DIAMETER(8)']] } });
      const edit = ownTableEdit(book, kind);
      expect(edit).toBeDefined();
      expect(edit && book.apply(edit).ok).toBe(true);
      expect(book.sheets().at(-1)?.name).toBe(`My ${kind}`);
      expect(book.problems()).toEqual([]);
      expect(ownTableEdit(book, kind)).toBeUndefined();
      book.undo();
      expect(book.sheets()).toHaveLength(1);
      expect(ownTableEdit(book, kind)).toEqual(edit);
    },
  );

  it('T1 of screws are typed as sizes', () => {
    const book = bookOf({ sheets: { Table: [['=SCREW_DIAMETER(8)']] } });
    const edit = ownTableEdit(book, 'screws');
    if (edit !== undefined) book.apply(edit);
    const own = book.sheets().at(-1)?.id;
    type(book, 4, 0, '8', own);
    type(book, 4, 1, '4.5 mm', own);
    const value = book.value({ sheet: 's1', row: 0, column: 0 });
    expect(value.kind === 'number' && value.number).toBeCloseTo(4.5 / 25.4, 12);
  });
});
