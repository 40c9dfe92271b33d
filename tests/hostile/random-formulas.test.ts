import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formulaText } from './formula-grammar.ts';
import { BATCH, smallest, trouble } from './formula-trial.ts';
import { patience, times } from './times.ts';

describe('formulas put together by chance', () => {
  it(
    'are answered soundly, explained, and the same when the workbook is opened again',
    async () => {
      let tried = 0;
      const batch = fc.array(formulaText, { minLength: BATCH, maxLength: BATCH });
      await fc.assert(
        fc.asyncProperty(batch, async (formulas) => {
          tried += formulas.length;
          if (trouble(formulas) !== undefined) throw new Error(smallest(formulas));
          if (tried % 400 === 0) await new Promise((done) => setImmediate(done));
        }),
        { numRuns: times(125), endOnFailure: true },
      );
      expect(tried).toBeGreaterThanOrEqual(times(5000));
    },
    patience(120_000),
  );
});
