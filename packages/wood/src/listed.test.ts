import { expect, it } from 'vitest';
import { listed } from './listed.ts';

it('words in a row are set apart by commas, the last by "and"', () => {
  expect([[], ['left'], ['left', 'right'], ['left', 'middle', 'right']].map(listed)).toEqual([
    '',
    'left',
    'left and right',
    'left, middle and right',
  ]);
});
