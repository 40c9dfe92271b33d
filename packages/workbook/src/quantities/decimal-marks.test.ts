import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalMarksIn, withDecimalPoint } from './decimal-marks.ts';
import { readEntry } from './read.ts';

describe('points and commas in numbers', () => {
  it.each([
    ['1.234,5', 'comma'],
    ['1,5', 'comma'],
    ['12,34 mm', 'comma'],
    ['-0,5', 'comma'],
    ['1.234.567', 'comma'],
    ['€ 1.234,50', 'comma'],
    ['1,234.5', 'point'],
    ['1.5', 'point'],
    ['12.75 in', 'point'],
    ['0.125', 'point'],
    ['1,234,567', 'point'],
    ['$1,234.50', 'point'],
    ['1,234', 'either'],
    ['1.234', 'either'],
    ['1.234 m', 'either'],
    ['1234', 'none'],
    ['1 1/2', 'none'],
    ['oak, red', 'none'],
    ['version 1.234', 'none'],
    ['1,23,4', 'none'],
    ['1.234,5 x 2,5', 'none'],
    ['', 'none'],
  ] as const)('%s: %s', (text, how) => {
    expect(decimalMarksIn(text)).toBe(how);
  });

  it.each([
    ['1.234,5', '1234.5'],
    ['1,5', '1.5'],
    ['12,34 mm', '12.34 mm'],
    ['1.234', '1234'],
    ['1,234.5', '1,234.5'],
    ['oak, red', 'oak, red'],
    ['00123', '00123'],
  ])('with a comma before decimals, %s is %s', (text, meant) => {
    expect(withDecimalPoint(text)).toBe(meant);
  });

  it('gives back any number written with a comma', () => {
    const amount = fc
      .double({ min: 0.001, max: 1e9, noNaN: true })
      .map((n) => Number(n.toFixed(2)));
    fc.assert(
      fc.property(amount, (number) => {
        const text = new Intl.NumberFormat('de-DE', { maximumFractionDigits: 2 }).format(number);
        const read = readEntry(withDecimalPoint(text), { system: 'us', currency: 'USD' });
        expect(read).toMatchObject({ kind: 'value', value: number });
      }),
    );
  });
});
