import { readPlan } from '@kerfbook/guide';
import { type Edit, shopTableEdit, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { guideEdit, moved } from './guide-head.ts';
import { photoName } from './photo-of.ts';
import { photosEdit, removeEdit, renameEdit, usersOf } from './photos.ts';
import { cellOf, entryEdit, newStepEdit, stepsTable } from './steps-table.ts';

const DATA = 'data:image/jpeg;base64,AAAA';

/** An invented workbook whose one step shows one of its two photographs. */
function withPhotos() {
  const book = Workbook.open({
    kerfbook: 8,
    title: 'A made-up stool',
    units: 'us',
    photos: { clamps: { data: DATA }, legs: { data: DATA, says: 'Four legs' } },
    sheets: [{ id: 's1', name: 'Sizes', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] }],
    checks: [],
    tables: [],
  });
  const did = (edit: Edit | string | undefined): void => {
    if (edit === undefined || typeof edit === 'string') throw new Error(`no edit: ${edit}`);
    expect(book.apply(edit)).toMatchObject({ ok: true });
  };
  const table = () => {
    const found = stepsTable(book, readPlan(book));
    if (found === undefined) throw new Error('there is no steps table');
    return found;
  };
  did(shopTableEdit(book, 'steps'));
  const { edit, row } = newStepEdit(book, table(), undefined, 'Glue');
  did(edit);
  did(entryEdit(book, table(), row, 'photo', 'clamps'));
  const shown = () => cellOf(book, table(), row, 'photo')?.entry;
  return { book, did, table, shown };
}

describe('photographs of a workbook', () => {
  it('are named anew in the steps that show them, in one step of undo', () => {
    const { book, did, table, shown } = withPhotos();
    did(renameEdit(book, table(), 'clamps', 'glue-up'));
    expect([Object.keys(book.head.photos ?? {}), shown()]).toEqual([
      ['glue-up', 'legs'],
      'glue-up',
    ]);
    book.undo();
    expect([Object.keys(book.head.photos ?? {}), shown()]).toEqual([['clamps', 'legs'], 'clamps']);
  });

  it('take no name that another one has, or that a workbook does not keep', () => {
    const { book, table } = withPhotos();
    expect(renameEdit(book, table(), 'clamps', 'legs')).toContain('named "legs" already');
    expect(renameEdit(book, table(), 'clamps', 'Glue up')).toContain('small letters');
    expect(renameEdit(book, table(), 'clamps', 'a'.repeat(41))).toContain('too long');
  });

  it('go out of the steps too', () => {
    const { book, did, table, shown } = withPhotos();
    expect(usersOf(book, table(), 'clamps')).toHaveLength(1);
    did(removeEdit(book, table(), 'clamps'));
    expect([Object.keys(book.head.photos ?? {}), shown()]).toEqual([['legs'], '']);
    did(photosEdit({}));
    expect(book.head.photos).toBeUndefined();
  });

  it.each([
    ['Glue Up 2.JPG', 'glue-up-2'],
    ['Küche.png', 'kuche'],
    ['IMG_0001.jpeg', 'img-0001'],
    ['???.jpg', 'photograph'],
    ['clamps.jpg', 'clamps-2'],
    [`${'long '.repeat(20)}.jpg`, 'long-long-long-long-long-long'],
  ])('%s is named %s', (file, name) => {
    expect(photoName(file, ['clamps'])).toBe(name);
  });
});

describe('what is said of a plan', () => {
  it('is said beside what was said before, and not at all once it is blank', () => {
    const { book, did } = withPhotos();
    did(guideEdit(book, { title: 'A stool', hides: ['costs'] }));
    did(guideEdit(book, { before: 'Read all of it first.' }));
    expect(book.head.guide).toEqual({
      title: 'A stool',
      hides: ['costs'],
      before: 'Read all of it first.',
    });
    did(guideEdit(book, { title: '', hides: [], before: undefined }));
    expect(book.head.guide).toBeUndefined();
  });

  it('keeps inputs in the order in which they are moved', () => {
    expect(moved(['a', 'b', 'c'], 1, -1)).toEqual(['b', 'a', 'c']);
    expect(moved(['a', 'b', 'c'], 2, 1)).toEqual(['a', 'b', 'c']);
  });
});
