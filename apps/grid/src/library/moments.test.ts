import { describe, expect, it } from 'vitest';
import { momentsOf } from './moments.ts';

const at = (hour: number, minute: number, second: number): number =>
  new Date(2026, 10, 25, hour, minute, second).getTime();

describe('moments in words', () => {
  it('are told to the minute, and to the second where two fall in the same one', () => {
    expect(momentsOf([at(14, 56, 7), at(14, 55, 59), at(14, 55, 3), at(9, 5, 0)])).toEqual([
      '25 Nov 2026, 14:56',
      '25 Nov 2026, 14:55:59',
      '25 Nov 2026, 14:55:03',
      '25 Nov 2026, 09:05',
    ]);
  });

  it('that are not known are left out', () => {
    expect(momentsOf([0, 0, at(9, 5, 0)])).toEqual(['', '', '25 Nov 2026, 09:05']);
  });
});
