import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CuttingFault } from './fault.ts';
import { pickStaves } from './staves.ts';

/** The least left over, fewest boards on a tie, by trying every choice. */
function byHand(widths: readonly number[], target: number, loss: number) {
  let best: { over: number; boards: number } | undefined;
  for (let mask = 1; mask < 2 ** widths.length; mask += 1) {
    const picked = widths.filter((_, i) => (mask >> i) % 2 === 1);
    const width = picked.reduce((sum, one) => sum + one, 0) - loss * (picked.length - 1);
    const over = Math.round((width - target) * 10_000);
    if (over < 0) continue;
    const better =
      best === undefined || over < best.over || (over === best.over && picked.length < best.boards);
    if (better) best = { over, boards: picked.length };
  }
  return best;
}

describe('staves from a rack', () => {
  it('are those that every choice tried out shows to be best', () => {
    const rack = fc.record({
      widths: fc.array(
        fc.integer({ min: 8, max: 40 }).map((n) => n / 4),
        { minLength: 1, maxLength: 11 },
      ),
      target: fc.integer({ min: 8, max: 200 }).map((n) => n / 4),
      loss: fc.constantFrom(0, 0.0625, 0.125),
    });
    fc.assert(
      fc.property(rack, ({ widths, target, loss }) => {
        const found = pickStaves(widths, target, loss);
        const best = byHand(widths, target, loss);
        if (best === undefined) {
          expect(found).toBeUndefined();
          return;
        }
        expect(Math.round(((found?.width ?? 0) - target) * 10_000)).toBe(best.over);
        expect(found?.picked.filter(Boolean)).toHaveLength(best.boards);
        const sum = widths.reduce((total, width, i) => total + (found?.picked[i] ? width : 0), 0);
        expect(found?.width).toBeCloseTo(sum - loss * (best.boards - 1), 9);
      }),
      { numRuns: 300 },
    );
  });

  it('of a full rack are found, exactly', () => {
    const widths = Array.from({ length: 60 }, (_, i) => 4 + ((i * 37) % 41) / 16);
    const found = pickStaves(widths, 42, 0.0625);
    expect(found?.width).toBeCloseTo(42, 9);
    expect(pickStaves(widths, 400)).toBeUndefined();
  });

  it.each([
    [Array.from({ length: 61 }, () => 5), 20, 0, '61 boards'],
    [[5, -1], 20, 0, 'A board is -1 wide'],
    [[5], 0, 0, 'The panel is to be 0 wide'],
    [[5], 5, -1, 'A joint takes -1'],
  ] as const)('%#: are refused with a sentence', (widths, target, loss, says) => {
    expect(() => pickStaves(widths, target, loss)).toThrow(CuttingFault);
    expect(() => pickStaves(widths, target, loss)).toThrow(says);
  });
});
