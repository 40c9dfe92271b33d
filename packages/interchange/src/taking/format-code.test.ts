import { describe, expect, it } from 'vitest';
import { readFormat, showOf } from './format-code.ts';

// Codes after ECMA-376 part 1, 18.8.30 and 18.8.31.
describe('formats of numbers', () => {
  it.each([
    ['General', 'general'],
    ['@', 'text'],
    ['0.00', 'number'],
    ['#,##0_);[Red](#,##0)', 'number'],
    ['0.0%', 'percent'],
    ['# ?/?', 'fraction'],
    ['# ??/16', 'fraction'],
    ['mm-dd-yy', 'date'],
    ['d-mmm', 'date'],
    ['[$-409]d\\ mmmm\\ yyyy', 'date'],
    ['h:mm AM/PM', 'time'],
    ['[h]:mm:ss', 'time'],
    ['mm:ss', 'time'],
    ['"$"#,##0.00', 'money'],
    ['[$€-407] #,##0.00', 'money'],
    ['_-£* #,##0.00_-', 'money'],
    ['0" mm"', 'number'],
    ['"Day "0', 'number'],
  ] as const)('%s is that of %s', (code, kind) => {
    expect(readFormat(code).kind).toBe(kind);
  });

  it('say steps of fractions, decimals, money and the words beside a number', () => {
    expect(readFormat('# ??/16')).toMatchObject({ denominator: 16 });
    expect(showOf(readFormat('# ??/16'))).toEqual({ as: 'fraction', denominator: 16 });
    expect(readFormat('[<0.25]0.000;# ??/32')).toMatchObject({ kind: 'fraction', denominator: 32 });
    expect(readFormat('#,##0.000" bd ft"')).toMatchObject({ decimals: 3, words: 'bd ft' });
    expect(readFormat('[$€-407] #,##0.00')).toMatchObject({ currency: 'EUR', decimals: 2 });
    expect(readFormat('"CHF" #,##0')).toMatchObject({ currency: 'CHF' });
    expect(showOf(readFormat('General'))).toBeUndefined();
  });

  it('are general where they are longer than any format', () => {
    expect(readFormat('0'.repeat(100_000))).toEqual({ kind: 'general' });
  });
});
