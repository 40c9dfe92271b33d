import { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { hoursBook } from '../testing/hours-book.ts';
import { operation } from '../testing/job-book.ts';
import { averageFor, averagesOf, hoursKept } from './averages.ts';
import { readHours } from './read-hours.ts';
import { takenOf } from './taken.ts';

const ROWS = [
  { day: '2026-12-01', operation: 'Mill', hours: 2.5 },
  { operation: ' mill ', hours: 1.5, spent: 12, done: true },
  { operation: 'Glue', hours: 1 },
  { operation: 'Fetch glue', spent: 30 },
] as const;

describe('what operations really took', () => {
  it('is read of the hours table, and of the text of a workbook that is not open', () => {
    const book = hoursBook(ROWS);
    const { found, rows, problems } = readHours(book);
    expect({ found, problems }).toEqual({ found: true, problems: [] });
    expect(
      rows.map(({ operation: name, hours, spent, isDone }) => [name, hours, spent, isDone]),
    ).toEqual([
      ['Mill', 2.5, undefined, false],
      ['mill', 1.5, 12, true],
      ['Glue', 1, undefined, false],
      ['Fetch glue', undefined, 30, false],
    ]);
    expect(hoursKept(book.document())).toEqual(rows);
  });

  it('stands beside what was thought, with what nobody thought of', () => {
    const operations = [operation('a', 3, { name: 'Mill' }), operation('b', 2, { name: 'Glue' })];
    const all = takenOf(operations, readHours(hoursBook(ROWS)).rows);
    expect(
      all.operations.map(({ id, name, estimate, worked, times, isDone }) => [
        id,
        name,
        estimate,
        worked,
        times,
        isDone,
      ]),
    ).toEqual([
      ['a', 'Mill', 3, 4, 2, true],
      ['b', 'Glue', 2, 1, 1, false],
      [undefined, 'Fetch glue', undefined, 0, 0, false],
    ]);
    expect([all.estimate, all.worked, all.spent]).toEqual([5, 5, 42]);
    // Only what is done can be compared: 4 h for the 3 h that were thought of.
    expect(all.done).toEqual({ count: 1, estimate: 3, worked: 4 });
  });

  it('says what cannot be read, and counts the rest', () => {
    const { rows, problems } = readHours(
      hoursBook([
        { hours: 2 },
        { operation: 'Mill', hours: 'long' },
        { operation: 'Glue', hours: 6000 },
        { operation: 'Oil' },
        { operation: 'Oil', hours: 1, done: 'nearly' },
      ]),
    );
    expect(rows.map(({ operation: name, hours }) => [name, hours])).toEqual([
      ['Mill', undefined],
      ['Glue', undefined],
      ['Oil', undefined],
      ['Oil', 1],
    ]);
    expect(problems.map(({ says }) => says)).toEqual([
      'These hours are of no operation, so they are counted nowhere. Say what was done.',
      'Its hours is #VALUE!: "long" cannot be read here; this cell takes a time such as 2 h, 90 min or 1 h 30 min.',
      'Its hours should be a number of hours, from 0 to 5000; they are not counted.',
      '"Oil" has neither hours nor money. Write how long it took.',
      'Its done should be yes or no, or blank for not yet.',
    ]);
  });

  it('is nothing where there is no such table', () => {
    const document = Workbook.open({ ...hoursBook([]).document(), tables: [] });
    expect(readHours(document)).toEqual({ found: false, rows: [], problems: [] });
    expect(hoursKept(document.document())).toEqual([]);
  });
});

describe('the averages of a shop', () => {
  const done = (name: string, hours: number) => ({ operation: name, hours, done: true });
  const of = (...books: Parameters<typeof hoursBook>[0][]) =>
    averagesOf(books.map((rows) => hoursKept(hoursBook(rows).document())));

  it('are means over workbooks in which it was done, with their spread and count', () => {
    const averages = of(
      [done('Mill', 4)],
      // In two goes: 7 h in all.
      [{ operation: 'mill', hours: 3 }, done('Mill ', 4)],
      [done('Mill', 4.6)],
      [{ operation: 'Mill', hours: 0.5 }],
    );
    const mill = averageFor(averages, 'MILL');
    expect(mill).toMatchObject({ count: 3, least: 4, most: 7, begun: 1 });
    expect(mill?.mean).toBeCloseTo((4 + 7 + 4.6) / 3, 12);
  });

  it('count what a copy of a workbook has once, and not what the job at hand has', () => {
    const first = { ...done('Mill', 4), day: '2026-12-01' };
    const more = { ...done('Mill', 3), day: '2027-01-11' };
    const other = { ...done('Mill', 5), day: '2027-02-01' };
    // The second was copied of the first, with its row, before it was worked at.
    const books = [[first], [first, more], [other]].map((rows) =>
      hoursKept(hoursBook(rows).document()),
    );
    expect(averageFor(averagesOf(books), 'Mill')).toMatchObject({ count: 3, least: 3, most: 5 });
    expect(averageFor(averagesOf(books, books[2]), 'Mill')).toMatchObject({ count: 2, most: 4 });
    // Without a day two jobs may well have the same hours.
    expect(averageFor(of([done('Mill', 4)], [done('Mill', 4)]), 'Mill')).toMatchObject({
      count: 2,
    });
  });

  it('are none of what was never done, and read no formula', () => {
    expect(averageFor(of([{ operation: 'Mill', hours: 3 }]), 'Mill')).toBeUndefined();
    expect(
      averageFor(of([{ operation: 'Mill', hours: '=1+2', done: true }]), 'Mill'),
    ).toBeUndefined();
  });
});
