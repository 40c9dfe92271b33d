import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breadboardSlot } from './breadboards.ts';
import { expectFault } from './testdata/faults.ts';

describe('BREADBOARD_SLOT', () => {
  // Wood Handbook equation 13-2, by hand: white oak, flat-sawn, C = 0.00365, 16 in, 6 %
  it('is the pin and half as much again as that place travels', () => {
    expect(breadboardSlot(16, 0.375, 'white oak', 6, 12)).toBeCloseTo(
      0.375 + 1.5 * 16 * 0.00365 * 6,
      9,
    );
    expect(breadboardSlot(16, 0.375, 'white oak', 6, 12, 0)).toBeCloseTo(
      0.375 + 16 * 0.00365 * 6,
      9,
    );
  });

  it('is a round hole where the end is held, and grows evenly from there', () => {
    expect(breadboardSlot(0, 0.375, 'white oak', 6, 12)).toBe(0.375);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (place) => {
        const more = (at: number) => breadboardSlot(at, 0.25, 'teak', 7, 11) - 0.25;
        expect(more(2 * place)).toBeCloseTo(2 * more(place), 9);
      }),
    );
  });

  it('asks for the moisture of both seasons', () => {
    expectFault(() => breadboardSlot(10, 0.25, 'teak', 7, 60), 'range', 'moisture_wet');
    expectFault(() => breadboardSlot(10, 0.25, 'teak', 7, 11, -5), 'range', 'spare_percent');
  });
});
