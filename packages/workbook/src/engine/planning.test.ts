import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const value = (book: Workbook, formula: string): number | string => {
  const result = book.evaluate(formula, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
};

type Row = readonly (string | number | null)[];

/** An invented shelf: heads in another order than the sheet's own, and a column that is not asked for. */
const HEADS: Row = ['part', 'material', 'count', 'thickness', 'width', 'length', 'x', 'boards'];
const STOCK: readonly Row[] = [
  ['stock', 'thickness', 'width', 'length', 'price', 'at hand', 'Material', null],
  ['1x6, 8 ft', 0.75, 5.5, 96, 9, null, 'pine', null],
  ['1x6, 10 ft', 0.75, 5.5, 120, 12, null, 'pine', null],
];

function shelf(parts: readonly Row[], stock = STOCK, units: 'us' | 'metric' = 'us', heads = HEADS) {
  const rows = [heads, ...parts, ...stock];
  const last = 1 + parts.length;
  const ranges = `A1:H${last},A${last + 1}:H${last + stock.length}`;
  const book = bookOf({ units, sheets: { Shelf: rows } });
  const ask = (name: string, kerf: string | number = '1/8') =>
    value(book, `=${name}(${ranges},${kerf})`);
  return { book, ask, ranges };
}

describe('PLAN_COST and its kin', () => {
  it('buy what can be checked by hand: three shelves of 30 from a board of 8 ft, two sides of 48 from one of 10 ft', () => {
    const { ask } = shelf([
      ['Shelf', 'pine', 3, 0.75, 5, 30, 0, null],
      ['Side', 'pine', 2, 0.75, 5, 48, 0, null],
    ]);
    // 3 × 30 and 2 cuts are 90 1/4 of 96; 2 × 48 and a cut are 96 1/8: a hair too long for 8 ft.
    expect(ask('PLAN_COST')).toBe(21);
    expect(ask('PLAN_BOUND')).toBe(21);
    expect(ask('PLAN_LEFT_OUT')).toBe(0);
    // A saw without a width gets both out of 8 ft.
    expect(ask('PLAN_COST', 0)).toBe(18);
  });

  it('find stock of the same wood under any of its names, as the cutting plan does', () => {
    const stock = STOCK.map((row, i) => (i === 0 ? row : row.with(6, 'sugar maple')));
    const { ask } = shelf([['Shelf', 'hard maple', 3, 0.75, 5, 30, 0, null]], stock);
    expect(ask('PLAN_LEFT_OUT')).toBe(0);
    expect(ask('PLAN_COST')).toBe(9);
  });

  it('cut each layer of what is laminated, which share its thickness', () => {
    const heads = HEADS.with(6, 'layers');
    const legs = shelf([['Leg', 'pine', 2, 1.5, 5, 40, 2, null]], STOCK, 'us', heads);
    // Four layers of 3/4 by 5 by 40: two from each board of 8 ft.
    expect(legs.ask('PLAN_COST')).toBe(18);
    const whole = shelf([['Leg', 'pine', 2, 1.5, 5, 40, null, null]], STOCK, 'us', heads);
    // Nothing in the stock is 1 1/2 thick.
    expect(whole.ask('PLAN_LEFT_OUT')).toBe(2);
    expect(
      shelf([['Leg', 'pine', 2, 1.5, 5, 40, 1.5, null]], STOCK, 'us', heads).ask('PLAN_LEFT_OUT'),
    ).toBe(2);
  });

  it('take boards of a panel that are as thick as they are glued up', () => {
    const heads = HEADS.with(6, 'board thickness');
    const stock = [...STOCK, ['5/4x6, 8 ft', 1.0625, 5.5, 96, 20, null, 'pine', null]];
    const of = (thick: number | null) =>
      shelf([['Top', 'pine', 1, 0.75, 16, 60, thick, 3]], stock, 'us', heads);
    // Three boards of 60, each of which takes a board of 8 ft: the thin ones at 9, the thick ones at 20.
    expect(of(null).ask('PLAN_COST')).toBe(27);
    expect(of(1.0625).ask('PLAN_COST')).toBe(60);
    // No board is 1 1/4 thick, and none is planed thicker.
    expect(of(1.25).ask('PLAN_LEFT_OUT')).toBe(3);
    expect(of(0.5).ask('PLAN_LEFT_OUT')).toBe(3);
  });

  it('glue wide parts up of boards, and rip narrow ones side by side', () => {
    const panel = shelf([['Top', 'pine', 1, 0.75, 16, 60, 0, 3]]);
    // Three boards of 60, each of which takes a board of 8 ft.
    expect(panel.ask('PLAN_COST')).toBe(27);
    const strips = shelf([['Cleat', 'pine', 4, 0.75, 1.25, 90, 0, null]]);
    // Four strips of 1 1/4 and three cuts are 5 3/8 of the 5 1/2.
    expect(strips.ask('PLAN_COST')).toBe(9);
  });

  it('count pieces that come out of no board, and those that cannot be read', () => {
    const { ask } = shelf([
      ['Shelves', null, null, null, null, null, null, null],
      ['Shelf', 'pine', 3, 0.75, 5, 30, 0, null],
      ['Rail', 'pine', 2, 0.75, 5, 130, 0, null],
      ['Leg', 'pine', 4, 1.5, 1.5, 28, 0, null],
      ['Door', 'pine', 1, 0.75, null, 28, 0, null],
      ['Foot', 'oak', 2, 0.75, 5, 10, 0, null],
      ['None', 'pine', 0, 0.75, 5, 300, 0, null],
      [null, null, null, null, null, null, null, null],
      [null, null, 1, 0.75, 5, 30, 0, null],
    ]);
    // Two rails too long, four legs too thick, a door without a width, two feet of another wood, and
    // sizes without a name.
    expect(ask('PLAN_LEFT_OUT')).toBe(2 + 4 + 1 + 2 + 1);
    expect(ask('PLAN_COST')).toBe(9);
  });

  it('use what is at hand first, and no more of it than there is', () => {
    const hand: readonly Row[] = [...STOCK, ['offcut', 0.75, 5.5, 31, 0, 1, 'pine', null]];
    const { ask } = shelf([['Shelf', 'pine', 4, 0.75, 5, 30, 0, null]], hand);
    expect(ask('PLAN_COST')).toBe(9);
  });

  it('reckon in millimetres in a metric workbook', () => {
    const stock: readonly Row[] = [
      ['stock', 'thickness', 'width', 'length', 'price'],
      ['board', 19, 140, 2400, 9],
    ];
    const { ask } = shelf([['Shelf', null, 4, 19, 120, 600, null, null]], stock, 'metric');
    // Four of 600 fill the board only where the saw takes nothing.
    expect(ask('PLAN_COST', 0)).toBe(9);
    expect(ask('PLAN_COST', 3)).toBe(18);
  });

  it('leave what is trimmed off both ends of boards', () => {
    const { book, ranges, ask } = shelf([['Side', 'pine', 2, 0.75, 5, 46, 0, null]]);
    // 2 × 46 and a cut are 92 1/8: out of 8 ft, of which 2 in off both ends leave 92.
    expect(ask('PLAN_COST')).toBe(9);
    expect(ask('PLAN_COST', '1/8,0')).toBe(9);
    expect(ask('PLAN_COST', '1/8,2')).toBe(12);
    expect(ask('PLAN_BOUND', '1/8,2')).toBe(12);
    expect(ask('PLAN_COST', '0,2')).toBe(9);
    expect(ask('PLAN_LEFT_OUT', '1/8,38')).toBe(2);
    expect(value(book, `=PLAN_COST(${ranges},1/8,-1)`)).toMatch(
      /^#NUM! end_trim of PLAN_COST is -1 in; it takes 0 or more/,
    );
  });

  it('say what is missing', () => {
    const { book, ranges, ask } = shelf([['Shelf', 'pine', 3, 0.75, 5, 30, 0, null]]);
    expect(ask('PLAN_COST', '')).toMatch(/^#VALUE! kerf of PLAN_COST is missing/);
    expect(ask('PLAN_COST', -1)).toMatch(/^#NUM! kerf of PLAN_COST is -1 in; it takes 0 or more/);
    expect(value(book, `=PLAN_COST(${ranges.replace('A1:', 'A2:')},0)`)).toMatch(
      /^#VALUE! parts_table .*No column is headed "part"\. Begin the range at the line with the heads\./,
    );
    expect(value(book, '=PLAN_COST(3,A3:H5,0)')).toMatch(
      /^#VALUE! parts_table .*whose first line heads/,
    );
  });

  it('carry an error of a cell on', () => {
    const { book, ranges } = shelf([['Shelf', 'pine', 3, 0.75, 5, 30, 0, null]]);
    const cells = [{ row: 1, column: 5, text: '=1/0' }];
    expect(book.apply({ do: 'enter', sheet: 's1', cells })).toMatchObject({ ok: true });
    expect(value(book, `=PLAN_COST(${ranges},0)`)).toMatch(/^#DIV\/0!/);
  });
});
