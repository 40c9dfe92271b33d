import { readHours } from '@kerfbook/days';
import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { workEdit } from './hours-edits.ts';

const blank = (): Workbook =>
  Workbook.open({
    kerfbook: 8,
    title: 'An invented job',
    units: 'us',
    sheets: [{ id: 's1', name: 'Sheet', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });
const DAY = 46_447;

describe('hours that are written down', () => {
  it('begin their table where there is none, in one step of undo', () => {
    const book = blank();
    const before = book.document();
    const work = {
      operation: 'Mill',
      day: DAY,
      hours: 1.25,
      spent: '12.50',
      note: 'Slow.',
      isDone: true,
    };
    expect(book.apply(workEdit(book, work)).ok).toBe(true);
    expect(readHours(book)).toMatchObject({
      problems: [],
      rows: [{ operation: 'Mill', day: DAY, hours: 1.25, spent: 12.5, isDone: true }],
    });
    book.undo();
    expect(book.document()).toEqual(before);
  });

  it('go below those that are there, beyond the end of the table too', () => {
    const book = blank();
    for (let i = 1; i <= 40; i += 1) {
      const done = book.apply(
        workEdit(book, { operation: `Operation ${i}`, day: DAY, hours: i / 60, isDone: false }),
      );
      expect(done.ok).toBe(true);
    }
    const { rows, problems } = readHours(book);
    expect(problems).toEqual([]);
    expect(rows.map(({ hours = 0 }) => Math.round(hours * 60))).toEqual(
      Array.from({ length: 40 }, (_, i) => i + 1),
    );
  });

  it('bring along the column that the table of an older workbook lacks', () => {
    const book = blank();
    book.apply(workEdit(book, { operation: 'Mill', day: DAY, hours: 1, isDone: false }));
    const table = book.tables()[0];
    if (table === undefined) throw new Error('no table');
    const done = Array.from({ length: 6 }, (_, column) => column).find((column) => {
      const value = book.value({ sheet: table.sheet, row: table.header, column });
      return value.kind === 'text' && value.text === 'done';
    });
    book.apply({ do: 'deleteColumns', sheet: table.sheet, at: done ?? 0, count: 1 });
    book.apply(workEdit(book, { operation: 'Mill', day: DAY, hours: 2, isDone: true }));
    expect(readHours(book).rows).toMatchObject([
      { hours: 1, isDone: false },
      { hours: 2, isDone: true },
    ]);
  });
});
