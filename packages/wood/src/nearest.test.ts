import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearestNames } from './nearest.ts';

const word = fc.string({ maxLength: 12 });

describe('edit distance', () => {
  // textbook examples of the Levenshtein distance
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'oak', 3],
    ['oak', 'oak', 0],
  ])('%s → %s is %i', (from, to, distance) => {
    expect(editDistance(from, to)).toBe(distance);
  });

  it('is a distance: symmetric, zero only for equals, and never longer by a detour', () => {
    fc.assert(
      fc.property(word, word, word, (a, b, c) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, c)).toBeLessThanOrEqual(editDistance(a, b) + editDistance(b, c));
      }),
    );
  });
});

describe('nearest names', () => {
  it('puts the nearest first and keeps the given order on a tie', () => {
    expect(nearestNames('teek', ['Ipe', 'Teak', 'Beech', 'Leek'], 2)).toEqual(['Teak', 'Leek']);
  });

  it('answers for a text of any length', () => {
    expect(nearestNames('x'.repeat(100_000), ['Teak'])).toEqual(['Teak']);
  });
});
