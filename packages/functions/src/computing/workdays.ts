import { absolute } from './calendar.ts';
import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import { type Family, least, noError, number, type Taken } from './takes.ts';
import { Failure, fail, type Value } from './values.ts';

/** Which days are free, Monday first: `1` for those that are. */
const WEEKENDS: ReadonlyMap<number, string> = new Map([
  [1, '0000011'],
  [2, '1000001'],
  [3, '1100000'],
  [4, '0110000'],
  [5, '0011000'],
  [6, '0001100'],
  [7, '0000110'],
  [11, '0000001'],
  [12, '1000000'],
  [13, '0100000'],
  [14, '0010000'],
  [15, '0001000'],
  [16, '0000100'],
  [17, '0000010'],
]);

function weekendOf(given: Value): string | Failure {
  if (typeof given === 'number') return WEEKENDS.get(given) ?? fail('NUM', SAYS.mode);
  if (typeof given !== 'string') return fail('VALUE', SAYS.wrongType);
  return /^[01]{7}$/.test(given) && given !== '1111111' ? given : fail('NUM', SAYS.weekend);
}

/** Holidays that are no free day anyway, from the first to the last. */
function holidaysOf(weekend: string, given: Matrix | undefined): readonly number[] | Failure {
  const all = given?.cells ?? [];
  const error = all.find((value) => value instanceof Failure);
  if (error instanceof Failure) return error;
  const days = new Set<number>();
  for (const value of all) {
    if (value === null) continue;
    if (typeof value !== 'number') return fail('VALUE', SAYS.wrongType);
    days.add(Math.trunc(value));
  }
  return [...days]
    .sort((a, b) => a - b)
    .filter((day) => weekend.charAt((absolute(day) - 1) % 7) === '0');
}

/** How many of sorted numbers are below one. */
function below(bound: number, sorted: readonly number[]): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if ((sorted[middle] as number) < bound) low = middle + 1;
    else high = middle;
  }
  return low;
}

function worked(start: number, end: number, weekend: string, holidays: readonly number[]): number {
  const [from, to] = [Math.floor(absolute(start)), Math.floor(absolute(end))];
  let days = 0;
  for (let i = 0; i < 7; i += 1) {
    if (weekend.charAt(i) !== '0') continue;
    days += Math.floor((to + 6 - i) / 7) - Math.floor((from - 1 + 6 - i) / 7);
  }
  return days - (below(end + 1, holidays) - below(start, holidays));
}

function networkDays(a: number, b: number, kind: Value, given: Matrix | undefined): Value {
  const [start, end] = [Math.trunc(a), Math.trunc(b)];
  const weekend = weekendOf(kind);
  if (weekend instanceof Failure) return weekend;
  const holidays = holidaysOf(weekend, given);
  if (holidays instanceof Failure) return holidays;
  return start > end
    ? -worked(end, start, weekend, holidays)
    : worked(start, end, weekend, holidays);
}

/** The day so many working days later, or earlier: found by halving. */
function workday(from: number, days: number, kind: Value, given: Matrix | undefined): Value {
  const [start, delta] = [Math.trunc(from), Math.trunc(days)];
  const weekend = weekendOf(kind);
  if (weekend instanceof Failure) return weekend;
  const holidays = holidaysOf(weekend, given);
  if (holidays instanceof Failure) return holidays;
  if (delta === 0) return start;
  const wanted = Math.abs(delta);
  const within = (span: number): number =>
    delta > 0
      ? worked(start + 1, start + span, weekend, holidays)
      : worked(start - span, start - 1, weekend, holidays);
  let [low, high] = [1, 1];
  while (within(high) < wanted) high *= 2;
  while (low + 1 < high) {
    const middle = Math.trunc((low + high) / 2);
    if (within(middle) < wanted) low = middle;
    else high = middle;
  }
  return delta > 0 ? start + high : start - high;
}

const day = least(0);
const holidays: Taken = { as: 'range', optional: true };
const weekend: Taken = { ...noError, leftOut: 1 };

export const WORKDAYS: Family = {
  NETWORKDAYS: {
    takes: [day, day, holidays],
    run: (start: number, end: number, free: Matrix | undefined) => networkDays(start, end, 1, free),
  },
  'NETWORKDAYS.INTL': { takes: [day, day, weekend, holidays], run: networkDays },
  WORKDAY: {
    takes: [day, number, holidays],
    run: (start: number, days: number, free: Matrix | undefined) => workday(start, days, 1, free),
  },
  'WORKDAY.INTL': { takes: [day, number, weekend, holidays], run: workday },
};
