import { describe, expect, it } from 'vitest';
import { bookOf, place } from '../testing/sample.ts';

describe('what a cell rests on in the tables of the trade', () => {
  // Wood Handbook table 13-5 (read) and the wood's own total shrinkage, table 4-3
  it('X1 tells which values of the tables a cell rests on, through the cells before it', () => {
    const book = bookOf({
      sheets: {
        A: [
          ['black oak', { formula: '=MOVEMENT(10,A1,5,10)', name: 'moves' }],
          [{ formula: '=moves/2', name: 'half' }],
        ],
      },
    });
    const why = book.explain(place(book, 'half'));
    expect(why.tables).toMatchObject([
      { of: 'Black oak: movement for 1 %, flat-sawn', shown: '0.0023 per 1 %', how: 'read' },
    ]);
    expect(why.tables[0]?.note).toContain('74 % more');
    expect(why.cautions).toHaveLength(1);
    expect(book.explain(place(book, 'A1')).tables).toEqual([]);
  });
});
