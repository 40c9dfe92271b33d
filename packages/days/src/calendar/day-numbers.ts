/**
 * Days as numbers, counted as cells count them: 1899-12-30 is 0. Such a number is a day of the calendar and of no
 * time zone: whatever is asked of `Date` here is asked in UTC, where every day has 24 hours.
 */
const NULL_DATE = Date.UTC(1899, 11, 30);
const MILLISECONDS = 86_400_000;
/** 1899-12-30 was a Saturday. */
const NULL_WEEKDAY = 5;

/** The last day that is counted here: 9999-12-31. */
export const LAST_DAY = 2_958_465;

/** Days of the week in short, Monday first. */
export const WEEKDAYS: readonly string[] = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** The number of a day written `2026-11-30`; undefined where the calendar has no such day. */
export function dayOf(written: string): number | undefined {
  const found = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(written.trim());
  if (found === null) return undefined;
  const [year, month, inMonth] = [Number(found[1]), Number(found[2]), Number(found[3])];
  const time = new Date(0).setUTCFullYear(year, month - 1, inMonth);
  const day = Math.round((time - NULL_DATE) / MILLISECONDS);
  const fits = partsOf(day);
  if (fits.month !== month || fits.inMonth !== inMonth || day < 0) return undefined;
  return day;
}

/** The number of the day that a clock shows where it hangs: its own year, month and day, not those of UTC. */
export const dayOfClock = (now: Date): number =>
  Math.round(
    (Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) - NULL_DATE) / MILLISECONDS,
  );

interface DayParts {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly inMonth: number;
}

function partsOf(day: number): DayParts {
  const date = new Date(NULL_DATE + day * MILLISECONDS);
  return {
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    inMonth: date.getUTCDate(),
  };
}

const two = (number: number): string => String(number).padStart(2, '0');

/** A day as it is written in files: `2026-11-30`. */
export function written(day: number): string {
  const { year, month, inMonth } = partsOf(day);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(inMonth)}`;
}

/** Which day of the week, Monday 0 and Sunday 6. */
export const weekdayOf = (day: number): number => (((day + NULL_WEEKDAY) % 7) + 7) % 7;

/** A day as it is said: `Mon 30 Nov 2026`. */
export function sayDay(day: number): string {
  const { year, month, inMonth } = partsOf(day);
  return `${WEEKDAYS[weekdayOf(day)]} ${inMonth} ${MONTHS[month - 1]} ${year}`;
}
