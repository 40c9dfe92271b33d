import { readdirSync, readFileSync } from 'node:fs';
import { type BookDocument, loadText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { faultsOf, holesOf, isStopped } from './books/book-faults.ts';
import { sweepBook } from './books/sweep-books.ts';
import { inMetric } from './tables/metric.ts';
import { Trial } from './tables/trial.ts';
import { patience, times } from './times.ts';

/** In `npm test`, of each template and units; a hundred times as many in `npm run test:long`. */
const DRAWS = 40;
const SEED = 20_261_128;

/** A judge of its own looks at these, which knows more than whether a workbook is whole: random-tables.test.ts. */
const JUDGED: readonly string[] = ['dining-table.json'];

const seed = Number(
  process.env.KERFBOOK_SEED ?? (times(1) === 1 ? SEED : Math.floor(Math.random() * 2 ** 31)),
);

const folder = new URL('../../templates/', import.meta.url);
const files = readdirSync(folder).filter((file) => !JUDGED.includes(file));

function documentIn(file: string): BookDocument {
  const loaded = loadText(readFileSync(new URL(file, folder), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

const CASES = files.flatMap((file) => [
  [file, 'us', documentIn(file)] as const,
  [file, 'metric', inMetric(documentIn(file))] as const,
]);

describe('every template that ships, with inputs from anywhere in their ranges', () => {
  it.each(CASES)(
    '%s, %s: what no check stops can be made, and every check says why',
    {
      timeout: patience(120_000),
    },
    (_file, _units, document) => {
      const trial = new Trial(document);
      const { finds, passed, sentences } = sweepBook(trial, times(DRAWS), seed);
      if (times(1) > 1) console.log(`seed ${seed}: ${passed} passed`);
      expect(finds, `seed ${seed}`).toEqual([]);
      for (const [id, says] of sentences) expect(says, id).not.toMatch(/[{}]|NaN|undefined|#[A-Z]/);
      // Else nothing was tried: inputs near those that ship are mostly sound.
      expect(passed).toBeGreaterThanOrEqual(times(DRAWS) / 10);
      expect(sentences.size).toBeGreaterThan(0);
    },
  );

  it('are found wrong where nothing says stop', () => {
    const whole = documentIn('bench.json');
    const [first] = whole.checks;
    if (first === undefined) throw new Error('no check');
    const never = { ...first, formula: '=1=2', severity: 'care' as const };
    const checks = [{ ...never, says: 'Short aprons are {apron_short} long.' }];
    const trial = new Trial({ ...whole, checks });
    const outcome = trial.outcome(trial.with({ overhang_side: 11.125 }));
    expect(isStopped(outcome)).toBe(false);
    expect(faultsOf(trial, outcome, false)).toContain('Short apron: length is NaN');
    expect(holesOf(trial, outcome)).toEqual([expect.stringContaining('{apron_short}: error')]);
  });
});
