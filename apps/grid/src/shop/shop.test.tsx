import { clampCount, fastenerCount, glueStages } from '@kerfbook/wood';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fastenerPlaces } from './fastener-sheet.tsx';
import { glueRounds } from './glue-sheet.tsx';

describe('rounds of gluing', () => {
  it('are as many as GLUE_STAGES says, and join everything', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 2, max: 6 }), (staves, at) => {
        const rounds = glueRounds(staves, at);
        expect(rounds).toHaveLength(glueStages(staves, at));
        expect(rounds.reduce((sum, { joints }) => sum + joints, 0)).toBe(staves - 1);
        expect(rounds.at(-1)?.after ?? 1).toBe(1);
      }),
    );
  });
});

describe('places of fasteners', () => {
  it('are as many as FASTENER_COUNT says, no farther apart than allowed, and the same from both ends', () => {
    const rail = fc.record({
      length: fc.integer({ min: 10, max: 200 }),
      spacing: fc.integer({ min: 2, max: 30 }),
      end: fc.integer({ min: 0, max: 5 }),
    });
    fc.assert(
      fc.property(rail, ({ length, spacing, end }) => {
        const places = fastenerPlaces(length, spacing, end);
        expect(places).toHaveLength(fastenerCount(length, spacing, end));
        expect(clampCount(length, spacing, end)).toBe(places.length);
        for (const [i, place] of places.entries()) {
          expect(place + (places.at(-1 - i) ?? 0)).toBeCloseTo(length, 9);
          expect(place - (places[i - 1] ?? place)).toBeLessThanOrEqual(spacing + 1e-9);
        }
      }),
    );
  });
});
