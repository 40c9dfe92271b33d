import { readPlan } from '@kerfbook/guide';
import { type Edit, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { languageSheetEdit, missingTexts, textsOf, wordsEdit } from './second-language.ts';
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
  it.each([3, 29, 40])('comes with every text in it, of %d steps too, in one step of undo', (n) => {
    const book = withSteps(n);
    const texts = textsOf(book, ['What you need', 'Do number 1']);
    expect(texts).toHaveLength(n + 1);
    did(book, languageSheetEdit(book, texts));
    expect(missingTexts(book, ['What you need'])).toEqual([]);
    // Each is known by its row, and none has words yet.
    expect(readPlan(book, true).translation?.missing()).toHaveLength(n);
    expect(readPlan(book, true).problems).toEqual([]);
    book.undo();
    expect(book.sheets().map(({ name }) => name)).not.toContain('Second language');
  });

  it('takes in later what is new, with more rows where it is full', () => {
    const book = withSteps(30);
    did(book, languageSheetEdit(book, textsOf(book)));
    const before = book.sheets().at(-1)?.rows ?? 0;
    for (let i = 0; i < 5; i += 1) addStep(book, `One more, ${i}`);
    const missing = missingTexts(book);
    expect(missing).toHaveLength(5);
    did(book, wordsEdit(book, missing));
    expect(missingTexts(book)).toEqual([]);
    expect(book.sheets().at(-1)?.rows).toBe(before + 5);
    expect(wordsEdit(book, missingTexts(book))).toBeUndefined();
  });
});
