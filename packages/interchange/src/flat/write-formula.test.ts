import { type BookDocument, BookState, readFormula } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { lettersAtMost, writeFormula } from './write-formula.ts';

/** A sheet as large as any: its last cells have the longest addresses. */
const sheet = (id: string, name: string): BookDocument['sheets'][number] => ({
  id,
  name,
  columns: Array.from({ length: 702 }, (_, at) => ({ id: `c${at + 1}` })),
  rows: Array.from({ length: 9999 }, (_, at) => ({ id: `r${at + 1}` })),
});
const state = BookState.of({
  kerfbook: 8,
  title: 'Letters',
  units: 'us',
  // Each of the letters within is written twice.
  sheets: [sheet('s1', `A${"'".repeat(29)}A`), sheet('s2', 'Last')],
  checks: [],
  tables: [],
});

describe('the most letters that a formula may take', () => {
  it.each([
    '=[s1!$c702.$r9999]:[$c702.$r9999]',
    '=[s1!$c702.$r9998]+[s1!c1.r1]*-1.7976931348623157E+308',
    '="say ""so"" and ""so"""&"x"',
    '={1,"a""b";TRUE,#DIV/0!}',
    '=-(1e-300%)^2.2250738585072014E-308',
    '=IF(TRUE,,FALSE)&AVERAGEIF([c1.r1]:[c2.r2],">=1")<>""',
    `=${'a'.repeat(100)}+${'b'.repeat(99)}`,
    '=A0+XFE1',
  ])('is at least what is written of %s', (kept) => {
    const root = readFormula(kept).root;
    if (root === undefined) throw new Error('it cannot be read');
    const written = writeFormula(root, {
      state,
      sheet: 's2',
      functionName: (name) => name,
      nameOf: (name) => name,
    });
    expect(written.length).toBeGreaterThan(5);
    expect(lettersAtMost(root)).toBeGreaterThanOrEqual(written.length);
    // Nor is it so much that each formula would be written to be sure.
    expect(lettersAtMost(root)).toBeLessThan(20 * written.length + 200);
  });
});
