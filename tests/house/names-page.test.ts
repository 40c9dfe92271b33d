import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { namesPage, PAGE } from '../scripts/names-page.mjs';

it('the page of names says what the table says (node tests/scripts/names-page.mjs)', () => {
  expect(readFileSync(PAGE, 'utf8')).toBe(namesPage());
});
