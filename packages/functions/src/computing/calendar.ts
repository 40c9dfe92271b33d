/** A day of the calendar: month and day from 1. */
export interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const BEFORE = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;

const before = (month: number): number => BEFORE[month - 1] ?? Number.NaN;

export const isLeap = (year: number): boolean =>
  year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/** Leap years up to a year, that year among them. */
export const leapYears = (year: number): number =>
  Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);

export const monthLength = (year: number, month: number): number =>
  isLeap(year) && month === 2 ? 29 : (LENGTHS[month - 1] ?? Number.NaN);

/** A month's length in a year that is not leap. */
export const commonLength = (month: number): number => LENGTHS[month - 1] ?? Number.NaN;

const sinceZero = ({ year, month, day }: Day): number =>
  365 * year + before(month) + day - 1 + leapYears(month <= 2 ? year - 1 : year);

/** Days are counted from here: 30 December 1899 is 0. */
const START = sinceZero({ year: 1899, month: 12, day: 30 });

/** A day as a number. */
export const dayNumber = (day: Day): number => sinceZero(day) - START;

/** The number of a day counted from the first of all. */
export const absolute = (day: number): number => day + START;

export const LAST_DAY = dayNumber({ year: 9999, month: 12, day: 31 });
/** The year in which the count begins: a smaller one is counted from it. */
export const FIRST_YEAR = 1900;

/** The day that a number stands for; what is behind its point is the time. */
export function dayOf(number: number): Day {
  const days = Math.floor(number) + START;
  let year = Math.floor(days / 365.2425);
  if (sinceZero({ year: year + 1, month: 1, day: 1 }) <= days) year += 1;
  else if (sinceZero({ year: year - 1, month: 1, day: 1 }) > days) year -= 1;
  const inYear = days - sinceZero({ year, month: 1, day: 1 });
  const month = monthAt(inYear - (isLeap(year) && inYear >= 59 ? 1 : 0));
  const leap = isLeap(year) && month > 2 ? 1 : 0;
  return { year, month, day: inYear - before(month) - leap + 1 };
}

/** The last month that begins no later than a day of a year that is not leap. */
function monthAt(day: number): number {
  let month = 1;
  while (month < 12 && before(month + 1) <= day) month += 1;
  return month;
}

/** The same day so many months later; it may be one the month has not. */
export function monthsLater({ year, month, day }: Day, months: number): Day {
  const all = 12 * year + month - 1 + months;
  return { year: Math.floor(all / 12), month: (all % 12) + 1, day };
}

/** Whether the calendar has it: since the reform of 1582. */
export function isDay({ year, month, day }: Day): boolean {
  if (![year, month, day].every(Number.isInteger) || year < 1582) return false;
  return month >= 1 && month <= 12 && day >= 1 && day <= monthLength(year, month);
}

export interface Time {
  readonly hours: number;
  readonly minutes: number;
  readonly seconds: number;
}

export const timeNumber = ({ hours, minutes, seconds }: Time): number =>
  ((seconds / 60 + minutes) / 60 + hours) / 24;

/** The time of a part of a day. */
export function timeOf(part: number): Time {
  const all = part * 24 * 60 * 60;
  const seconds = (Math.round((all % 60) * 100_000) / 100_000) % 60;
  const allMinutes = (all - seconds) / 60;
  const minutes = Math.round(allMinutes % 60) % 60;
  return { hours: Math.round((allMinutes - minutes) / 60), minutes, seconds };
}

export const toSecond = (part: number): number => Math.round(part * 3600 * 24) / (3600 * 24);
