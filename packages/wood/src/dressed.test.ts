import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dressedThickness, dressedWidth } from './dressed.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

describe('dressed sizes', () => {
  // American Softwood Lumber Standard PS 20, dry. Dimension lumber read (Tenn. Comp. R. & Regs.
  // 0080-07-07-.06, table 4); boards 1x4, 1x6, 1x8, 1x10, 1x12 read; the rest value from memory
  it.each([
    ['1x2', 0.75, 1.5],
    ['1x4', 0.75, 3.5],
    ['1x6', 0.75, 5.5],
    ['1x8', 0.75, 7.25],
    ['1x12', 0.75, 11.25],
    ['5/4x6', 1, 5.5],
    ['2x2', 1.5, 1.5],
    ['2x4', 1.5, 3.5],
    ['2x6', 1.5, 5.5],
    ['2x8', 1.5, 7.25],
    ['2x10', 1.5, 9.25],
    ['2x12', 1.5, 11.25],
    ['3x5', 2.5, 4.5],
    ['4x4', 3.5, 3.5],
    ['4x6', 3.5, 5.5],
    ['6x6', 5.5, 5.5],
    ['6x8', 5.5, 7.5],
  ])('%s is %d x %d in', (size, thickness, width) => {
    expect(dressedThickness(size)).toBe(thickness);
    expect(dressedWidth(size)).toBe(width);
  });

  it.each(['2X6', ' 2 x 6 ', '2×6', '2"x6"', '2 X6'])('reads %j as 2x6', (size) => {
    expect([dressedThickness(size), dressedWidth(size)]).toEqual([1.5, 5.5]);
  });

  it('reads 1-1/4 and 1 1/4 as 5/4', () => {
    for (const size of ['1-1/4x6', '1 1/4 x 6', '1.25x6']) expect(dressedThickness(size)).toBe(1);
  });

  it('is always less than the nominal size, each way', () => {
    const sizes = fc.tuple(
      fc.constantFrom(1, 2, 3, 4, 5, 6, 8),
      fc.constantFrom(2, 4, 6, 8, 10, 12),
    );
    fc.assert(
      fc.property(sizes, ([thick, wide]) => {
        fc.pre(thick < 5 || wide >= 5);
        expect(dressedThickness(`${thick}x${wide}`)).toBeLessThan(thick);
        expect(dressedWidth(`${thick}x${wide}`)).toBeLessThan(wide);
      }),
    );
  });

  it('refuses what the standard does not hold, with the nearest', () => {
    for (const size of ['6x2', '2x6x8', '2', 'x', 'two by four', '7/0x4', '2x-6', '2x7'])
      expectFault(() => dressedWidth(size), 'unknown', 'size');
    expect(faultOf(() => dressedWidth('2z6')).detail.hint).toContain('"2x6"');
  });
});
