import { describe, expect, it } from 'vitest';
import { type JobRow, jobBook } from '../testing/job-book.ts';
import { readOperations } from './read-operations.ts';

const read = (rows: readonly JobRow[]) => {
  const book = jobBook(rows);
  const { operations, problems, circles } = readOperations(book);
  return {
    operations,
    circles,
    problems: problems.map(({ at, says }) => `${book.addressOf(at)} ${says}`),
  };
};

describe('an operations table', () => {
  it('has what is done, for how long, after what, by whom and with what', () => {
    const { operations, problems } = read([
      { operation: 'Mill', 'hands-on': '=2*1.5', least: 2, most: 6 },
      { operation: 'Glue up, first', 'hands-on': 1, waiting: 4, machine: 'clamps, press' },
      { operation: 'Turn', 'hands-on': 3, after: 'start', who: 'Helper', 'not before': 46_356 },
      { operation: 'Fit', 'hands-on': 2, after: ' turn,  glue up,  FIRST ' },
      { operation: 'Not needed', 'hands-on': 0 },
    ]);
    expect(problems).toEqual([]);
    expect(operations).toEqual([
      {
        id: 'r1',
        name: 'Mill',
        handsOn: 3,
        waiting: 0,
        after: [],
        who: [],
        machines: [],
        least: 2,
        most: 6,
      },
      {
        id: 'r2',
        name: 'Glue up, first',
        handsOn: 1,
        waiting: 4,
        after: ['r1'],
        who: [],
        machines: ['clamps', 'press'],
        least: 1,
        most: 1,
      },
      {
        id: 'r3',
        name: 'Turn',
        handsOn: 3,
        waiting: 0,
        after: [],
        who: ['Helper'],
        machines: [],
        least: 3,
        most: 3,
        notBefore: 46_356,
      },
      {
        id: 'r4',
        name: 'Fit',
        handsOn: 2,
        waiting: 0,
        after: ['r3', 'r2'],
        who: [],
        machines: [],
        least: 2,
        most: 2,
      },
      {
        id: 'r5',
        name: 'Not needed',
        handsOn: 0,
        waiting: 0,
        after: ['r4'],
        who: [],
        machines: [],
        least: 0,
        most: 0,
      },
    ]);
  });

  it('says what comes after nothing that is there', () => {
    expect(
      read([
        { operation: 'Mill', 'hands-on': 1 },
        { operation: 'Fit', 'hands-on': 1, after: 'Mill, Glue' },
      ]).problems,
    ).toEqual([
      'D3 Nothing in this table is called "Glue", so "Fit" does not wait for it. Write it as it stands under operation, or "start" for nothing.',
    ]);
  });

  it('names the members of each circle, and not what only comes after one', () => {
    const { circles, problems } = read([
      { operation: 'A', 'hands-on': 1, after: 'C' },
      { operation: 'B', 'hands-on': 1 },
      { operation: 'C', 'hands-on': 1 },
      { operation: 'D', 'hands-on': 1 },
      { operation: 'E', 'hands-on': 1, after: 'E' },
    ]);
    expect(circles).toEqual([['A', 'B', 'C'], ['E']]);
    expect(problems).toEqual([
      'D2 "A", "B" and "C" wait for each other in a circle, so that none can begin. Take one of them out of an after.',
      'D6 "E" comes after itself. Take its own name out of its after.',
    ]);
  });

  it('says which hours cannot be', () => {
    const { operations, problems } = read([
      { operation: 'A', 'hands-on': -1 },
      { operation: 'B', 'hands-on': '=1/0', waiting: 2 },
      { operation: 'C' },
      { operation: 'D', 'hands-on': 6000 },
      { operation: 'E', 'hands-on': 2, least: 3, most: 4 },
      { operation: 'F', 'hands-on': 2, most: 1 },
      { operation: 'A', 'hands-on': 'long' },
      { 'hands-on': 2 },
    ]);
    expect(problems.map((says) => says.replace(/#DIV.*/, '#DIV/0!'))).toEqual([
      'B2 Its hands-on should be a number of hours, from 0 to 5000.',
      'B3 Its hands-on is #DIV/0!',
      'B4 "C" has no hours, neither hands-on nor waiting, so it is planned as if it took no time. Write how long it takes; 0 where it is not needed.',
      'B5 Its hands-on should be a number of hours, from 0 to 5000; it is left out of the days.',
      'G6 Its hands-on hours should be between its least and its most. Until they are, it is planned as taking just its hands-on hours.',
      'H7 Its hands-on hours should be between its least and its most. Until they are, it is planned as taking just its hands-on hours.',
      'B8 Its hands-on is #VALUE!: "long" cannot be read here; this cell takes a time such as 2 h, 90 min or 1 h 30 min.',
      'A8 Two operations are called "A"; where one comes after it, the first is meant. Call this one otherwise.',
      'A9 This operation has no name. Say what is done.',
    ]);
    expect(operations.map(({ handsOn, waiting }) => [handsOn, waiting])).toEqual([
      [0, 0],
      [0, 2],
      [0, 0],
      [0, 0],
      [2, 0],
      [2, 0],
      [0, 0],
      [2, 0],
    ]);
  });

  it('with nothing in it says so', () => {
    expect(read([{}]).problems).toEqual([
      'A1 The operations table has nothing in it. Write a row for each piece of work, with its hours under hands-on and waiting.',
    ]);
  });
});
