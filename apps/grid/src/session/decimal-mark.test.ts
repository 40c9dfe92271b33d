import { readEntry } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { asRead } from './decimal-mark.ts';

const blank = () => ({});
const US = { system: 'us', currency: 'USD' } as const;

describe('an entry of a hand that writes a comma before decimals', () => {
  it.each([
    ['1,5', '1.5'],
    ['1.234,50 €', '1234.50 €'],
    ['3/4/2026', '3.4.2026'],
    ['3/4/26', '3.4.2026'],
    ['14/3/2026', '14/3/2026'],
    ['14.3.2026', '14.3.2026'],
    ['3/4', '3/4'],
  ])('%s is read as %s', (text, wanted) => {
    expect(asRead(text, blank, 'comma')).toBe(wanted);
    expect(asRead(text, blank, 'point')).toBe(text);
  });

  it('has its day before its month, also where the workbook would read it otherwise', () => {
    const value = (text: string): unknown => {
      const read = readEntry(text, US);
      return read.kind === 'value' ? read.value : read.kind;
    };
    expect(value(asRead('3/4/2026', blank, 'comma'))).toBe(value('2026-04-03'));
    expect(value(asRead('3/4/2026', blank, 'point'))).toBe(value('2026-03-04'));
  });
});
