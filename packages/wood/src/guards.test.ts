import { describe, expect, it } from 'vitest';
import {
  atLeast,
  between,
  cells,
  leftOver,
  notNegative,
  oneOf,
  positive,
  sensibleCount,
  upTo,
  whole,
  words,
} from './guards.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

const SIZE = { name: 'size', quantity: 'length' } as const;
const HEAT = { name: 'heat', quantity: 'temperature' } as const;
const COUNT = { name: 'count', quantity: 'count' } as const;

describe('guards', () => {
  it('call a missing, non-numeric or unusable number a wrong kind', () => {
    for (const bad of [undefined, null, 'a', true, Number.NaN, Number.POSITIVE_INFINITY, {}, []])
      for (const guard of [positive, notNegative])
        expectFault(() => guard(SIZE, bad), 'kind', 'size');
  });

  it('tell nothing from more than nothing', () => {
    expect(notNegative(SIZE, 0)).toBe(0);
    expectFault(() => positive(SIZE, 0), 'range', 'size');
    expectFault(() => notNegative(SIZE, -0.001), 'range', 'size');
    expectFault(() => positive(SIZE, 1e7), 'range', 'size');
  });

  it('hold bounds to within conversion noise, but zero exactly', () => {
    expect(between(HEAT, 29.999999999999996, 30, 270)).toBeCloseTo(30, 12);
    expectFault(() => between(HEAT, 29.99, 30, 270), 'range', 'heat');
    expectFault(() => between(HEAT, -1e-12, 0, 100), 'range', 'heat');
  });

  it('take a whole number with noise, not a fraction', () => {
    expect(whole(COUNT, 6.9999999999999, 1)).toBe(7);
    expectFault(() => whole(COUNT, 6.5, 1), 'range', 'count');
    expectFault(() => whole(COUNT, 0, 1), 'range', 'count');
  });

  it('take words without the spaces around them', () => {
    expect(words(SIZE, '  2x6 ', 'a size')).toBe('2x6');
    for (const bad of [undefined, '', '   ', 5, true])
      expectFault(() => words(SIZE, bad, 'a size'), 'kind', 'size');
  });

  it('blame the part that takes the most, with the size it must stay under', () => {
    const leg = { name: 'leg', quantity: 'length' } as const;
    const parts = [
      { argument: SIZE, value: 1, times: 2 },
      { argument: leg, value: 60, times: 2 },
    ];
    const { detail } = faultOf(() => leftOver(84, parts, 'room is left'));
    expect(detail).toMatchObject({ argument: 'leg', got: 60, bounds: [41] });
    expect(leftOver(124, parts, 'room is left')).toBe(2);
  });

  it('refuse a count that no shop could mean', () => {
    expect(sensibleCount(-0, SIZE, 1, 'boards')).toBe(0);
    expectFault(() => sensibleCount(1e7, SIZE, 1, 'boards'), 'range', 'size');
  });

  it('say one bound where there is one', () => {
    expect(faultOf(() => upTo(SIZE, 9, 8)).message).toBe(
      'size is 9 in; it takes 8 in at the most.',
    );
    expect(faultOf(() => upTo(SIZE, 0, 8)).message).toBe('size is 0 in; it takes more than 0 in.');
    expect(faultOf(() => atLeast(SIZE, 1, 2)).message).toBe('size is 1 in; it takes 2 in or more.');
    expect([upTo(SIZE, 8, 8), atLeast(SIZE, 2, 2)]).toEqual([8, 2]);
  });

  it('take one of a few words in any case, and cells of which one is filled', () => {
    const GRAIN = { name: 'grain', quantity: 'text' } as const;
    expect(oneOf(GRAIN, ' End ', ['side', 'end'])).toBe('end');
    expect(faultOf(() => oneOf(GRAIN, 'up', ['side', 'end'])).message).toBe(
      'grain "up" is not known; it takes "side" or "end".',
    );
    expectFault(() => oneOf(GRAIN, undefined, ['side', 'end']), 'kind', 'grain');
    expect(cells(SIZE, [undefined, 2])).toEqual([undefined, 2]);
    expectFault(() => cells(SIZE, [undefined]), 'kind', 'size');
  });
});
