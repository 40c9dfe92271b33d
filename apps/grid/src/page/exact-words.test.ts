import { describe, expect, it } from 'vitest';
import { exactWords } from './exact-words.ts';

describe('what a rounded number stands for', () => {
  it.each([
    ['19.0625', 'exactly 19.0625'],
    ['0.6280589793', 'more exactly 0.628059'],
    ['2.3333333333', 'more exactly 2.33333'],
    ['-0.0490123456', 'more exactly -0.0490123'],
    ['123456.7890123', 'more exactly 123456.789'],
    // With signs of its own it is told as it is written.
    ['$3,863.886', 'exactly $3,863.886'],
    ['66.375"', 'exactly 66.375"'],
  ])('%s is told as %s', (exact, says) => {
    expect(exactWords(exact)).toBe(says);
  });
});
