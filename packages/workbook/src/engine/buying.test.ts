import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const value = (book: Workbook, formula: string): number | string => {
  const result = book.evaluate(formula, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
};

/** An invented rail job: parts in A and B, store lengths in C and D. */
const job = (units: 'us' | 'metric' = 'us') =>
  bookOf({
    units,
    sheets: {
      Rails: [
        [30, 6, 96, 8.5],
        [22, 4, 120, 11],
        [17, 5, null, null],
        [null, null, null, null],
      ],
    },
  });
const ARGS = 'A1:A4,B1:B4,C1:C4,D1:D4,1/8';

describe('BUY_COST and its kin', () => {
  it('plan from ranges, blank lines left out', () => {
    const book = job();
    const cost = value(book, `=BUY_COST(${ARGS})`);
    const counts = [96, 120].map((length) =>
      Number(value(book, `=BUY_COUNT(${ARGS},0,${length})`)),
    );
    expect(cost).toBe((counts[0] ?? 0) * 8.5 + (counts[1] ?? 0) * 11);
    const bound = Number(value(book, `=BUY_BOUND(${ARGS})`));
    expect(bound).toBeLessThanOrEqual(Number(cost));
    const used = 6 * 30 + 4 * 22 + 5 * 17;
    const bought = (counts[0] ?? 0) * 96 + (counts[1] ?? 0) * 120;
    // With saw cuts of no width, what is in no part is offcut.
    const bare = ARGS.replace(',1/8', ',0');
    const without = [96, 120].map((length) =>
      Number(value(book, `=BUY_COUNT(${bare},0,${length})`)),
    );
    const length = (without[0] ?? 0) * 96 + (without[1] ?? 0) * 120;
    expect(value(book, `=BUY_WASTE(${bare})`)).toBeCloseTo(1 - used / length, 12);
    expect(Number(value(book, `=BUY_WASTE(${ARGS})`))).toBeLessThan(1 - used / bought);
  });

  it('take numbers that came of a percent sign or of money in words, within ranges too', () => {
    const book = bookOf({
      sheets: { Rails: [['=3000%', '=6*1', '=96+0%', '=0+"$8.50"']] },
    });
    expect(value(book, '=BUY_COST(A1:A1,B1:B1,C1:C1,D1:D1,1/8)')).toBe(17);
    expect(value(book, '=BUY_COST(A1:A2,B1:B2,C1:C2,D1:D2,1/8)')).toBe(17);
  });

  it('follow their cells, in a metric workbook too', () => {
    const book = job();
    const scaled = bookOf({
      units: 'metric',
      sheets: {
        Rails: [
          [30 * 25.4, 6, 96 * 25.4, 8.5],
          [22 * 25.4, 4, 120 * 25.4, 11],
          [17 * 25.4, 5, null, null],
          [null, null, null, null],
        ],
      },
    });
    expect(value(scaled, '=BUY_COST(A1:A4,B1:B4,C1:C4,D1:D4,3.175)')).toBe(
      value(book, `=BUY_COST(${ARGS})`),
    );
    book.apply({
      do: 'enter',
      sheet: 's1',
      cells: [{ row: 4, column: 0, text: `=BUY_COST(${ARGS})` }],
    });
    const before = book.value({ sheet: 's1', row: 4, column: 0 });
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text: '12' }] });
    const after = book.value({ sheet: 's1', row: 4, column: 0 });
    expect(after).not.toEqual(before);
    expect(after).toEqual({ kind: 'number', number: value(book, `=BUY_COST(${ARGS})`) });
  });

  // A price that leaves out a part is a lie: there is none until every part fits.
  it.each([
    [
      '=BUY_COST({130},{1},{96;120},{8.5;11},1/8)',
      '#NUM! part_lengths, number 1, of BUY_COST is 130 in; it takes up to 120 in, what the longest board gives. Add a longer board to stock_lengths, or make the part shorter.',
    ],
    [
      '=BUY_COUNT({30;130},{6;1},{96;120},{8.5;11},1/8,0,96)',
      '#NUM! part_lengths, number 2, of BUY_COUNT is 130 in; it takes up to 120 in, what the longest board gives. Add a longer board to stock_lengths, or make the part shorter.',
    ],
    [
      '=BUY_BOUND({130},{1},{96;120},{8.5;11},1/8)',
      '#NUM! part_lengths, number 1, of BUY_BOUND is 130 in; it takes up to 120 in, what the longest board gives. Add a longer board to stock_lengths, or make the part shorter.',
    ],
    [
      '=BUY_WASTE({118},{1},{96;120},{8.5;11},1/8,2)',
      '#NUM! part_lengths, number 1, of BUY_WASTE is 118 in; it takes up to 116 in, what the longest board gives. Add a longer board to stock_lengths, or make the part shorter.',
    ],
    [
      '=BUY_COST(A1:A3,B1:B3,C1:C2,D1:D2,E1)',
      "#VALUE! kerf of BUY_COST is missing; it takes a number. How wide is your saw's kerf? Type it in the cell that the formula takes it from.",
    ],
    [
      '=BUY_COST(A1:A3,B1:B4,C1:C2,D1:D2,1/8)',
      '#NUM! part_counts of BUY_COST is 4; it takes as many cells as part_lengths: 3.',
    ],
    [
      '=BUY_COST(A1:A3,C1:C3,C1:C2,D1:D2,1/8)',
      '#VALUE! part_counts of BUY_COST is missing; it takes a number in cell 3.',
    ],
    [
      '=BUY_COST(A1:A3,B1:B3,C1:C3,B1:B3,1/8)',
      '#VALUE! stock_lengths of BUY_COST is missing; it takes a number in cell 3.',
    ],
    [
      '=BUY_COST({30;1/0},{1;1},{96},{8.5},1/8)',
      '#DIV/0! This divides by zero or by an empty cell. Give the divisor a number.',
    ],
    [
      '=BUY_COST({30;20},{1},{96},{8.5},1/8)',
      '#NUM! part_counts of BUY_COST is 1; it takes as many cells as part_lengths: 2.',
    ],
    [
      '=BUY_COST({30},{1.5},{96},{8.5},1/8)',
      '#NUM! part_counts of BUY_COST is 1.5; it takes whole numbers, 0 or more.',
    ],
    [
      '=BUY_COST({0},{1},{96},{8.5},1/8)',
      '#NUM! part_lengths of BUY_COST is 0 in; it takes lengths above 0.',
    ],
    [
      '=BUY_COST({30},{1},{96},{-1},1/8)',
      '#NUM! stock_prices of BUY_COST is -1; it takes prices, 0 or more.',
    ],
    ['=BUY_COST({30},{1},{96},{8.5},-1)', '#NUM! kerf of BUY_COST is -1 in; it takes 0 or more.'],
    [
      '=BUY_COST({"oak"},{1},{96},{8.5},1/8)',
      '#VALUE! part_lengths of BUY_COST is "oak"; it takes numbers, or empty cells.',
    ],
    [
      '=BUY_COST(A4:A4,B4:B4,C4:C4,D4:D4,1/8)',
      '#VALUE! stock_lengths of BUY_COST is missing; it takes at least one length.',
    ],
    [
      '=BUY_COUNT({30},{1},{96},{8.5},1/8,0,100)',
      '#NUM! stock_length of BUY_COUNT is 100 in; it takes one of stock_lengths.',
    ],
    [
      '=BOARDS_PICK_WIDTH({5;6},45)',
      '#NUM! target of BOARDS_PICK_WIDTH is 45 in; it takes what all boards glued together reach; add boards to the range.',
    ],
    [
      '=BOARDS_PICK_WIDTH({5;-6},9)',
      '#NUM! widths of BOARDS_PICK_WIDTH is -6 in; it takes widths above 0.',
    ],
  ])('%s says why not', (formula, says) => {
    expect(value(job(), formula)).toBe(says);
  });
});

describe('BOARDS_PICK', () => {
  it('fills a column beside the rack with 1 and 0, and its width is BOARDS_PICK_WIDTH', () => {
    const width = fc.integer({ min: 12, max: 40 }).map((n) => n / 4);
    fc.assert(
      fc.property(fc.array(width, { minLength: 4, maxLength: 8 }), (widths) => {
        const book = bookOf({ sheets: { Rack: widths.map((one) => [one, null]) } });
        const range = `A1:A${widths.length}`;
        book.apply({
          do: 'enter',
          sheet: 's1',
          cells: [{ row: 0, column: 1, text: `=BOARDS_PICK(${range},11,1/16)` }],
        });
        const picked = widths.map((_, row) => book.value({ sheet: 's1', row, column: 1 }));
        const taken = widths.filter((_, i) => (picked[i] as { number?: number }).number === 1);
        const sum = taken.reduce((total, one) => total + one, 0) - (taken.length - 1) / 16;
        expect(value(book, `=BOARDS_PICK_WIDTH(${range},11,1/16)`)).toBeCloseTo(sum, 9);
        expect(sum).toBeGreaterThanOrEqual(11);
      }),
      { numRuns: 25 },
    );
  });
});
