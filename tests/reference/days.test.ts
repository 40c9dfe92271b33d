import { dayOf, isUncertain, readOperations, readShop, scheduleJobs } from '@kerfbook/days';
import { describe, expect, it } from 'vitest';
import { bookWith, numberOf } from './books.ts';

type Entries = Readonly<Record<string, string>>;

/** Templates with an operations table, and options that add hours or take some away. */
const CASES: readonly (readonly [name: string, entries: Entries])[] = [
  ['dining-table', {}],
  [
    'dining-table',
    { top_shape: 'oval', leg_shape: 'tapered on two inside faces', tenon_length: '1 in' },
  ],
  ['dining-table', { top_length: '120 in', at_once: '3', hours_a_day: '4 h' }],
  ['base', {}],
  ['top', {}],
  ['top', { top_shape: 'round', edge_profile: 'square' }],
  ['breadboard', {}],
  ['bench', {}],
  ['bench', { stretchers: 'none' }],
  ['bookcase', {}],
  ['bookcase', { shelf_kind: 'adjustable' }],
  ['cabinet-door', {}],
  ['coffee-table', {}],
  ['desk', {}],
  ['plywood-cabinet', {}],
  ['plywood-cabinet', { band_thickness: '0 in' }],
  ['round-table', {}],
  ['trestle-table', {}],
];
const MONDAY = dayOf('2026-11-30') ?? 0;

const named = (book: ReturnType<typeof bookWith>, name: string): number => {
  const value = book.named(name)?.value;
  return numberOf(value?.kind === 'number' ? { [name]: value.number } : {}, name);
};

describe('the operations of a template', () => {
  it.each(CASES)('%s with %o have the hours of its Days, and an end', (name, entries) => {
    for (const units of ['us', 'metric'] as const) {
      const book = bookWith(name, entries, units);
      const { operations, problems, circles } = readOperations(book);
      expect(problems).toEqual([]);
      expect(circles).toEqual([]);
      const sum = (hours: readonly number[]): number => hours.reduce((all, one) => all + one, 0);
      const worked = sum(operations.map(({ handsOn }) => handsOn));
      const waited = sum(operations.map(({ waiting }) => waiting));
      expect(worked).toBeCloseTo(named(book, 'hours_total'), 8);
      expect(waited).toBeCloseTo(named(book, 'hours_waiting'), 8);
      const { shop, problems: unread } = readShop(book);
      expect(unread).toEqual([]);
      expect(shop.hoursADay).toBe(named(book, 'hours_a_day'));
      const { jobs, placed } = scheduleJobs([{ name, operations }], shop, MONDAY);
      // One pair of hands needs at least the working days of all its hours, and what is delivered is delivered last.
      const days = Math.ceil(worked / shop.hoursADay);
      const calendarDays = days + 2 * Math.floor((days - 1) / 5);
      expect(jobs[0]?.promise).toBeGreaterThanOrEqual(MONDAY + calendarDays - 1);
      const last = Math.max(...placed.map(({ seconds }) => seconds.end));
      expect(placed.at(-1)?.operation.name).toMatch(/^Deliver/);
      expect(placed.at(-1)?.seconds.end).toBe(last);
    }
  });

  it.each(CASES)('%s with %o may each take less and more, as far as Days says', (name, entries) => {
    for (const [least, most] of [
      [undefined, undefined],
      [60, 250],
      [100, 100],
    ] as const) {
      const range: Entries =
        least === undefined ? {} : { hours_least: `${least}`, hours_most: `${most}` };
      const book = bookWith(name, { ...entries, ...range });
      const { operations, problems } = readOperations(book);
      expect(problems).toEqual([]);
      for (const one of operations) {
        // 80 % and 150 %: common practice, no source.
        expect(one.least).toBeCloseTo((one.handsOn * (least ?? 80)) / 100, 10);
        expect(one.most).toBeCloseTo((one.handsOn * (most ?? 150)) / 100, 10);
      }
      const schedule = scheduleJobs([{ name, operations }], readShop(book).shop, MONDAY);
      expect(isUncertain(schedule)).toBe(least !== 100);
    }
  });
});
