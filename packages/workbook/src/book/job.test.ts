import { describe, expect, it } from 'vitest';
import { type BookDocument, loadText, saveText } from '../index.ts';
import { Workbook } from '../workbook.ts';
import { JOB_STATE, JOB_STATES, jobBegun, jobEdit, jobIn, jobStateEdit } from './job.ts';

const PLAIN: BookDocument = {
  kerfbook: 8,
  title: 'Bench',
  units: 'us',
  customer: 'A customer who was invented',
  due: '2026-12-04',
  sheets: [
    {
      id: 'job',
      name: 'Job',
      columns: [{ id: 'c1' }],
      rows: [{ id: 'r1', cells: { c1: { value: 'Length' } } }],
    },
  ],
  checks: [],
  tables: [],
};

function jobOf(document: BookDocument): Workbook {
  const book = Workbook.open(document);
  const edit = jobEdit(book);
  if (edit === undefined) throw new Error('it is a job already');
  expect(book.apply(edit)).toMatchObject({ ok: true });
  return book;
}

const type = (book: Workbook, text: string) => {
  const at = book.find(JOB_STATE);
  if (at === undefined) throw new Error('no state');
  const { sheet, row, column } = at;
  return book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
};

describe('a workbook as a job', () => {
  it('is none until it has a state, which one edit gives it and undo takes away', () => {
    expect(jobIn(PLAIN)).toBeUndefined();
    const book = jobOf(PLAIN);
    // The name of its sheet was taken.
    expect(book.sheets().map(({ name }) => name)).toEqual(['Job', 'Job 2']);
    expect(jobIn(book.document())).toEqual({
      customer: 'A customer who was invented',
      due: '2026-12-04',
      state: 'asked',
    });
    expect(jobEdit(book)).toBeUndefined();
    const loaded = loadText(saveText(book.document()));
    expect(loaded.ok && jobIn(loaded.document)?.state).toBe('asked');
    book.undo();
    expect(jobIn(book.document())).toBeUndefined();
    expect(book.document()).toEqual(PLAIN);
  });

  it('goes through every state, each read back without an engine', () => {
    const book = jobOf(PLAIN);
    for (const state of JOB_STATES.slice(1)) {
      const edit = jobStateEdit(book, state);
      if (edit === undefined) throw new Error(`no edit to ${state}`);
      expect(book.apply(edit)).toMatchObject({ ok: true });
      expect(jobIn(book.document())?.state).toBe(state);
      expect(jobStateEdit(book, state)).toBeUndefined();
    }
    expect(jobStateEdit(Workbook.open(PLAIN), 'paid')).toBeUndefined();
  });

  it('says what to do about a state that cannot be read', () => {
    const book = jobOf(PLAIN);
    type(book, 'lost');
    const list = JOB_STATES.join(', ');
    expect(jobIn(book.document())).toMatchObject({
      says: `"lost" is no state of a job; choose one of ${list}.`,
    });
    expect(jobIn(book.document())).not.toHaveProperty('state');
    type(book, '="paid"');
    expect(jobIn(book.document())?.says).toMatch(/worked out by a formula/);
    expect(jobIn(jobBegun(book.document()))?.says).toMatch(/worked out by a formula/);
    const edit = jobStateEdit(book, 'delivered');
    if (edit === undefined) throw new Error('no edit');
    book.apply(edit);
    expect(jobIn(book.document())?.state).toBe('delivered');
  });

  it('begins anew for the next customer', () => {
    const book = jobOf(PLAIN);
    type(book, 'Paid');
    expect(jobIn(book.document())?.state).toBe('paid');
    expect(jobIn(jobBegun(book.document()))?.state).toBe('asked');
    expect(jobBegun(PLAIN)).toBe(PLAIN);
  });
});
