import { readTyped } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { watchOf } from './watch.ts';

describe('what has to be watched for a formula', () => {
  it.each([
    ['=ROW()', 'shape'],
    ['=row (A1)', 'shape'],
    ['=_xlfn.SHEETS()+1', 'shape'],
    ['=SUM(OFFSET(A1,1,1))', 'shape'],
    ['=SUM({1,2})', 'shape'],
    ['=SUM(A:A)', 'shape'],
    ["=SUM('a: b'!$1:$2)", 'shape'],
    ['=ISFORMULA(A1)+ROW()', 'content'],
    ['=ROW()+ISFORMULA(A1)', 'content'],
    ['=COUNTBLANK(板!A:A)', 'filled'],
  ])('A2 is seen in %s', (formula, watch) => {
    expect(watchOf(readTyped(formula).tokens)).toBe(watch);
  });

  it.each([
    ['words that look like it', '="ROW(A1) {1} A:A"&A1'],
    ["a sheet's name", "='ROW(A1)'!B2+'{'!A1"],
    ['a name that begins so', '=row_height+columns_2+offset_x'],
    ['ranges with an end', '=INDEX(A1:B3,MATCH(3,$A$1:$A$3,0),1)+ADDRESS(1,2)'],
  ])('A2 is nothing in %s', (_, formula) => {
    expect(watchOf(readTyped(formula).tokens)).toBeUndefined();
  });
});
