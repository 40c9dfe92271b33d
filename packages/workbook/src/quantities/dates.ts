import type { UnitSystem } from '@kerfbook/wood';

const DAY = 86_400_000;

/** 1899-12-30: the null date that OpenFormula documents usually count days from (part 4, 4.3.3). */
const NULL_DATE = Date.UTC(1899, 11, 30);
const FIRST_YEAR = -62_167_219_200_000;
const AFTER_LAST_YEAR = 253_402_300_800_000;

/** Month by month as people call them, in full and in short. */
export const MONTHS: readonly (readonly [full: string, short: string])[] = [
  ['January', 'Jan'],
  ['February', 'Feb'],
  ['March', 'Mar'],
  ['April', 'Apr'],
  ['May', 'May'],
  ['June', 'Jun'],
  ['July', 'Jul'],
  ['August', 'Aug'],
  ['September', 'Sep'],
  ['October', 'Oct'],
  ['November', 'Nov'],
  ['December', 'Dec'],
];

/** Which of two numbers with strokes between them is the month: `3/14` or `14/3`. */
type Order = 'month first' | 'day first';

/** What decides how a date is read. */
export interface DateHabits {
  readonly system: UnitSystem;
  readonly currency: string;
  /** The year of dates that are written without one; this year where left out. */
  readonly year?: number;
}

/** A date as it was written. */
export type DateRead =
  | {
      readonly kind: 'day';
      /** Days since 1899-12-30. */
      readonly days: number;
      /** Its year was not written. */
      readonly yearless: boolean;
    }
  /** It may be two days, the one with the month first before the other. */
  | { readonly kind: 'two'; readonly days: readonly [number, number] }
  /** The calendar has no such day: `February 2026 has 28 days`. */
  | { readonly kind: 'none'; readonly has: string };

/**
 * Whether the month stands first, by the workbook's units and money: dollars and inches go with it, metres and
 * other money with the day first (common practice, no source). `undefined`: the two do not agree.
 */
function orderOf({ system, currency }: DateHabits): Order | undefined {
  const dollars = currency === 'USD';
  if ((system === 'us') !== dollars) return undefined;
  return dollars ? 'month first' : 'day first';
}

/** `2026-03-14` (ISO 8601), and the same with strokes or points. */
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/;
/** `3/14/2026`, `14.3.2026`, `3-14-2026`, and two digits for the year after strokes: `3/14/26`. */
const NUMBERS = /^(\d{1,2})(?:([-/.])(\d{1,2})\2(\d{4})|\/(\d{1,2})\/(\d{2}))$/;
/** `14.3.` and, where a date is asked for, `3/14` and `14.3`. */
const YEARLESS = /^(\d{1,2})\.(\d{1,2})\.$/;
const YEARLESS_BARE = /^(\d{1,2})([/.])(\d{1,2})$/;
/** `14 March 2026`, `14-Mar-26`, `14th Mar`. */
const DAY_MONTH = /^(\d{1,2})(?:st|nd|rd|th|\.)?[ -]?([a-z]{3,9})\.?(?:,?[ -](\d{4}|\d{2}))?$/i;
/** `Mar 14 2026`, `March 14th, 2026`, `Mar 14`. */
const MONTH_DAY = /^([a-z]{3,9})\.?[ -]?(\d{1,2})(?:st|nd|rd|th)?(?:,? ?(\d{4}))?$/i;

/**
 * Reads plain text as a date, however it is written; `undefined` when it is none.
 * @param asked a date is what is asked for, so that `3/14` is no fraction
 */
export function readDate(plain: string, habits: DateHabits, asked = false): DateRead | undefined {
  const first = YEAR_FIRST.exec(plain);
  if (first !== null) return day(Number(first[1]), Number(first[3]), Number(first[4]));
  const numbers = NUMBERS.exec(plain);
  if (numbers !== null) {
    const [, one, between = '/', two, year, twoAgain, short] = numbers;
    const full = Number(year ?? Number(short) + 2000);
    return inOrder(Number(one), Number(two ?? twoAgain), full, between === '.', habits);
  }
  const now = habits.year ?? new Date().getFullYear();
  const bare = YEARLESS.exec(plain);
  if (bare !== null) return inOrder(Number(bare[1]), Number(bare[2]), now, true, habits, true);
  const strokes = asked ? YEARLESS_BARE.exec(plain) : null;
  if (strokes !== null) {
    const [, one, between, two] = strokes;
    return inOrder(Number(one), Number(two), now, between === '.', habits, true);
  }
  const [, inMonth, word, year] = DAY_MONTH.exec(plain) ?? monthDay(plain);
  const month = monthOf(word);
  if (month === undefined) return undefined;
  const full = year === undefined ? now : Number(year) + (year.length === 2 ? 2000 : 0);
  return day(full, month, Number(inMonth), year === undefined);
}

function monthDay(plain: string): readonly (string | undefined)[] {
  const [, word, inMonth, year] = MONTH_DAY.exec(plain) ?? [];
  return [undefined, inMonth, word, year];
}

/** The number of a month by its name, in full or at least three letters of it. */
function monthOf(word: string | undefined): number | undefined {
  if (word === undefined) return undefined;
  const low = word.toLowerCase();
  const found = MONTHS.findIndex(([full, short]) =>
    [full.toLowerCase(), short.toLowerCase(), ...(short === 'Sep' ? ['sept'] : [])].includes(low),
  );
  return found < 0 ? undefined : found + 1;
}

/** Two numbers that are day and month: by what they can be, else by what the workbook goes by. */
function inOrder(
  one: number,
  two: number,
  year: number,
  points: boolean,
  habits: DateHabits,
  yearless = false,
): DateRead | undefined {
  // With points between them the day is always first.
  if (points) return day(year, two, one, yearless);
  const monthFirst = day(year, one, two, yearless);
  const dayFirst = day(year, two, one, yearless);
  if (monthFirst?.kind !== 'day') {
    const none = orderOf(habits) === 'day first' ? dayFirst : monthFirst;
    return dayFirst?.kind === 'day' ? dayFirst : (none ?? monthFirst ?? dayFirst);
  }
  if (dayFirst?.kind !== 'day' || one === two) return monthFirst;
  switch (orderOf(habits)) {
    case 'month first':
      return monthFirst;
    case 'day first':
      return dayFirst;
    default:
      return { kind: 'two', days: [monthFirst.days, dayFirst.days] };
  }
}

/** A day of the calendar; `undefined` where no month could have it. */
function day(year: number, month: number, inMonth: number, yearless = false): DateRead | undefined {
  const [name] = MONTHS[month - 1] ?? [];
  if (name === undefined || inMonth < 1 || inMonth > 31) return undefined;
  const time = new Date(0);
  time.setUTCFullYear(year, month, 0);
  const length = time.getUTCDate();
  if (inMonth > length) return { kind: 'none', has: `${name} ${year} has ${length} days` };
  time.setUTCFullYear(year, month - 1, inMonth);
  return { kind: 'day', days: Math.round((time.getTime() - NULL_DATE) / DAY), yearless };
}

/** Denominators of fractions as they are typed: of a tape, of a rule, of a scale. */
const FRACTIONS: ReadonlySet<number> = new Set([2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 64, 128]);
const TAPE: ReadonlySet<number> = new Set([2, 4, 8, 16, 32, 64]);

/**
 * The day that a fraction may have been meant as: `3/14`, which is on no tape, and `14/3`. `3/4`, `5/16` and
 * `5/4` are fractions and nothing else.
 */
export function dayOfFraction(plain: string, habits: DateHabits): number | undefined {
  const found = /^(\d{1,2})\/(\d{1,2})$/.exec(plain);
  if (found === null) return undefined;
  const [over, under] = [Number(found[1]), Number(found[2])];
  const isFraction = over > 12 ? TAPE.has(under) : FRACTIONS.has(under);
  if (isFraction) return undefined;
  const read = readDate(plain, habits, true);
  if (read?.kind === 'two') return read.days[0];
  return read?.kind === 'day' ? read.days : undefined;
}

/** The day of a number of days since 1899-12-30; `undefined` outside the years 0000 to 9999. */
export function writeDate(days: number): string | undefined {
  const time = NULL_DATE + Math.floor(days) * DAY;
  if (!(time >= FIRST_YEAR && time < AFTER_LAST_YEAR)) return undefined;
  return new Date(time).toISOString().slice(0, 10);
}

/** A date as it is said: `14 March 2026`. */
export function sayDate(days: number): string {
  const written = writeDate(days) ?? '';
  const [year = '', month, inMonth] = written.split('-');
  const [name = ''] = MONTHS[Number(month) - 1] ?? [];
  return `${Number(inMonth)} ${name} ${year}`;
}
