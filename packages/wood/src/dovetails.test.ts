import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dovetailAngle,
  dovetailBase,
  dovetailCount,
  dovetailMark,
  dovetailTail,
} from './dovetails.ts';
import { expectFault } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const tails = fc.integer({ min: 1, max: 8 });

describe('dovetail layout', () => {
  it('fills the board with tails, pins and half pins', () => {
    fc.assert(
      fc.property(size(6, 20), tails, size(0.1, 0.5), size(0.1, 0.6), (width, n, pin, half) => {
        const tail = dovetailTail(width, n, pin, half);
        expect(n * tail + (n - 1) * pin + 2 * half).toBeCloseTo(width, 9);
      }),
    );
  });

  // drawn on 6 in: half pins of 1/4, three pins of 1/4, four tails of 1-3/16
  it('marks the lines of a drawn board', () => {
    const marks = [1, 2, 3, 4, 5, 6, 7, 8].map((mark) => dovetailMark(6, 4, 0.25, mark, 0.25));
    expect(marks).toEqual([0.25, 1.4375, 1.6875, 2.875, 3.125, 4.3125, 4.5625, 5.75]);
  });

  it('is the same from either edge', () => {
    fc.assert(
      fc.property(size(6, 20), tails, size(0.1, 0.5), (width, n, pin) => {
        for (let mark = 1; mark <= 2 * n; mark += 1)
          expect(
            dovetailMark(width, n, pin, mark) + dovetailMark(width, n, pin, 2 * n + 1 - mark),
          ).toBeCloseTo(width, 9);
      }),
    );
    expectFault(() => dovetailMark(6, 4, 0.25, 9), 'range', 'mark');
    expectFault(() => dovetailTail(2, 8, 0.5), 'range', 'pin');
  });

  it('counts the fewest tails that are narrow enough', () => {
    fc.assert(
      fc.property(size(4, 20), size(0.1, 0.5), size(0.5, 3), (width, pin, widest) => {
        const count = dovetailCount(width, pin, widest);
        expect(dovetailTail(width, count, pin)).toBeLessThanOrEqual(widest + 1e-9);
        if (count > 1) expect(dovetailTail(width, count - 1, pin)).toBeGreaterThan(widest - 1e-9);
      }),
    );
  });
});

describe('dovetail slope', () => {
  // shop practice, from memory: 1:6 is 9.5°, 1:8 is 7.1°
  it('is 1 in 8 in hardwood and 1 in 6 in softwood', () => {
    expect(dovetailAngle('white oak')).toBeCloseTo(7.1, 1);
    expect(dovetailAngle('pine, eastern white')).toBeCloseTo(9.5, 1);
  });

  it('narrows a tail by its slope on both sides', () => {
    expect(dovetailBase(1.25, 0.75, dovetailAngle('white oak'))).toBeCloseTo(1.25 - 0.1875, 9);
    expectFault(() => dovetailBase(0.25, 0.75, 14), 'range', 'thickness');
  });
});
