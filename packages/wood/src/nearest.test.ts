import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearestNames, nearNames, slipsAtLeast } from './nearest.ts';

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

  // Damerau (1964): a swap of neighbours is one slip. "ca" to "abc" is 3 where no letter is touched twice.
  it.each([
    ['chrery', 'cherry', 1],
    ['oka', 'oak', 1],
    ['ca', 'abc', 3],
  ])('counts a swap as one slip: %s → %s is %i', (from, to, distance) => {
    expect(editDistance(from, to)).toBe(distance);
  });

  it('is symmetric, and zero only for equals', () => {
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
      }),
    );
  });
});

describe('the least of slips', () => {
  const like = fc.string({ maxLength: 12, unit: fc.constantFrom(...'oakelmbüxЖ') });

  it('is never more than the slips there are', () => {
    const held = (a: string, b: string): void => {
      expect(slipsAtLeast(a, b)).toBeLessThanOrEqual(editDistance(a, b));
    };
    fc.assert(fc.property(word, word, held), { numRuns: 1000 });
    fc.assert(fc.property(like, like, held), { numRuns: 1000 });
  });

  it('is told by the letters that one of two words lacks', () => {
    expect(slipsAtLeast('oak', 'ash')).toBe(2);
    expect(slipsAtLeast('oak', 'oaken')).toBe(2);
    expect(slipsAtLeast('oak', 'koa')).toBe(0);
  });
});

describe('nearest names', () => {
  it('are as near as all names held against the word say, and no near one is left out', () => {
    const part = fc.string({ minLength: 1, maxLength: 6, unit: fc.constantFrom(...'oakelmb') });
    const name = fc.array(part, { minLength: 1, maxLength: 3 }).map((parts) => parts.join('_'));
    fc.assert(
      fc.property(name, fc.array(name, { maxLength: 12 }), (asked, names) => {
        const all = nearestNames(asked, names, names.length);
        const near = nearNames(asked, names, names.length);
        expect(near).toEqual(all.slice(0, near.length));
      }),
      { numRuns: 500 },
    );
  });

  it('puts the nearest first and keeps the given order on a tie', () => {
    expect(nearestNames('teek', ['Ipe', 'Teak', 'Beech', 'Leek'], 2)).toEqual(['Teak', 'Leek']);
  });

  it('answers for a text of any length', () => {
    expect(nearestNames('x'.repeat(100_000), ['Teak'])).toEqual(['Teak']);
    expect(nearNames('x'.repeat(100_000), ['Teak'])).toEqual([]);
  });

  it('looks at words in any order and by their length, and offers nothing that is not like it', () => {
    const names = ['top_length', 'leg_size', 'apron_long'];
    expect(nearNames('lenght_top', names)).toEqual(['top_length']);
    expect(nearNames('toplength', names)[0]).toBe('top_length');
    expect(nearNames('zebra', names)).toEqual([]);
  });
});
