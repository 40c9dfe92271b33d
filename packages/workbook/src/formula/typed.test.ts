import { callAt, takesReference, typedTokens, wordAt } from '@kerfbook/document';
import { functionReference, STANDARD_PAGES } from '@kerfbook/functions';
import { describe, expect, it } from 'vitest';
import { workOut } from '../reference/alone.ts';

/** A formula with `|` where the caret stands. */
const split = (text: string): readonly [string, number] => [
  text.replace('|', ''),
  text.indexOf('|'),
];

describe('the tokens of a formula', () => {
  it('leave nothing out', () => {
    const text = '=IF(A1>=2, "a,b", top*\'My parts\'!$B$2) +1%';
    expect(
      typedTokens(text)
        .map((token) => token.text)
        .join(''),
    ).toBe(text);
    const kinds = (kind: string) =>
      typedTokens(text)
        .filter((token) => token.kind === kind)
        .map((token) => token.text);
    expect(kinds('reference')).toEqual(['A1', "'My parts'!$B$2"]);
    expect(kinds('name')).toEqual(['top']);
    expect(kinds('function')).toEqual(['IF']);
  });

  it.each([
    ['=SUM(|', 'SUM', 0],
    ['=SUM(A1,|', 'SUM', 1],
    ['=IF(A1>2,ROUND(B1,|2),3)', 'ROUND', 1],
    ['=IF(A1>2,ROUND(B1,2),|3)', 'IF', 2],
    ['=IF("a,b(",|1)', 'IF', 1],
    ['=IF((1+|2),3)', 'IF', 0],
    ['=INDEX({1,2;3,4},|2)', 'INDEX', 1],
    ['=INDEX({1,2|;3,4},2)', 'INDEX', 0],
    ['=IF("a ""b"", c(",|1)', 'IF', 1],
    ['=IF("a, |b",1)', 'IF', 0],
    ["=IF('Legs, (left)'!B2>1,|2)", 'IF', 1],
  ])('%s is in a call', (text, name, argument) => {
    expect(callAt(...split(text))).toEqual({ name, argument });
  });

  it('know where no call is', () => {
    for (const text of ['=A1+|', '=SUM(1)|', '|=SUM(1)', '=(1+|2)'])
      expect(callAt(...split(text))).toBeUndefined();
  });

  it.each([
    ['=su|', 'su'],
    ['=A1+top_l|', 'top_l'],
    ['=SUM(to|p', 'to'],
    ['=2*шир|', 'шир'],
    ['=größ|', 'größ'],
  ])('%s has a word in front of the caret', (text, word) => {
    expect(wordAt(...split(text))?.text).toBe(word);
  });

  it('take no address and nothing in quotes for a word', () => {
    for (const text of ['=B3|', '=$B$3|', '="ab|', '=12|', "='My parts'!B3|", '=|'])
      expect([text, wordAt(...split(text))]).toEqual([text, undefined]);
  });

  it.each([
    ['=|', true],
    ['=A1+|', true],
    ['=SUM(|)', true],
    ['=SUM(A1,|', true],
    ['=A1|', false],
    ['=A1+|B2', false],
    ['=A1+|ширина', false],
    ['="a+|b"', false],
    ['12+|', false],
  ])('%s takes a reference: %s', (text, takes) => {
    expect(takesReference(...split(text))).toBe(takes);
  });
});

describe('the standard functions’ arguments', () => {
  it('belong to functions that the engine has, and that are not ours', () => {
    const ours = new Set(functionReference().map(({ name }) => name));
    const calls = STANDARD_PAGES.map(({ name }) => `=${name}()`);
    const results = workOut(calls, 'us');
    STANDARD_PAGES.forEach(({ name }, i) => {
      const value = results[i]?.rows[0]?.[0];
      const says = value?.kind === 'error' ? value.error.word : '';
      expect([name, says]).not.toEqual([name, '#NAME?']);
      expect(ours.has(name)).toBe(false);
    });
  });
});
