import { type Edit, saveText } from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyEdit, startBook } from '../testing/edits.ts';
import { HYPERFORMULA } from '../testing/engines.ts';
import { beginTrial, bookOf, place, shows, type } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const ENGINES = [
  ['as it is opened', undefined],
  ['by HyperFormula', HYPERFORMULA],
] as const;

/** All that is seen of a workbook: what its cells show, hold and are marked with, its checks, its clashes. */
const seen = (book: Workbook) => ({
  cells: book.sheets().map(({ id, rows, columns }) =>
    Array.from({ length: rows * columns }, (_, i) => {
      const at = { sheet: id, row: Math.floor(i / columns), column: i % columns };
      const { shown, entry, value, mark, problem, override } = book.cell(at);
      return { shown: shown.text, entry, value, mark, problem, override };
    }),
  ),
  checks: book.checks(),
  clashes: book.clashes(),
  text: saveText(book.document()),
});

const enter = (text: string, row = 0, column = 0): Edit => ({
  do: 'enter',
  sheet: 's1',
  cells: [{ row, column, text }],
});

/** Says yes so many times. */
const only = (count: number) => {
  let left = count;
  return () => {
    left -= 1;
    return left > 0;
  };
};

/** The workbook once nothing is left to be worked out. */
const settled = (book: Workbook): Workbook => {
  while (book.pending) book.goOn();
  return book;
};

describe('an edit that is tried', () => {
  it.each(ENGINES)(
    'U5 is the edit itself at every try, whatever was tried before, %s',
    (_, engine) => {
      fc.assert(
        fc.property(
          fc.array(anyEdit, { maxLength: 3 }),
          fc.array(fc.record({ edit: anyEdit, formulas: fc.option(fc.nat(4)) }), {
            minLength: 1,
            maxLength: 5,
          }),
          fc.boolean(),
          (before, tries, kept) => {
            const books = [startBook(engine), startBook(engine)] as const;
            for (const book of books) {
              for (const one of before) book.apply(one);
              book.undo();
            }
            const [book, typed] = books;
            const first = seen(book);
            const undoable = [book.canUndo, book.canRedo];
            const trial = beginTrial(book);
            let last: Edit | undefined;
            for (const { edit, formulas } of tries) {
              book.pace = formulas === null ? undefined : only(formulas);
              if (!trial.try(edit).ok) continue;
              book.pace = undefined;
              last = edit;
              if (formulas !== null) continue;
              settled(book);
              const once = startBook(engine);
              for (const one of before) once.apply(one);
              once.undo();
              once.apply(edit);
              expect(withoutIds(seen(book))).toEqual(withoutIds(seen(once)));
            }
            book.pace = undefined;
            if (kept && last !== undefined) {
              trial.keep();
              typed.apply(last);
              expect(withoutIds(seen(settled(book)))).toEqual(withoutIds(seen(typed)));
              expect(book.canRedo).toBe(false);
              book.undo();
              expect(withoutIds(seen(settled(book)))).toEqual(withoutIds(first));
              expect([book.canUndo, book.canRedo]).toEqual([undoable[0], true]);
              return;
            }
            trial.drop();
            expect(seen(settled(book))).toEqual(first);
            expect([book.canUndo, book.canRedo]).toEqual(undoable);
            const redone = book.redo()?.ok;
            expect(redone).toBe(typed.redo()?.ok);
            expect(seen(settled(book))).toEqual(seen(typed));
          },
        ),
        { numRuns: 60, seed: 20261127 },
      );
    },
  );

  it('U5 keeps one step of undo and one entry of the log, those of its last try', () => {
    const book = bookOf({ sheets: { Base: [[84, '=A1*2'], ['=B1+1']] } });
    const first = saveText(book.document());
    const trial = beginTrial(book);
    for (let inches = 85; inches <= 96; inches += 1) trial.try(enter(String(inches)));
    expect(shows(book, 'B1')).toBe('192');
    const kept = trial.keep();
    const typed = bookOf({ sheets: { Base: [[84, '=A1*2'], ['=B1+1']] } });
    const result = type(typed, 'A1', '96');
    expect(kept.edit).toEqual(result.edit);
    expect(kept.inverse).toEqual(result.inverse);
    expect(kept.changed).toHaveLength(3);
    expect(saveText(book.document())).toBe(saveText(typed.document()));
    book.undo();
    expect(saveText(book.document())).toBe(first);
    expect(book.canUndo).toBe(false);
    expect(shows(book, 'A2')).toBe('169');
  });

  it('U5 reports at each try and when it is dropped exactly what differs from what was seen', () => {
    const book = bookOf({ sheets: { Base: [[1, '=A1*2', '=A1>5', '=A1*0']] } });
    const trial = beginTrial(book);
    const columns = (one: { changed: readonly { column: number }[] } | { ok: false }) =>
      'changed' in one ? one.changed.map(({ column }) => column).sort() : [];
    expect(columns(trial.try(enter('2')))).toEqual([0, 1]);
    expect(columns(trial.try(enter('9')))).toEqual([0, 1, 2]);
    expect(columns(trial.try(enter('8')))).toEqual([0, 1]);
    expect(columns(trial.drop())).toEqual([0, 1, 2]);
    expect(shows(book, 'C1')).toBe('FALSE');
  });

  it('U5 lets nothing else be changed or saved, and undoes nothing, until it ends', () => {
    const book = bookOf({ sheets: { Base: [[1]] } });
    type(book, 'A1', '2');
    const trial = beginTrial(book);
    trial.try(enter('3'));
    expect(book.apply(enter('4'))).toMatchObject({ ok: false, code: 'W16' });
    expect(book.beginTrial()).toMatchObject({ ok: false, code: 'W16' });
    expect(book.beginLong()).toMatchObject({ ok: false, code: 'W16' });
    expect(book.undo()).toBeUndefined();
    expect(book.savedPieces().next()).toEqual({ done: true, value: false });
    trial.drop();
    expect(shows(book, 'A1')).toBe('2');
    book.undo();
    expect(shows(book, 'A1')).toBe('1');
  });

  it('U5 is nothing where nothing was tried, and a refused try leaves the one before it', () => {
    const book = bookOf({ sheets: { Base: [[1]] } });
    beginTrial(book).keep();
    beginTrial(book).drop();
    expect(book.canUndo).toBe(false);
    const trial = beginTrial(book);
    trial.try(enter('3'));
    expect(trial.try(enter('4', 2_000_000))).toMatchObject({ ok: false });
    expect(shows(book, 'A1')).toBe('3');
    trial.keep();
    expect(shows(book, 'A1')).toBe('3');
    book.undo();
    expect(shows(book, 'A1')).toBe('1');
  });

  it.each(ENGINES)(
    'U5 goes over an override and back to its formula, and through errors, %s',
    (_, engine) => {
      const cells = [
        [4, { formula: '=[c1.r1]*2', role: 'calculated' as const }, '=12/([c2.r1]-10)'],
      ];
      const book = bookOf({ sheets: { Base: cells } }, engine);
      const first = seen(book);
      const trial = beginTrial(book);
      trial.try(enter('10', 0, 1));
      expect(shows(book, 'C1')).toBe('#DIV/0!');
      trial.try(enter('13', 0, 1));
      expect(shows(book, 'C1')).toBe('4');
      expect(book.cell(place(book, 'B1')).override?.typed).toBe('13');
      trial.drop();
      expect(seen(book)).toEqual(first);
    },
  );

  it('U5 is held to what may be changed in a locked workbook', () => {
    const book = bookOf({ sheets: { Base: [[{ value: 1, role: 'input' }, 2]] } });
    book.apply({ do: 'setBook', set: { locked: true } });
    const trial = beginTrial(book);
    expect(trial.try(enter('3', 0, 1)).ok).toBe(false);
    expect(trial.try(enter('3')).ok).toBe(true);
    trial.keep();
    expect(shows(book, 'A1')).toBe('3');
  });
});

/** New rows and columns get other ids each time: what is seen but for these. */
const withoutIds = ({ text: _text, ...rest }: ReturnType<typeof seen>) => rest;
