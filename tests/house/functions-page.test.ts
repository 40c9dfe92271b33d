import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { functionsPage, PAGE } from '../scripts/functions-page.mjs';

it('the page of functions says what the functions say (node tests/scripts/functions-page.mjs)', () => {
  expect(readFileSync(PAGE, 'utf8')).toBe(functionsPage());
});
