import fc from 'fast-check';
import { describe, it } from 'vitest';
import { anyRun } from './edit-steps.ts';
import { follow } from './follow-edits.ts';
import { patience, seedOf, times } from './times.ts';

const LONG = 40;

describe('any sequence of edits', () => {
  it('shows what it shows when it is saved and opened again, and is undone to where it began', {
    timeout: patience(180_000),
  }, async () => {
    let count = 0;
    await fc.assert(
      fc.asyncProperty(anyRun(LONG), async (run) => {
        count += 1;
        if (count % 20 === 0) await new Promise(setImmediate);
        follow(run);
      }),
      { numRuns: times(200), ...seedOf(20_261_126) },
    );
  });
});
