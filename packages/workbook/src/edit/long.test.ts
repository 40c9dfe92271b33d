import { describe, expect, it } from 'vitest';
import { beginLong, bookOf } from '../testing/sample.ts';

const start = () => bookOf({ sheets: { Base: [[1], [2]] } });
const part = (from: number, count: number) =>
  ({
    do: 'enter',
    sheet: 's1',
    cells: Array.from({ length: count }, (_, i) => ({
      row: from + i,
      column: 1,
      text: `=A1+${from + i}`,
    })),
  }) as const;

describe('an edit carried out part by part', () => {
  it('U4 is one step of undo when it is kept', () => {
    const book = start();
    const first = book.document();
    const long = beginLong(book);
    expect(long.apply(part(0, 3)).ok).toBe(true);
    expect(long.apply(part(3, 3)).ok).toBe(true);
    expect(book.apply(part(9, 1))).toMatchObject({ ok: false, code: 'W16' });
    expect(book.beginLong()).toMatchObject({ ok: false, code: 'W16' });
    expect(book.undo()).toBeUndefined();
    const done = long.keep();
    expect(done.changed).toHaveLength(6);
    expect(book.value({ sheet: 's1', row: 5, column: 1 })).toEqual({ kind: 'number', number: 6 });
    const last = book.document();
    book.undo();
    expect(book.document()).toEqual(first);
    book.redo();
    expect(book.document()).toEqual(last);
    const again = start();
    again.apply(done.edit, 'again');
    expect(again.document()).toEqual(last);
  });

  it('U4 leaves nothing behind when it is dropped, also after a part was refused', () => {
    const book = start();
    const first = book.document();
    const long = beginLong(book);
    long.apply(part(0, 3));
    expect(long.apply(part(9_999, 3)).ok).toBe(false);
    long.drop();
    expect(book.document()).toEqual(first);
    expect(book.canUndo).toBe(false);
    expect(book.apply(part(0, 1)).ok).toBe(true);
  });
});
