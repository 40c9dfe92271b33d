import { describe, expect, it } from 'vitest';
import {
  filledSentence,
  lengthSaid,
  lengthsInSentence,
  namesInSentence,
} from './check-sentences.ts';

describe('a length in the braces of a sentence', () => {
  // 1 in is 25.4 mm exactly (NIST SP 811).
  it.each([
    ['1 in', 25.4],
    ['1/4 in', 6.35],
    ['1 1/2 in', 38.1],
    ['0.5in', 12.7],
    ['609.6 mm', 609.6],
    ['6 mm', 6],
  ])('%s is so many mm', (word, mm) => {
    expect(lengthSaid(word)).toBeCloseTo(mm, 9);
  });

  it.each(['in', '1/0 in', 'inch_width', '2 people', '1/4', '6 m', '-1 in', '1 in wide', 'x 1 in'])(
    '%s is none',
    (word) => {
      expect(lengthSaid(word)).toBeUndefined();
    },
  );

  it('is no name of a cell, and both are found and filled', () => {
    const says = 'It is {gap}; { 1/16 in } is the least, and {in} is a name.';
    expect(namesInSentence(says)).toEqual(['gap', 'in']);
    expect(lengthsInSentence(says)).toEqual(['1/16 in']);
    expect(filledSentence(says, (word) => word.toUpperCase())).toBe(
      'It is GAP; 1/16 IN is the least, and IN is a name.',
    );
  });
});
