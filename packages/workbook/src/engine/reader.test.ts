import { describe, expect, it } from 'vitest';
import { HYPERFORMULA } from '../testing/engines.ts';
import { bookOf, shows, type } from '../testing/sample.ts';

describe('what reads formulas for all engines', () => {
  it('A4 reads names of sheets as they stand in the engine that asks, whoever read last', () => {
    const one = bookOf({ sheets: { Base: [[1, null]], Wood: [['=Base!A1+1']] } }, HYPERFORMULA);
    const other = bookOf({ sheets: { Wood: [[10, null]], Base: [[20]] } }, HYPERFORMULA);
    const text = '=Base!A1-Wood!A1';
    type(other, 'B1', text);
    type(one, 'B1', text);
    expect([shows(other, 'B1'), shows(one, 'B1')]).toEqual(['10', '-1']);
    type(other, 'B1', '=Wood!A1&Base!A1');
    expect(shows(other, 'B1')).toBe('1020');
  });

  it('A4 goes on reading where a formula could not be read before', () => {
    const book = bookOf({ sheets: { Base: [[1, null, null]] } }, HYPERFORMULA);
    type(book, 'B1', '=Nowhere!A1+1');
    type(book, 'C1', '=A1+1');
    const next = bookOf({ sheets: { Nowhere: [[4, '=Nowhere!A1+1']] } }, HYPERFORMULA);
    expect([shows(book, 'B1'), shows(book, 'C1')]).toEqual(['#REF!', '2']);
    expect(shows(next, 'B1')).toBe('5');
  });
});
