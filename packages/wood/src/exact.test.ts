import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ceilSettled, floorSettled, roundSettled, settle } from './exact.ts';

describe('rounding that ignores binary noise', () => {
  // arithmetic: n parts of 1/n of a size are that size
  it.each([
    [42, 7 / 3, 18],
    [0.3, 0.1, 3],
    [1, 1 / 49, 49],
    [845 / 25.4, 169 / 25.4, 5],
    [4.35, 0.01, 435],
  ])('%d holds %d exactly %i times', (whole, part, times) => {
    expect(ceilSettled(whole / part)).toBe(times);
    expect(floorSettled(whole / part)).toBe(times);
  });

  it('counts any whole number of equal parts, whatever the size of a part', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
        fc.integer({ min: 1, max: 5000 }),
        (part, times) => {
          expect(ceilSettled((part * times) / part)).toBe(times);
          expect(floorSettled((part * times) / part)).toBe(times);
        },
      ),
    );
  });

  it('still rounds what is really over', () => {
    expect(ceilSettled(18.000001)).toBe(19);
    expect(floorSettled(17.999999)).toBe(17);
  });

  it('rounds a half up, noise aside', () => {
    expect(roundSettled(2.5)).toBe(3);
    expect(roundSettled(2.4999999999999996)).toBe(3);
    expect(roundSettled(2.49999)).toBe(2);
    expect(settle(0.1 + 0.2)).toBe(0.3);
  });
});
