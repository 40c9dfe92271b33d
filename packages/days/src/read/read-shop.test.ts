import { describe, expect, it } from 'vitest';
import { dayOf } from '../calendar/day-numbers.ts';
import { USUAL_SHOP } from '../calendar/shop-days.ts';
import { jobBook } from '../testing/job-book.ts';
import { readDaysOff, readShop, readWeek } from './read-shop.ts';

const day = (text: string): number => dayOf(text) ?? 0;

describe('the hours of a shop', () => {
  it('are as usual where nothing says otherwise', () => {
    expect(readShop(jobBook([]))).toEqual({ shop: USUAL_SHOP, begins: undefined, problems: [] });
  });

  it('are those of the named cells', () => {
    const { shop, begins, problems } = readShop(
      jobBook([], {
        hours_a_day: 7.5,
        day_begins: 7,
        days_worked: 'Tue - Thursday, sat',
        days_off: '2026-12-24..2027-01-01, 2027-02-16',
        start_day: 46_356,
      }),
    );
    expect(problems).toEqual([]);
    expect(begins).toBe(46_356);
    expect(shop).toEqual({
      hoursADay: 7.5,
      begins: 7,
      week: [false, true, true, true, false, true, false],
      off: [
        { from: day('2026-12-24'), to: day('2027-01-01') },
        { from: day('2027-02-16'), to: day('2027-02-16') },
      ],
    });
  });

  it('say in words what cannot be, and are as usual there', () => {
    const { shop, problems } = readShop(
      jobBook([], {
        hours_a_day: 30,
        day_begins: 20,
        days_worked: 'Mo-Fri',
        days_off: '2026-02-30',
      }),
    );
    expect(shop).toEqual(USUAL_SHOP);
    expect(problems.map(({ says }) => says)).toEqual([
      'hours_a_day should be from 0.25 to 24. It is taken to be as usual.',
      'day_begins should be an hour from 0 to 18, so that 6 hours fit in. It is taken to be as usual.',
      'days_worked: "Mo-Fri" is no day of the week. Write them as Mon-Fri or Tue, Wed, Sat. It is taken to be as usual.',
      'days_off: "2026-02-30" is no day. Write days off as 2026-12-25, or 2026-12-24..2027-01-01 for a stretch, with commas between. It is taken to be as usual.',
    ]);
  });

  it('take a single day off that was typed as a date', () => {
    const book = jobBook([], { days_off: day('2026-12-25') });
    expect(readShop(book).shop.off).toEqual([{ from: day('2026-12-25'), to: day('2026-12-25') }]);
  });

  it('may go over Sunday, and stretches of days off may not go backwards', () => {
    expect(readWeek('Sat to Mon')).toEqual([true, false, false, false, false, true, true]);
    expect(readDaysOff('2027-01-01..2026-12-24')).toMatch(/Write the earlier day first/);
  });

  it('that fill the day begin at its beginning', () => {
    expect(readShop(jobBook([], { hours_a_day: 24 })).shop).toMatchObject({
      hoursADay: 24,
      begins: 0,
    });
  });
});
