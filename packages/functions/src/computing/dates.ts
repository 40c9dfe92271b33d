import {
  absolute,
  commonLength,
  type Day,
  dayNumber,
  dayOf,
  FIRST_YEAR,
  isDay,
  isLeap,
  LAST_DAY,
  leapYears,
  monthLength,
  monthsLater,
  timeNumber,
  timeOf,
  toSecond,
} from './calendar.ts';
import { SAYS } from './says.ts';
import { type Computing, type Family, least, logical, number, text } from './takes.ts';
import { fail, type Value } from './values.ts';
import { WORKDAYS } from './workdays.ts';

const day = least(0);
const ofDay = (run: (day: Day) => Value): Computing => ({
  takes: [day],
  run: (value: number) => run(dayOf(value)),
});
const ofTime = (read: (time: ReturnType<typeof timeOf>) => number): Computing => ({
  takes: [day],
  run: (value: number) => read(timeOf(toSecond(value) % 1)),
});

const bounded = (value: number): Value =>
  value <= LAST_DAY && value >= 0 ? value : fail('NUM', SAYS.dateBounds);

function dated(year: number, month: number, inMonth: number): Value {
  const shown = Math.trunc(year);
  const over = Math.floor((Math.trunc(month) - 1) / 12);
  const first = {
    year: (shown < FIRST_YEAR ? shown + FIRST_YEAR : shown) + over,
    month: Math.trunc(month) - over * 12,
    day: 1,
  };
  if (!isDay(first)) return fail('VALUE', SAYS.date);
  return bounded(dayNumber(first) + (Math.trunc(inMonth) - 1));
}

function timed(hours: number, minutes: number, seconds: number): Value {
  const value = timeNumber({
    hours: Math.trunc(hours),
    minutes: Math.trunc(minutes),
    seconds: Math.trunc(seconds),
  });
  return value < 0 ? fail('NUM', SAYS.negativeTime) : value % 1;
}

const shifted = (value: number, months: number): Value => {
  const later = monthsLater(dayOf(value), months);
  return bounded(dayNumber({ ...later, day: Math.min(later.day, commonLength(later.month)) }));
};

const monthEnd = (value: number, months: number): Value => {
  const later = monthsLater(dayOf(value), months);
  return bounded(dayNumber({ ...later, day: monthLength(later.year, later.month) }));
};

/** On which day weeks begin, by the number that a maker gives. */
const WEEK_BEGINS: ReadonlyMap<number, number> = new Map([
  [1, 0],
  [2, 1],
  [11, 1],
  [12, 2],
  [13, 3],
  [14, 4],
  [15, 5],
  [16, 6],
  [17, 0],
]);

function weekday(value: number, kind: number): Value {
  const at = Math.floor(absolute(value));
  if (kind === 3) return (at - 1) % 7;
  const begins = WEEK_BEGINS.get(kind);
  return begins === undefined ? fail('NUM', SAYS.mode) : ((at - begins) % 7) + 1;
}

const newYear = (value: number): number =>
  absolute(dayNumber({ year: dayOf(value).year, month: 1, day: 1 }));

function isoWeek(value: number): number {
  const at = Math.floor(absolute(value));
  const first = newYear(value);
  const thursday = first + ((((4 - first) % 7) + 7) % 7);
  const week = Math.floor((at - 1) / 7) - Math.floor((thursday - 1) / 7) + 1;
  return week === 0 ? isoWeek(value - 7) + 1 : week;
}

function weekNumber(value: number, kind: number): Value {
  if (kind === 21) return isoWeek(value);
  const begins = WEEK_BEGINS.get(kind);
  if (begins === undefined) return fail('NUM', SAYS.mode);
  const at = Math.floor(absolute(value));
  return Math.floor((at - begins) / 7) - Math.floor((newYear(value) - begins) / 7) + 1;
}

const isMonthEnd = ({ year, month, day: at }: Day): boolean => at === monthLength(year, month);
// Numbers that no calendar has are days of any length: those stay.
const without31 = (one: Day): Day => (one.day === 31 ? { ...one, day: 30 } : one);
const atMost30 = (one: Day): Day => ({ ...one, day: Math.min(30, one.day) });

/** Days between two, each month as thirty. */
function days360(start: number, end: number, european: boolean): number {
  let [from, to] = [dayOf(start), dayOf(end)];
  if (european) [from, to] = [atMost30(from), atMost30(to)];
  else {
    from = without31(from);
    if (from.day === 30) to = without31(to);
    if (from.month === 2 && isMonthEnd(from)) {
      from = { ...from, day: 30 };
      if (to.month === 2 && isMonthEnd(to)) to = { ...to, day: 30 };
    }
  }
  return 360 * (to.year - from.year) + 30 * (to.month - from.month) + to.day - from.day;
}

const leapDaysTo = (one: Day): number =>
  leapYears(one.month > 2 || (one.month === 2 && one.day >= 29) ? one.year : one.year - 1);

/** How long a year is that reaches from one day to another. */
function yearLength(from: Day, to: Day): number {
  if (from.year === to.year) return isLeap(from.year) ? 366 : 365;
  const more =
    from.year + 1 !== to.year ||
    from.month < to.month ||
    (from.month === to.month && from.day < to.day);
  if (more) {
    return (leapYears(to.year) - leapYears(from.year - 1)) / (to.year - from.year + 1) + 365;
  }
  return leapDaysTo(to) === leapDaysTo({ ...from, day: from.day - 1 }) ? 365 : 366;
}

function yearPart(given: number, until: number, basis: number): Value {
  const [a, b] = [Math.trunc(given), Math.trunc(until)];
  const [start, end] = a > b ? [b, a] : [a, b];
  if (basis === 0) return days360(start, end, false) / 360;
  if (basis === 4) return days360(start, end, true) / 360;
  if (basis === 1) return (end - start) / yearLength(dayOf(start), dayOf(end));
  return (end - start) / (basis === 2 ? 360 : 365);
}

function between(start: number, end: number, unit: string): Value {
  if (start > end) return fail('NUM', SAYS.startEnd);
  const days = Math.floor(end) - Math.floor(start);
  if (unit === 'D') return days;
  const [from, to] = [dayOf(start), dayOf(end)];
  const months = to.month - from.month - (to.day < from.day ? 1 : 0);
  const isPast = to.month > from.month || (to.month === from.month && to.day >= from.day);
  switch (unit) {
    case 'M':
      return (to.year - from.year) * 12 + months;
    case 'YM':
      return (12 + months) % 12;
    case 'Y':
      return to.year - from.year - (isPast ? 0 : 1);
    case 'MD': {
      if (to.day >= from.day) return to.day - from.day;
      const [month, year] = to.month === 1 ? [12, to.year - 1] : [to.month - 1, to.year];
      return monthLength(year, month) + to.day - from.day;
    }
    case 'YD':
      if (isPast) return Math.floor(end) - dayNumber({ ...from, year: to.year });
      return days - 365 * (to.year - from.year - 1) - leapYears(to.year - 1) + leapYears(from.year);
    default:
      return fail('NUM', SAYS.mode);
  }
}

/** Seconds as years, months of thirty days, days and a time. */
function interval(value: number): Value {
  let rest = Math.trunc(value);
  const part = (size: number): number => {
    const left = rest % size;
    rest = Math.trunc(rest / size);
    return left;
  };
  const parts = [60, 60, 24, 30, 12].map(part);
  const [seconds = 0, minutes = 0, hours = 0, days = 0, months = 0] = parts;
  const told = (count: number, sign: string): string => (count > 0 ? `${count}${sign}` : '');
  return `P${told(rest, 'Y')}${told(months, 'M')}${told(days, 'D')}T${told(hours, 'H')}${told(minutes, 'M')}${told(seconds, 'S')}`;
}

/** Words are no date here: an entry is read before it is a formula's. */
const noDate: Computing = { takes: [text], run: () => fail('VALUE', SAYS.dateTime) };

/** A day and a time as they are here. */
function now(): { readonly day: number; readonly time: number } {
  const date = new Date(Date.now());
  return {
    day: dayNumber({
      year: date.getFullYear(),
      month: date.getMonth() + 1,
      day: date.getDate(),
    }),
    time: timeNumber({
      hours: date.getHours(),
      minutes: date.getMinutes(),
      seconds: date.getSeconds(),
    }),
  };
}

/** Days and times, as numbers of days since 30 December 1899. */
export const DATES: Family = {
  TODAY: { takes: [], changes: true, run: () => now().day },
  NOW: {
    takes: [],
    changes: true,
    run: () => {
      const { day: date, time } = now();
      return time + date;
    },
  },
  DATE: { takes: [number, number, number], run: dated },
  TIME: { takes: [number, number, number], run: timed },
  DATEVALUE: noDate,
  TIMEVALUE: noDate,
  YEAR: ofDay(({ year }) => year),
  MONTH: ofDay(({ month }) => month),
  DAY: ofDay((one) => one.day),
  HOUR: ofTime(({ hours }) => hours),
  MINUTE: ofTime(({ minutes }) => minutes),
  SECOND: ofTime(({ seconds }) => seconds),
  EDATE: { takes: [day, number], run: shifted },
  EOMONTH: { takes: [day, number], run: monthEnd },
  DAYS: {
    takes: [day, day],
    run: (end: number, start: number) => Math.trunc(end) - Math.trunc(start),
  },
  DAYS360: { takes: [day, day, { ...logical, leftOut: false }], run: days360 },
  DATEDIF: { takes: [day, day, text], run: between },
  YEARFRAC: {
    takes: [day, day, { as: 'number', whole: true, least: 0, most: 4, leftOut: 0 }],
    run: yearPart,
  },
  WEEKDAY: { takes: [day, { ...number, leftOut: 1 }], run: weekday },
  WEEKNUM: { takes: [day, { ...number, leftOut: 1 }], run: weekNumber },
  ISOWEEKNUM: { takes: [day], run: isoWeek },
  INTERVAL: { takes: [day], run: interval },
  ...WORKDAYS,
};
