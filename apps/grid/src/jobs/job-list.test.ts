import type { JobState } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import {
  dueWords,
  isOverdue,
  isToBuild,
  type JobLine,
  openSums,
  shownJobs,
  toCome,
} from './job-list.ts';

const TODAY = '2026-11-30';

function line(
  title: string,
  state: JobState | undefined,
  due?: string,
  more: Partial<JobLine> = {},
): JobLine {
  const facts = {
    ...(state === undefined ? {} : { state }),
    ...(due === undefined ? {} : { due }),
  };
  return { id: title, title, updated: 0, facts, here: false, isOld: false, ...more };
}

const dollars = (amount: number) => ({ price: { text: `$${amount}`, amount, currency: 'USD' } });
const titles = (lines: readonly JobLine[]) => lines.map(({ title }) => title).join(' ');

const JOBS = [
  line('hall', 'paid', '2026-01-05', dollars(900)),
  line('desk', 'quoted', '2026-12-24', dollars(100)),
  line('bench', 'in the shop', '2026-11-28', dollars(250)),
  line('chest', 'delivered', '2026-11-01', dollars(40)),
  line('table', 'accepted', undefined, { price: { says: 'There is no price.' } }),
  line('shelf', 'in the shop', '2026-12-01', {
    price: { text: '300 €', amount: 300, currency: 'EUR' },
    isOld: true,
  }),
  line('odd', undefined, '2026-11-30'),
];

describe('the list of jobs', () => {
  it('puts first what has to be delivered first, and last what has no day or is delivered', () => {
    const all = { shown: 'all', order: 'due', typed: '' } as const;
    expect(titles(shownJobs(JOBS, all))).toBe('bench odd shelf desk table chest hall');
    expect(titles(shownJobs(JOBS, { ...all, order: 'state' }))).toBe(
      'odd desk table bench shelf chest hall',
    );
    expect(titles(shownJobs(JOBS, { ...all, shown: 'open' }))).not.toContain('hall');
    expect(titles(shownJobs(JOBS, { ...all, shown: 'in the shop' }))).toBe('bench shelf');
    expect(titles(shownJobs(JOBS, { ...all, typed: ' SHOP be' }))).toBe('bench');
    expect(titles(JOBS.filter(isToBuild))).toBe('bench table shelf');
  });

  it('says in words what is due and what is overdue', () => {
    const says = (title: string) =>
      dueWords(JOBS.find((one) => one.title === title) as JobLine, TODAY);
    expect(says('bench')).toBe('28 November 2026, 2 days overdue');
    expect(says('odd')).toBe('30 November 2026, today');
    expect(says('shelf')).toBe('1 December 2026, tomorrow');
    expect(says('desk')).toBe('24 December 2026, in 24 days');
    expect(says('table')).toBe('no due date');
    // What is delivered is not late any more.
    expect(says('chest')).toBe('1 November 2026');
    expect(titles(JOBS.filter((one) => isOverdue(one, TODAY)))).toBe('bench');
    // Over the change of clocks, and of years.
    expect(dueWords(line('x', 'asked', '2027-03-30'), '2027-03-27')).toMatch(/in 3 days$/);
    expect(dueWords(line('x', 'asked', '2027-01-01'), '2026-12-30')).toMatch(/in 2 days$/);
  });

  it('adds up what is not paid, each currency by itself', () => {
    expect(openSums(JOBS)).toEqual([
      {
        says: 'Asked and quoted',
        count: 2,
        amounts: [{ currency: 'USD', amount: 100, paid: 0 }],
        without: 1,
        hasOld: false,
      },
      {
        says: 'Accepted and in the shop',
        count: 3,
        amounts: [
          { currency: 'USD', amount: 250, paid: 0 },
          { currency: 'EUR', amount: 300, paid: 0 },
        ],
        without: 1,
        hasOld: true,
      },
      {
        says: 'Delivered, not paid',
        count: 1,
        amounts: [{ currency: 'USD', amount: 40, paid: 0 }],
        without: 0,
        hasOld: false,
      },
    ]);
    expect(openSums([])).toEqual([]);
  });

  it('takes what was paid off what is to come in, and nothing off other jobs', () => {
    const lines = [
      line('bench', 'in the shop', undefined, { ...dollars(250), paid: 100.1 }),
      line('desk', 'accepted', undefined, dollars(100)),
      // More than it costs, as after a price that was lowered: that is said at its own line.
      line('chest', 'accepted', undefined, { ...dollars(40), paid: 60 }),
      line('table', 'accepted', undefined, { price: { says: 'There is no price.' }, paid: 5 }),
    ];
    expect(lines.map(toCome)).toEqual([149.9, 100, -20, undefined]);
    expect(openSums(lines)).toEqual([
      {
        says: 'Accepted and in the shop',
        count: 4,
        amounts: [{ currency: 'USD', amount: 249.9, paid: 160.1 }],
        without: 1,
        hasOld: false,
      },
    ]);
  });
});
