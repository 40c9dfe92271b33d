import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const value = (book: Workbook, formula: string): number | string => {
  const result = book.evaluate(formula, 's1');
  if (result.kind === 'number') return result.number;
  return result.kind === 'error' ? `${result.error.word} ${result.error.says}` : result.kind;
};

/** Four feet in A and B, a blank line, a top in C and D; a size to write them in. */
const table = (units: 'us' | 'metric', size: number) =>
  bookOf({
    units,
    sheets: {
      Table: [
        [6 * size, 6 * size, 0, 0],
        [78 * size, 6 * size, 84 * size, 0],
        [78 * size, 36 * size, 84 * size, 42 * size],
        [6 * size, 36 * size, 0, 42 * size],
        [null, null, null, null],
      ],
    },
  });
const RANGES = 'A1:A5,B1:B5,C1:C5,D1:D5';

describe('TIP_SHARE_WORST', () => {
  // moments about a long side by hand: 150 lbf 6 in out, 120 lb 15 in in
  it('reads feet and top from cells, blank lines left out', () => {
    expect(value(table('us', 1), `=TIP_SHARE_WORST(120,${RANGES},150)`)).toBeCloseTo(
      (150 * 6) / (120 * 15),
      12,
    );
  });

  it('agrees in a metric workbook', () => {
    const metric = value(
      table('metric', 25.4),
      `=TIP_SHARE_WORST(120*0.45359237,${RANGES},150*4.4482216152605)`,
    );
    expect(metric).toBeCloseTo(0.5, 9);
  });

  it('says which cell is missing', () => {
    const book = table('us', 1);
    expect(value(book, '=TIP_SHARE_WORST(120,A1:A5,B1:B4,C1:C5,D1:D5,150)')).toContain(
      'feet_y of TIP_SHARE_WORST is 4; it takes as many cells as feet_x, which has 5',
    );
    expect(value(book, '=TIP_SHARE_WORST(120,A1:A2,B1:B2,C1:C5,D1:D5,150)')).toContain('feet_x');
  });
});

describe('a stiffness in place of a wood', () => {
  it('is in the workbook’s own unit', () => {
    const ask = (units: 'us' | 'metric', formula: string) => value(table(units, 1), formula);
    const us = Number(ask('us', '=SAG_UNIFORM(32,3,11,0.75,SHEET_STIFFNESS("MDF"))'));
    expect(us).toBeCloseTo(Number(ask('us', '=SAG_UNIFORM(32,3,11,0.75,520000)')), 12);
    const metric = ask(
      'metric',
      '=SAG_UNIFORM(32*25.4,3*4.4482216152605/25.4,11*25.4,0.75*25.4,SHEET_STIFFNESS("MDF"))',
    );
    expect(Number(metric) / 25.4).toBeCloseTo(us, 9);
    // table 12-1: 3.59 GPa
    expect(Number(ask('metric', '=SHEET_STIFFNESS("MDF")'))).toBeCloseTo(3590, -1);
  });
});
