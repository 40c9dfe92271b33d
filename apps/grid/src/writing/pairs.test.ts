import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pairKey } from './pairs.ts';

/** Types keys one after the other where `|` stands; gives the text with its caret. */
function typed(from: string, keys: string | readonly string[]): string {
  let caret = from.indexOf('|');
  let text = from.replace('|', '');
  for (const key of keys) {
    const paired = pairKey(text, [caret, caret], key);
    if (paired !== undefined) ({ text, caret } = paired);
    else if (key === 'Backspace') {
      text = text.slice(0, Math.max(0, caret - 1)) + text.slice(caret);
      caret = Math.max(0, caret - 1);
    } else {
      text = text.slice(0, caret) + key + text.slice(caret);
      caret += 1;
    }
  }
  return `${text.slice(0, caret)}|${text.slice(caret)}`;
}

describe('brackets and quotes in a formula', () => {
  it.each([
    ['=SUM|', '(', '=SUM(|)'],
    ['=SUM|', '(A1:A3)', '=SUM(A1:A3)|'],
    ['=|', '((1+2)*3)', '=((1+2)*3)|'],
    ['=|', 'IF(A1="oak","a ""b""",2)', '=IF(A1="oak","a ""b""",2)|'],
    ['=|A1', '(', '=(|A1'],
    ['=(A1|', ')', '=(A1)|'],
    ['=((A1|)', ')', '=((A1)|)'],
    ['="(|"', '(', '="((|"'],
    ['=A1&|', '"oak"', '=A1&"oak"|'],
    // No formula: inches and remarks keep their marks.
    ['5|', '"', '5"|'],
    ['(|', '(', '((|'],
    ['|=1', '(', '(|=1'],
  ])('%s and %s', (from, keys, to) => {
    expect(typed(from, keys)).toBe(to);
  });

  it.each([
    ['=SUM(|)', '=SUM|'],
    ['=A1&"|"', '=A1&|'],
    ['=(1|)', '=(|)'],
    ['="a"|"b"', '="a|"b"'],
  ])('taking one out of %s', (from, to) => {
    expect(typed(from, ['Backspace'])).toBe(to);
  });

  it('go around what is selected', () => {
    expect(pairKey('=A1+A2', [1, 6], '(')).toEqual({ text: '=(A1+A2)', caret: 8 });
  });

  it('leave a formula whose brackets and quotes fit as it was typed', () => {
    const part = fc.constantFrom('A1', '+', '1', '("a")', '(A1)', 'IF(A1,"x(y",2)', '"a""b"', '()');
    fc.assert(
      fc.property(fc.array(part, { maxLength: 8 }), (parts) => {
        // Two texts side by side are one text with a quote in it.
        const text = parts.join('+');
        expect(typed('=|', text)).toBe(`=${text}|`);
      }),
      { numRuns: 200 },
    );
  });
});
