import { tokensOf } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ReadBy } from './read-by.ts';

const on = (...formulas: readonly string[]): ReadBy => {
  const reads = new ReadBy((name) => ['S', 'T'].indexOf(name));
  for (const formula of formulas) reads.add(tokensOf(formula), 0);
  return reads;
};

describe('cells that formulas look at', () => {
  it('are those of addresses, ranges, whole rows and columns, other sheets and names', () => {
    const reads = on('=A1+SUM(C2:D4)', '=T!B2*kerf', '=SUM(F:F)+SUM(9:9)');
    expect(reads.reads(0, 0, 0, undefined)).toBe(true);
    expect(reads.reads(0, 1, 0, undefined)).toBe(false);
    expect(reads.reads(0, 3, 3, undefined)).toBe(true);
    expect(reads.reads(0, 4, 3, undefined)).toBe(false);
    expect(reads.reads(1, 1, 1, undefined)).toBe(true);
    expect(reads.reads(0, 1, 1, undefined)).toBe(false);
    expect(reads.reads(0, 700, 5, undefined)).toBe(true);
    expect(reads.reads(0, 8, 600, undefined)).toBe(true);
    expect(reads.reads(0, 20, 20, 'Kerf')).toBe(true);
    expect(reads.reads(0, 20, 20, 'trim')).toBe(false);
  });

  it('are never missed, by a comparison with each range', () => {
    const corner = fc.tuple(fc.nat(30), fc.nat(8));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(corner, corner), { maxLength: 12 }),
        corner,
        (all, [row, column]) => {
          const letters = (at: number): string => String.fromCharCode(65 + at);
          const reads = on(
            ...all.map(
              ([[r1, c1], [r2, c2]]) => `=SUM(${letters(c1)}${r1 + 1}:${letters(c2)}${r2 + 1})`,
            ),
          );
          const by = all.some(
            ([[r1, c1], [r2, c2]]) =>
              Math.min(r1, r2) <= row &&
              row <= Math.max(r1, r2) &&
              Math.min(c1, c2) <= column &&
              column <= Math.max(c1, c2),
          );
          expect(reads.reads(0, row, column, undefined)).toBe(by);
        },
      ),
    );
  });
});
