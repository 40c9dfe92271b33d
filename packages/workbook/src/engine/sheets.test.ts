import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const value = (book: Workbook, formula: string): number | string => {
  const result = book.evaluate(formula, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
};

/** An invented cabinet: lengths, widths, counts; the last line is blank. */
const cabinet = (units: 'us' | 'metric', size = 1) =>
  bookOf({
    units,
    sheets: {
      Cabinet: [
        [30 * size, 15 * size, 4],
        [23.25 * size, 15 * size, 6],
        [30 * size, 11.25 * size, 4],
        [null, null, null],
      ],
    },
  });
const ARGS = 'A1:A4,B1:B4,C1:C4,96,48,1/8';

describe('SHEETS_COUNT and its kin', () => {
  // counted by hand on a drawn sheet of 96 x 48: parts of 24 x 24 lie 8 to a sheet without saw cuts; with cuts
  // of 1/8 two do not go side by side in 48 nor four in 96, so 3 lie in a row and 8 take three sheets
  it('comes to what a drawn sheet comes to', () => {
    const book = bookOf({ sheets: { Squares: [[24, 24, 8]] } });
    const ask = (name: string, rest: string) => value(book, `=${name}(A1:A1,B1:B1,C1:C1,${rest})`);
    expect(ask('SHEETS_COUNT', '96,48,0')).toBe(1);
    expect(ask('SHEETS_WASTE', '96,48,0')).toBe(0);
    expect(ask('SHEETS_COUNT', '96,48,1/8')).toBe(3);
    expect(ask('SHEETS_WASTE', '96,48,1/8')).toBeCloseTo(1 - 8 / 24, 12);
  });

  it('stands between a bound by area and a sheet for each part', () => {
    const book = cabinet('us');
    const count = Number(value(book, `=SHEETS_COUNT(${ARGS})`));
    const area = 4 * 30 * 15 + 6 * 23.25 * 15 + 4 * 30 * 11.25;
    expect(count).toBeGreaterThanOrEqual(Math.ceil(area / (96 * 48)));
    expect(count).toBeLessThanOrEqual(14);
    expect(Number(value(book, `=SHEETS_BOUND(${ARGS})`))).toBeLessThanOrEqual(count);
    expect(value(book, `=SHEETS_WASTE(${ARGS})`)).toBeCloseTo(1 - area / (count * 96 * 48), 12);
  });

  it('agrees in a metric workbook', () => {
    const metric = cabinet('metric', 25.4);
    const inMm = ARGS.replace('96,48,1/8', '96*25.4,48*25.4,25.4/8');
    for (const name of ['SHEETS_COUNT', 'SHEETS_WASTE'])
      expect(value(metric, `=${name}(${inMm})`)).toBeCloseTo(
        Number(value(cabinet('us'), `=${name}(${ARGS})`)),
        9,
      );
  });

  it('keeps the grain unless it is free', () => {
    const book = bookOf({ sheets: { Long: [[20, 60, 2]] } });
    expect(value(book, '=SHEETS_COUNT(A1:A1,B1:B1,C1:C1,96,48,1/8,0,"free")')).toBe(1);
    expect(value(book, '=SHEETS_COUNT(A1:A1,B1:B1,C1:C1,96,48,1/8)')).toContain(
      'part_widths, number 1, of SHEETS_COUNT is 60 in; it takes up to 48 in',
    );
  });

  it('says in the workbook’s unit what fits no sheet, and what is missing', () => {
    const book = bookOf({ units: 'metric', sheets: { Tall: [[2600, 300, 1]] } });
    const ask = (rest: string) => value(book, `=SHEETS_COUNT(A1:A1,B1:B1,C1:C1,${rest})`);
    expect(ask('2440,1220,3')).toContain('part_lengths, number 1, of SHEETS_COUNT is 2600 mm');
    expect(ask('2800,1220,3,0,"sideways"')).toContain('grain');
    expect(ask('2800,1220,-1')).toContain('kerf');
    expect(value(book, '=SHEETS_COUNT(A1:A1,B1:B2,C1:C1,2800,1220,3)')).toContain('part_widths');
  });
});
