import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, weekdayOf } from './day-numbers.ts';
import { DAY, HOUR } from './moments.ts';
import { BeyondCalendar, type Shop, ShopCalendar, USUAL_SHOP } from './shop-days.ts';

const MONDAY = dayOf('2026-11-30') ?? 0;
const QUARTER = HOUR / 4;

/** Shops whose days begin and end at quarters of an hour. */
const shops = fc
  .record({
    begins: fc.integer({ min: 0, max: 92 }),
    long: fc.integer({ min: 1, max: 96 }),
    week: fc
      .array(fc.boolean(), { minLength: 7, maxLength: 7 })
      .filter((week) => week.includes(true)),
    off: fc.array(fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 5 })), {
      maxLength: 3,
    }),
  })
  .map(
    ({ begins, long, week, off }): Shop => ({
      begins: begins / 4,
      hoursADay: Math.min(long, 96 - begins) / 4,
      week,
      off: off.map(([from, more]) => ({ from: MONDAY + from, to: MONDAY + from + more })),
    }),
  );

/** Whether one works in the quarter of an hour that begins at a moment: said anew, by the clock. */
function works({ begins, hoursADay, week, off }: Shop, at: number): boolean {
  const day = Math.floor(at / DAY);
  const hour = (at - day * DAY) / HOUR;
  const isOff = off.some(({ from, to }) => day >= from && day <= to);
  return week[weekdayOf(day)] === true && !isOff && hour >= begins && hour < begins + hoursADay;
}

const moments = fc.integer({ min: 0, max: 4 * 24 * 10 }).map((i) => MONDAY * DAY + i * QUARTER);

describe('the working hours of a shop', () => {
  it('are those that pass when one waits by the clock', () => {
    fc.assert(
      fc.property(shops, moments, fc.integer({ min: 1, max: 60 }), (shop, from, quarters) => {
        const calendar = new ShopCalendar(shop, MONDAY);
        let at = from;
        while (!works(shop, at)) at += QUARTER;
        expect(calendar.workStart(from)).toBe(at);
        for (let left = quarters; left > 0; at += QUARTER) if (works(shop, at)) left -= 1;
        expect(calendar.addWork(from, quarters * QUARTER)).toBe(at);
        expect(calendar.workBetween(from, at)).toBe(quarters * QUARTER);
        const by = at;
        let back = at;
        for (let left = quarters; left > 0; ) {
          back -= QUARTER;
          if (works(shop, back)) left -= 1;
        }
        expect(calendar.subtractWork(by, quarters * QUARTER)).toBe(back);
      }),
      { seed: 20, numRuns: 500 },
    );
  });

  it('promise a day on which it is done before work ends', () => {
    fc.assert(
      fc.property(shops, moments, (shop, at) => {
        const calendar = new ShopCalendar(shop, MONDAY - 1);
        let day = Math.ceil(at / DAY) - 1;
        const isOn = (one: number): boolean =>
          Array.from({ length: 96 }, (_, i) => one * DAY + i * QUARTER).some((one) =>
            works(shop, one),
          );
        while (!isOn(day) || at > (day * 24 + shop.begins + shop.hoursADay) * HOUR) day += 1;
        expect(calendar.promise(at)).toBe(day);
      }),
      { seed: 21, numRuns: 500 },
    );
  });

  it('end before the calendar does, or it is said', () => {
    const calendar = new ShopCalendar(
      { ...USUAL_SHOP, week: USUAL_SHOP.week.map(() => false) },
      MONDAY,
    );
    expect(() => calendar.workday(MONDAY)).toThrow(BeyondCalendar);
  });
});
