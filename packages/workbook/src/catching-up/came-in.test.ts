import { type Edit, loadText, saveText } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyEdit, startBook } from '../testing/edits.ts';
import { Workbook } from '../workbook.ts';
import { cameIn } from './came-in.ts';

const enter = (column: number, row: number, text: string): Edit => ({
  do: 'enter',
  sheet: 's1',
  cells: [{ row, column, text }],
});
const entry = (book: Workbook, column: number, row: number): string =>
  book.cell({ sheet: 's1', row, column }).entry;
const text = (book: Workbook): string => saveText(book.document());

/** What another device made of the workbook as it is here. */
function comesIn(book: Workbook, edit: Edit): boolean {
  const there = Workbook.open(book.document());
  if (!there.apply(edit).ok) return false;
  expect(book.apply({ do: 'become', book: there.document() }, cameIn).ok).toBe(true);
  return true;
}

const SEED = 20_261_129;

describe('undo after something came in', () => {
  it('U6 takes back the last step of here, and leaves what came in', () => {
    const book = startBook();
    book.apply(enter(0, 1, '5'));
    book.apply(enter(0, 2, '6'));
    comesIn(book, enter(2, 2, 'theirs'));
    book.apply(enter(0, 1, '7'));
    comesIn(book, enter(1, 2, 'more'));
    const end = text(book);
    for (const now of [
      ['5', '6'],
      ['5', '3'],
      ['2', '3'],
    ]) {
      expect(book.undo()?.ok).toBe(true);
      expect([entry(book, 0, 1), entry(book, 0, 2)]).toEqual(now);
      expect([entry(book, 2, 2), entry(book, 1, 2)]).toEqual(['theirs', 'more']);
    }
    expect([book.canUndo, book.undo()]).toEqual([false, undefined]);
    for (let i = 0; i < 3; i += 1) expect(book.redo()?.ok).toBe(true);
    expect(text(book)).toBe(end);
  });

  it('U6 takes back nothing where the same was changed by what came in', () => {
    const book = startBook();
    book.apply(enter(0, 1, '5'));
    book.apply({ do: 'batch', edits: [enter(0, 2, '6'), enter(2, 2, 'mine')] });
    comesIn(book, { do: 'batch', edits: [enter(0, 2, '60'), enter(0, 1, '50')] });
    book.undo();
    // Half of the step still stood as it was made.
    expect([entry(book, 0, 2), entry(book, 2, 2)]).toEqual(['60', 'words']);
    const before = text(book);
    expect(book.undo()).toMatchObject({ ok: true, edit: { changes: [] } });
    expect(text(book)).toBe(before);
  });

  it('U6 leaves a row that it had put in and that somebody else wrote in', () => {
    const book = startBook();
    book.apply({ do: 'insertRows', sheet: 's1', at: 1, rows: [{ id: 'new' }] });
    comesIn(book, enter(2, 1, 'theirs'));
    book.undo();
    expect(entry(book, 2, 1)).toBe('theirs');
  });

  it('U6 goes no further back than a turn into other units', () => {
    const book = startBook();
    book.apply(enter(0, 0, '80'));
    comesIn(book, { do: 'changeUnits', to: 'metric' });
    expect([book.canUndo, book.undo(), book.units]).toEqual([false, undefined, 'metric']);
    book.apply(enter(0, 0, '900'));
    expect(book.undo()?.ok).toBe(true);
  });

  it('U6 leaves a locked workbook open to what comes in', () => {
    const book = startBook();
    book.apply({ do: 'setBook', set: { locked: true } });
    const { locked: _lock, ...document } = book.document();
    const there = Workbook.open(document);
    there.apply(enter(2, 2, 'theirs'));
    expect(book.apply({ do: 'become', book: there.document() }).ok).toBe(false);
    expect(book.apply({ do: 'become', book: there.document() }, cameIn).ok).toBe(true);
    expect(entry(book, 2, 2)).toBe('theirs');
  });

  it('U6 makes of a workbook what it would be with that alone, where both did something else', () => {
    const word = fc.stringMatching(/^[a-z]{4}$/);
    const step = fc.record({ isOwn: fc.boolean(), row: fc.nat(2), word });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const [book, alone] = [startBook(), startBook()];
        let own = 0;
        for (const { isOwn, row, word: typed } of steps) {
          const edit = enter(isOwn ? 2 : 3, row, typed);
          if (isOwn) own += book.apply(edit).ok ? 1 : 0;
          else {
            comesIn(book, edit);
            alone.apply(edit);
          }
        }
        const end = text(book);
        for (let i = 0; i < own; i += 1) expect(book.undo()?.ok).toBe(true);
        expect(book.canUndo).toBe(false);
        // The column that only the others wrote in came with their first word.
        for (let row = 0; row < 3; row += 1) {
          expect(entry(book, 3, row)).toBe(entry(alone, 3, row));
          expect(entry(book, 2, row)).toBe(entry(alone, 2, row));
        }
        for (let i = 0; i < own; i += 1) book.redo();
        expect(text(book)).toBe(end);
      }),
      { seed: SEED, numRuns: 80 },
    );
  });

  it('U6 holds together whatever was done and came in, and what was undone is redone', () => {
    const step = fc.record({ isOwn: fc.boolean(), edit: anyEdit });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 8 }), (steps) => {
        const book = startBook();
        for (const { isOwn, edit } of steps) {
          if (isOwn) book.apply(edit);
          else comesIn(book, edit);
        }
        const end = text(book);
        let undone = 0;
        while (book.canUndo) {
          expect(book.undo()?.ok).toBe(true);
          undone += 1;
          const loaded = loadText(text(book));
          if (!loaded.ok) throw new Error(loaded.says);
          const opened = Workbook.open(loaded.document);
          expect(text(opened)).toBe(text(book));
          for (const { id, rows, columns } of book.sheets()) {
            for (let i = 0; i < rows * columns; i += 1) {
              const at = { sheet: id, row: Math.floor(i / columns), column: i % columns };
              expect(book.value(at)).toEqual(opened.value(at));
            }
          }
        }
        for (; undone > 0; undone -= 1) expect(book.redo()?.ok).toBe(true);
        expect(text(book)).toBe(end);
      }),
      { seed: SEED, numRuns: 80 },
    );
  });
});
