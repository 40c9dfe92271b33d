import { readFileSync } from 'node:fs';
import { TABLES } from '@kerfbook/wood/tables';
import { expect, it } from 'vitest';
import { dataPage, originsOf, PAGE } from '../scripts/data-page.mjs';

it('the page of data says what the tables say (node tests/scripts/data-page.mjs)', () => {
  expect(readFileSync(PAGE, 'utf8')).toBe(dataPage());
});

it('every value of the tables is of a known origin and is counted', () => {
  for (const { title, values } of TABLES) {
    expect(values.length, title).toBeGreaterThan(0);
    const counted = originsOf(values).reduce((sum, [, count]) => sum + count, 0);
    expect(counted, title).toBe(values.length);
    expect(new Set(values.map(({ of }) => of)).size, title).toBe(values.length);
  }
});
