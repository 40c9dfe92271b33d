import { plainText, readPlan } from '@kerfbook/guide';
import { stepBook } from '@kerfbook/guide/testing';
import { saveText } from '@kerfbook/workbook';
import { expect, it } from 'vitest';
import { type Drafts, withDrafts } from './drafts.ts';
import { stepsTable } from './steps-table.ts';

const BOOK = stepBook({
  steps: [
    { step: 'Cut the legs', text: 'Cut them.' },
    { step: 'Rest', text: 'A day.' },
  ],
});

/** What the first step says, with something being written. */
function said(drafts: Drafts): readonly string[] {
  const table = stepsTable(BOOK, readPlan(BOOK));
  if (table === undefined) throw new Error('no steps');
  const { steps } = readPlan(withDrafts(BOOK, table, table.first, drafts));
  const [one] = steps;
  return [plainText(one?.title ?? []), ...(one?.text.map(plainText) ?? [])];
}

it('is read as it would be with what is being written, and the workbook stays as it is', () => {
  const before = saveText(BOOK.document());
  expect(said(new Map([['text', 'Cut them {seat_length} long.']]))).toEqual([
    'Cut the legs',
    'Cut them 33 3/16 in long.',
  ]);
  expect(said(new Map([['step', 'Saw the legs']]))).toEqual(['Saw the legs', 'Cut them.']);
  expect(said(new Map([['text', '']]))).toEqual(['Cut the legs']);
  expect(said(new Map([['text', '="So "&UPPER("far")']]))).toEqual(['Cut the legs', 'So FAR']);
  // Half a formula, and half a name.
  expect(said(new Map([['text', '="So "&UPPER(']]))).toEqual(['Cut the legs', 'Cut them.']);
  expect(said(new Map([['text', 'Cut them {seat_le']]))).toEqual([
    'Cut the legs',
    'Cut them {seat_le',
  ]);
  // A time is read once it is entered.
  expect(said(new Map([['hands-on', 'soon']]))).toEqual(['Cut the legs', 'Cut them.']);
  expect(saveText(BOOK.document())).toBe(before);
  expect(BOOK.canUndo).toBe(false);
});
