import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitColumns } from './fit-columns.ts';

describe('columns on paper', () => {
  it('are as wide as on the screen where they fit, and narrower before any goes to another page', () => {
    const needs = [
      { natural: 40, least: 20 },
      { natural: 20, least: 20 },
      { natural: 100, least: 40 },
    ];
    expect(fitColumns(needs, 184)).toEqual([{ columns: [0, 1, 2], widths: [40, 20, 100] }]);
    expect(fitColumns(needs, 120)).toEqual([{ columns: [0, 1, 2], widths: [30, 20, 70] }]);
  });

  it('are wider than on the screen only where the page has room to spare', () => {
    const needs = [
      { natural: 40, least: 20, most: 60 },
      { natural: 100, least: 40, most: 140 },
    ];
    expect(fitColumns(needs, 140)).toEqual([{ columns: [0, 1], widths: [40, 100] }]);
    expect(fitColumns(needs, 170)).toEqual([{ columns: [0, 1], widths: [50, 120] }]);
    expect(fitColumns(needs, 400)).toEqual([{ columns: [0, 1], widths: [60, 140] }]);
  });

  it('go to further pages that begin with the first column again', () => {
    const needs = [{ natural: 30, least: 30 }, ...Array(5).fill({ natural: 40, least: 40 })];
    expect(fitColumns(needs, 120).map(({ columns }) => columns)).toEqual([
      [0, 1, 2],
      [0, 3, 4],
      [0, 5],
    ]);
  });

  it('are all there once, in order, within the width and no narrower than they may be', () => {
    const need = fc.record({
      natural: fc.integer({ min: 1, max: 120 }),
      least: fc.integer({ min: 1, max: 80 }),
      most: fc.integer({ min: 1, max: 200 }),
    });
    fc.assert(
      fc.property(fc.array(need, { minLength: 1, maxLength: 20 }), (needs) => {
        const groups = fitColumns(needs, 184);
        const others = groups.flatMap(({ columns }) => columns.slice(1));
        expect(others).toEqual(needs.slice(1).map((_, i) => i + 1));
        for (const { columns, widths } of groups) {
          expect(columns[0]).toBe(0);
          expect(widths.reduce((sum, one) => sum + one, 0)).toBeLessThan(184 + 1e-6);
          for (const [i, at] of columns.entries()) {
            expect(widths[i]).toBeGreaterThan((needs[at]?.least ?? 0) - 1e-6);
          }
        }
      }),
    );
  });
});
