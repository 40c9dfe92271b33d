import { MONTHS } from '@kerfbook/workbook';

/** How long a quote holds where nothing else is said, days: common practice, no source. */
export const VALID_DAYS = 30;
/** A quote that holds longer is a slip of the pen: common practice, no source. */
export const MOST_VALID_DAYS = 730;

const DAY = 86_400_000;

/** ms since 1970 of the noon of a day, `2026-03-14`; undefined where there is no such day. */
function noonOf(day: string): number | undefined {
  const [, y, m, d] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day) ?? [];
  if (y === undefined) return undefined;
  const time = Date.UTC(Number(y), Number(m) - 1, Number(d), 12);
  return isoOf(time) === day ? time : undefined;
}

const isoOf = (time: number): string => new Date(time).toISOString().slice(0, 10);

/** There is such a day. */
export const isDay = (day: string): boolean => noonOf(day) !== undefined;

/** So many days after one. */
export function dayAfter(day: string, days: number): string {
  const noon = noonOf(day);
  if (noon === undefined) throw new RangeError(`There is no day ${day}.`);
  return isoOf(noon + days * DAY);
}

/** A day with its month in letters, which no country reads another way: `14 March 2026`. */
export function dayWords(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1]?.[0] ?? month} ${year}`;
}

/** `1 day`, `30 days`. */
export const daysWords = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;
