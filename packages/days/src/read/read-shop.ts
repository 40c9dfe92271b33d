import type { CellValue, CellView, OpenWorkbook } from '@kerfbook/workbook';
import { dayOf, WEEKDAYS, written } from '../calendar/day-numbers.ts';
import { type DaysOff, type Shop, USUAL_SHOP } from '../calendar/shop-days.ts';

/** What is read of an open workbook for the hours of its shop. */
export type ShopHoursSource = Pick<OpenWorkbook, 'named'>;

/** When the shop of a workbook works, and what of it cannot be read. */
export interface ShopReading {
  /** The hours and days it works. */
  readonly shop: Shop;
  /** The day the work begins, where the workbook says so. */
  readonly begins: number | undefined;
  /** What cannot be read, by the name of its cell. */
  readonly problems: readonly { readonly name: string; readonly says: string }[];
}

const FULL = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

/**
 * Reads the named cells that say when a shop works: `hours_a_day`, `day_begins` (hours since midnight), `days_worked`
 * (`Mon-Fri, Sun`), `days_off` (`2026-12-24..2027-01-01, 2027-01-06`), and `start_day`. What is not there is as usual.
 */
export function readShop(source: ShopHoursSource): ShopReading {
  const problems: { name: string; says: string }[] = [];
  const trouble = (name: string, says: string): undefined => {
    problems.push({ name, says });
    return undefined;
  };
  const number = (name: string, wants: string, fits: (value: number) => boolean) => {
    const value = source.named(name)?.value;
    if (value === undefined || value.kind === 'empty') return undefined;
    if (value.kind === 'number' && fits(value.number)) return value.number;
    return trouble(name, `${name} should be ${wants}${got(value)}. It is taken to be as usual.`);
  };
  const words = <T>(name: string, read: (text: string) => T | string): T | undefined => {
    const cell = source.named(name);
    const text = cell === undefined ? '' : textOf(cell);
    if (text === '') return undefined;
    const found = read(text);
    if (typeof found === 'string') {
      return trouble(name, `${name}: ${found} It is taken to be as usual.`);
    }
    return found;
  };
  const hoursADay =
    number('hours_a_day', 'from 0.25 to 24', (one) => one >= 0.25 && one <= 24) ??
    USUAL_SHOP.hoursADay;
  const latest = 24 - hoursADay;
  const begins =
    number(
      'day_begins',
      `an hour from 0 to ${latest}, so that ${hoursADay} hours fit in`,
      (one) => one >= 0 && one <= latest,
    ) ?? Math.min(USUAL_SHOP.begins, latest);
  const week = words('days_worked', readWeek) ?? USUAL_SHOP.week;
  const off = words('days_off', readDaysOff) ?? USUAL_SHOP.off;
  const start = number('start_day', 'a day, such as 2026-11-30', (one) => one >= 0);
  return {
    shop: { hoursADay, begins, week, off },
    begins: start === undefined ? undefined : Math.floor(start),
    problems,
  };
}

/** What a cell says; a single day may have been typed as a date. */
function textOf({ value, shown, quantity }: CellView): string {
  if (value.kind === 'empty') return '';
  if (value.kind === 'text') return value.text.trim();
  return value.kind === 'number' && quantity === 'date'
    ? written(Math.floor(value.number))
    : shown.text.trim();
}

const got = (value: CellValue): string =>
  value.kind === 'error' ? `, and is ${value.error.word}` : '';

/** Days of the week that are worked, such as `Mon-Fri` or `Tue, Wed, Sat`; a sentence where they cannot be read. */
export function readWeek(text: string): readonly boolean[] | string {
  const week = WEEKDAYS.map(() => false);
  for (const word of text.split(',')) {
    const ends = word.split(/\s*(?:-|–|\bto\b)\s*/).map(weekdayIn);
    const [from, to = from] = ends;
    if (from === undefined || to === undefined || ends.length > 2) {
      return `"${word.trim()}" is no day of the week. Write them as Mon-Fri or Tue, Wed, Sat.`;
    }
    for (let i = from; ; i = (i + 1) % 7) {
      week[i] = true;
      if (i === to) break;
    }
  }
  return week;
}

/** A day of the week by its name or the beginning of it, three letters or more. */
function weekdayIn(word: string): number | undefined {
  const plain = word.trim().toLowerCase().replace(/\.$/, '');
  const found = FULL.findIndex((full) => plain.length >= 3 && full.startsWith(plain));
  return found < 0 ? undefined : found;
}

/** Days off, such as `2026-12-24..2027-01-01, 2027-01-06`; a sentence where they cannot be read. */
export function readDaysOff(text: string): readonly DaysOff[] | string {
  const off: DaysOff[] = [];
  for (const word of text.split(/[,;\n]/)) {
    if (word.trim() === '') continue;
    const ends = word.split('..').map(dayOf);
    const [from, to = from] = ends;
    if (from === undefined || to === undefined || ends.length > 2) {
      return `"${word.trim()}" is no day. Write days off as 2026-12-25, or 2026-12-24..2027-01-01 for a stretch, with commas between.`;
    }
    if (to < from) return `"${word.trim()}" ends before it begins. Write the earlier day first.`;
    off.push({ from, to });
  }
  return off;
}
