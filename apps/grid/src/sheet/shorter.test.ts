import { showValue } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fewerDecimals } from './shorter.ts';

describe('a number that does not fit its column', () => {
  it.each([
    ['1234.56', '1234.56', ['≈ 1234.6', '≈ 1235']],
    ['1,234.50', '1,234.50', ['1,234.5', '≈ 1,235']],
    ['$1,234.00', '$1,234.00', ['$1,234.0', '$1,234']],
    ['-0.04', '-0.04', []],
    // Rounded from the number itself, not from the rounded one: 2.449 is nearer to 2.4.
    ['2.45', '2.449', ['≈ 2.4', '≈ 2']],
    ['-$2.50', '-$2.4999', ['≈ -$2.5', '≈ -$2']],
    ['12345678', '12345678', []],
    ['2026-03-14', '2026-03-14', []],
    ['5\' 6 3/8"', '5\' 6 3/8"', []],
  ])('%s loses decimals, never digits before them', (text, exact, wanted) => {
    expect(fewerDecimals(text, exact)).toEqual(wanted);
  });

  it('G59 is the nearest with so many decimals, and says where it is not the number itself', () => {
    const quantities = fc.constantFrom('money', 'mass', 'length', 'number', 'boardfeet');
    fc.assert(
      fc.property(
        quantities,
        fc.integer({ min: -99_999_999, max: 99_999_999 }).map((n) => n / 1000),
        (quantity, number) => {
          const context = { quantity, system: 'metric', currency: 'USD' } as const;
          const { text, exact = text } = showValue({ kind: 'number', number }, context);
          const value = Number(exact.replace(/[$,]/g, ''));
          for (const shorter of fewerDecimals(text, exact)) {
            const shown = Number(shorter.replace(/[≈$, ]/g, ''));
            const places = shorter.split('.')[1]?.length ?? 0;
            expect(Math.abs(shown - value)).toBeLessThanOrEqual(0.5 * 10 ** -places + 1e-9);
            expect(shorter.startsWith('≈')).toBe(shown !== value);
            expect(shown !== 0 || value === 0).toBe(true);
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});
