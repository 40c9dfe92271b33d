import { readPlan, wordsWanted } from '@kerfbook/guide';
import { type Edit, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { languageSheetEdit, wordsEdit } from './second-language.ts';
import { newStepEdit, stepsTable } from './steps-table.ts';

/** An invented workbook with so many steps. */
function withSteps(many: number): Workbook {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'A made-up stool',
    units: 'us',
    sheets: [{ id: 's1', name: 'Sizes', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });
  did(book, shopTableEdit(book, 'steps'));
  for (let i = 1; i <= many; i += 1) addStep(book, `Do number ${i}`);
  return book;
}

function addStep(book: Workbook, title: string): void {
  const table = stepsTable(book, readPlan(book));
  if (table !== undefined) did(book, newStepEdit(book, table, undefined, title).edit);
}

function did(book: Workbook, edit: Edit | undefined): void {
  expect(edit && book.apply(edit)).toMatchObject({ ok: true });
}

describe('the sheet for a second language', () => {
  it.each([3, 40])('comes with every text in it, of %d steps too, in one step of undo', (n) => {
    const book = withSteps(n);
    const { all, missing, rowless } = wordsWanted(book);
    expect([missing, rowless]).toEqual([all, all]);
    expect(all.filter((words) => words.startsWith('Do number'))).toHaveLength(n);
    expect(all).toContain('What you need');
    expect(all).toContain('Your size');
    did(book, languageSheetEdit(book, rowless));
    // Each is known by its row, and none has words yet.
    expect(wordsWanted(book)).toMatchObject({ missing: all, rowless: [] });
    expect(readPlan(book, true).problems).toEqual([]);
    book.undo();
    expect(book.sheets().map(({ name }) => name)).not.toContain('Second language');
  });

  it('takes in later what is new, with more rows where it is full, in one step of undo', () => {
    const book = withSteps(30);
    did(book, languageSheetEdit(book, wordsWanted(book).rowless));
    const before = book.sheets().at(-1)?.rows ?? 0;
    for (let i = 0; i < 5; i += 1) addStep(book, `One more, ${i}`);
    const { rowless } = wordsWanted(book);
    expect(rowless).toEqual([0, 1, 2, 3, 4].map((i) => `One more, ${i}`));
    did(book, wordsEdit(book, rowless));
    expect(wordsWanted(book).rowless).toEqual([]);
    expect(book.sheets().at(-1)?.rows).toBe(before + 5);
    book.undo();
    expect(wordsWanted(book).rowless).toHaveLength(5);
    book.redo();
    expect(wordsEdit(book, wordsWanted(book).rowless)).toBeUndefined();
  });
});
