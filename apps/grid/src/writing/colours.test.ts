import { describe, expect, it } from 'vitest';
import { bracketsAt } from './colours.ts';

const told = (text: string): string => {
  const caret = text.indexOf('|');
  const found = bracketsAt(text.replace('|', ''), caret);
  return [...found]
    .sort(([a], [b]) => a - b)
    .map(([at, how]) => `${at} ${how}`)
    .join(', ');
};

describe('brackets at the caret', () => {
  it.each([
    ['=SUM(A1:A3)|', '4 pair, 10 pair'],
    ['=SUM(|A1)', '4 pair, 7 pair'],
    ['=SUM(A1|)', '4 pair, 7 pair'],
    ['=MAX((A1+A2)*2|)', '4 pair, 14 pair'],
    ['=MAX((A1+A2)|*2)', '5 pair, 11 pair'],
    ['=SU|M(A1)', ''],
    ['=SUM(A1))|', '8 alone'],
    ['=SUM(|', '4 alone'],
    ['=SUM(A|', ''],
    ['=LEN("(")|', '4 pair, 8 pair'],
    ["='a(b'!A1|", ''],
  ])('%s: %s', (text, found) => {
    expect(told(text)).toBe(found);
  });
});
