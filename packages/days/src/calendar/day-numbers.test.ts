import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, dayOfClock, LAST_DAY, sayDay, weekdayOf, written } from './day-numbers.ts';

/** Days of a Gregorian year, by its rule: every fourth, but no hundredth that is no four hundredth. */
const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
const MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const longOf = (year: number, month: number): number =>
  month === 2 && isLeap(year) ? 29 : (MONTHS[month - 1] ?? 0);

/** C. Zeller, Kalender-Formeln, 1887; from memory: Saturday 0. */
function zeller(year: number, month: number, inMonth: number): number {
  const [y, m] = month < 3 ? [year - 1, month + 12] : [year, month];
  const [k, j] = [y % 100, Math.floor(y / 100)];
  return (
    (inMonth + Math.floor((13 * (m + 1)) / 5) + k + Math.floor(k / 4) + Math.floor(j / 4) + 5 * j) %
    7
  );
}

describe('days as numbers', () => {
  it('follow each other through all months of 400 years and beyond, on the right days of the week', () => {
    let day = dayOf('1900-01-01') ?? 0;
    for (let year = 1900; year <= 2310; year += 1) {
      for (let month = 1; month <= 12; month += 1) {
        const long = longOf(year, month);
        for (const inMonth of [1, 28, long]) {
          const text = `${year}-${String(month).padStart(2, '0')}-${String(inMonth).padStart(2, '0')}`;
          expect(dayOf(text)).toBe(day + inMonth - 1);
          expect(written(day + inMonth - 1)).toBe(text);
          expect(weekdayOf(day + inMonth - 1)).toBe((zeller(year, month, inMonth) + 5) % 7);
        }
        expect(dayOf(`${year}-${month}-${long + 1}`)).toBeUndefined();
        day += long;
      }
    }
  });

  it('are counted as cells count them', () => {
    // 1899-12-30 is the null date of OpenFormula (part 4, 4.3.3); day 60 is 1900-02-28's next but no 29 February.
    expect(dayOf('1899-12-30')).toBe(0);
    expect(dayOf('1900-03-01')).toBe(61);
    expect(written(LAST_DAY)).toBe('9999-12-31');
    expect(dayOf('1899-12-29')).toBeUndefined();
    expect(dayOf('30 Nov 2026')).toBeUndefined();
    expect(dayOf('2026-00-10')).toBeUndefined();
  });

  it('are those of the clock on the wall, at whatever hour', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 24 * 60 * 400 }), (minutes) => {
        const now = new Date(2026, 0, 1, 0, minutes);
        const text = `${now.getFullYear()}-${now.getMonth() + 1}-${now.getDate()}`;
        expect(dayOfClock(now)).toBe(dayOf(text));
      }),
      { seed: 20 },
    );
  });

  it('are said in words', () => {
    expect(sayDay(dayOf('2028-02-29') ?? 0)).toBe('Tue 29 Feb 2028');
  });
});
