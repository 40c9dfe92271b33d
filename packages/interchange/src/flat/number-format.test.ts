import type { CellDocument } from '@kerfbook/document';
import type { CellValue } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { numberFormat } from './number-format.ts';

const US = { units: 'us', currency: 'USD', title: 'x', kerfbook: 8 } as const;
const METRIC = { ...US, units: 'metric', currency: 'EUR' } as const;
const number = (value: number): CellValue => ({ kind: 'number', number: value });
const of = (cell: CellDocument, value: number, head: typeof US | typeof METRIC = US) =>
  numberFormat(cell, head, number(value));

// Codes after ECMA-376 part 1, 18.8.31.
describe('formats of numbers that go out', () => {
  it('write lengths in inches as fractions: typed ones as they are, worked out ones on the tape', () => {
    expect(of({ quantity: 'length' }, 1.5).code).toBe('# ??/??');
    expect(of({ quantity: 'length', formula: '=1' }, 33.2).code).toBe('[<0.25]0.000;# ??/16');
    const show = { as: 'fraction', denominator: 32 } as const;
    expect(of({ quantity: 'length', formula: '=1', show }, 33.2).code).toBe('# ??/32');
  });

  it('write decimals, money and days', () => {
    expect(of({ quantity: 'length' }, 18.5, METRIC).code).toBe('0.0');
    expect(of({ quantity: 'mass' }, 50).code).toBe('0.0');
    expect(of({ quantity: 'count' }, 4).code).toBe('0');
    expect(of({ quantity: 'money' }, 12.5).code).toBe('"$"#,##0.00');
    expect(of({ quantity: 'money' }, 12.5, METRIC).code).toBe('"€"#,##0.00');
    expect(of({ quantity: 'date' }, 46356).code).toBe('yyyy-mm-dd');
    expect(of({}, 12.5)).toEqual({});
  });

  it('say the unit where the workbook shows another one', () => {
    expect(of({ quantity: 'area' }, 3528)).toEqual({ code: '0.000" in²"', shownIn: 'ft²' });
    const feet = { as: 'feet-inches' } as const;
    expect(of({ quantity: 'length', show: feet }, 66).code).toBe('# ??/??" in"');
    expect(of({ quantity: 'length', show: feet }, 1676.4, METRIC)).toMatchObject({
      code: '0.000" mm"',
    });
  });

  it('keep words that look like numbers words, and blanks what they will be', () => {
    expect(numberFormat({ quantity: 'text' }, US, { kind: 'text', text: '8/4' }).code).toBe('@');
    expect(
      numberFormat({ quantity: 'text', formula: '=1' }, US, { kind: 'text', text: '8/4' }),
    ).toEqual({});
    expect(numberFormat({ quantity: 'text' }, US, { kind: 'empty' }).code).toBe('@');
    expect(numberFormat({ quantity: 'money' }, US, { kind: 'empty' }).code).toBe('"$"#,##0.00');
    expect(numberFormat({}, US, { kind: 'logical', logical: true })).toEqual({});
  });
});
