import { saveText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { beginLong, bookOf } from '../testing/sample.ts';

describe('the saved text of an open workbook', () => {
  it('D2 writes the same bytes in pieces, and says when they do not fit together', () => {
    const rows = Array.from({ length: 350 }, (_, row) => [row, `=A${row + 1}`]);
    const book = bookOf({ sheets: { Long: rows, Empty: [] } });
    const whole = (): { text: string; fits: boolean; count: number } => {
      const pieces = book.savedPieces();
      const text: string[] = [];
      for (let next = pieces.next(); ; next = pieces.next()) {
        if (next.done === true)
          return { text: text.join(''), fits: next.value, count: text.length };
        text.push(next.value);
      }
    };
    expect(whole()).toMatchObject({ text: saveText(book.document()), fits: true });
    expect(whole().count).toBeGreaterThan(5);
    const pieces = book.savedPieces();
    pieces.next();
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text: '7' }] });
    expect(pieces.next()).toEqual({ done: true, value: false });
    const long = beginLong(book);
    expect(whole()).toEqual({ text: '', fits: false, count: 0 });
    long.drop();
    expect(whole()).toMatchObject({ text: saveText(book.document()), fits: true });
  });
});
