import { LAST_DAY, weekdayOf } from './day-numbers.ts';
import { DAY, type Seconds, secondsOf } from './moments.ts';

/** When a shop works. */
export interface Shop {
  /** Hours at the bench in a working day. */
  readonly hoursADay: number;
  /** The hour at which a working day begins. */
  readonly begins: number;
  /** For each day of the week whether it is worked, Monday first. */
  readonly week: readonly boolean[];
  /** Days that are not worked, from the first to the last of each stretch. */
  readonly off: readonly DaysOff[];
}

/** A stretch of days. */
export interface DaysOff {
  /** The first of them. */
  readonly from: number;
  /** The last of them. */
  readonly to: number;
}

/** A shop that says nothing of its own: six hours from eight, Monday to Friday (common practice, no source). */
export const USUAL_SHOP: Shop = {
  hoursADay: 6,
  begins: 8,
  week: [true, true, true, true, true, false, false],
  off: [],
};

/** What is asked of a calendar lies beyond the years it has. */
export class BeyondCalendar extends Error {
  constructor() {
    super(
      'The work would not end before the year 10000. Look at the hours, the hours in a working day and the days off.',
    );
    this.name = 'BeyondCalendar';
  }
}

/**
 * The working hours of a shop as one stretch of work: how much of it lies before a moment, and the moment by which so
 * much is done. All that is planned goes through these two, so that an hour of work is an hour whatever lies between.
 */
export class ShopCalendar {
  /** The shop whose hours they are. */
  readonly shop: Shop;
  /** The first day that is counted from. */
  readonly #origin: number;
  readonly #begins: Seconds;
  /** Working seconds of a day. */
  readonly #long: Seconds;
  /** Working days, as far as they were asked for. */
  readonly #worked: number[] = [];
  /** For each day since the origin how many working days lie before it. */
  readonly #before: number[] = [];

  /** @param origin the first day that anything is asked of */
  constructor(shop: Shop, origin: number) {
    this.shop = shop;
    this.#origin = origin;
    this.#begins = secondsOf(shop.begins);
    this.#long = secondsOf(shop.hoursADay);
  }

  /** Whether a day is worked. */
  isWorked(day: number): boolean {
    const { week, off } = this.shop;
    return week[weekdayOf(day)] === true && !off.some(({ from, to }) => from <= day && day <= to);
  }

  /** The first working day that is not before a day. */
  workday(day: number): number {
    const before = this.#countBefore(day);
    return this.#nth(before);
  }

  /** When work begins on a working day. */
  opens(day: number): Seconds {
    return day * DAY + this.#begins;
  }

  /** When work ends on a working day. */
  closes(day: number): Seconds {
    return this.opens(day) + this.#long;
  }

  /** The first moment from `at` on at which one works. */
  workStart(at: Seconds): Seconds {
    return this.#startAfter(this.#workBefore(at));
  }

  /** When work of so many seconds is done that is begun at a moment; no work is done at once, at night too. */
  addWork(at: Seconds, seconds: Seconds): Seconds {
    return seconds === 0 ? at : this.#endOf(this.#workBefore(at) + seconds);
  }

  /** The latest moment at which work of so many seconds has to be begun, to be done by a moment. */
  subtractWork(at: Seconds, seconds: Seconds): Seconds {
    return seconds === 0 ? at : this.#startAfter(this.#workBefore(at) - seconds);
  }

  /** Working seconds between two moments. */
  workBetween(from: Seconds, to: Seconds): Seconds {
    return this.#workBefore(to) - this.#workBefore(from);
  }

  /**
   * The day that can be promised for what is done at a moment: that day, where it is done before work ends on it, or
   * the next that is worked. Nobody fetches a table on a Sunday night.
   */
  promise(at: Seconds): number {
    const day = Math.ceil(at / DAY) - 1;
    return this.isWorked(day) && at <= this.closes(day) ? day : this.workday(day + 1);
  }

  /** Working seconds since the origin. */
  #workBefore(at: Seconds): Seconds {
    const day = Math.floor(at / DAY);
    const whole = this.#countBefore(day) * this.#long;
    if (!this.isWorked(day)) return whole;
    return whole + Math.min(Math.max(at - this.opens(day), 0), this.#long);
  }

  /** The moment by which so much work is done: the end of a day rather than the next morning. */
  #endOf(work: Seconds): Seconds {
    const days = Math.ceil(work / this.#long) - 1;
    return this.opens(this.#nth(days)) + work - days * this.#long;
  }

  /** The moment at which work goes on after so much of it: a morning rather than the end of the day before. */
  #startAfter(work: Seconds): Seconds {
    const days = Math.floor(work / this.#long);
    return this.opens(this.#nth(days)) + work - days * this.#long;
  }

  #countBefore(day: number): number {
    const at = day - this.#origin;
    if (at < 0) throw new RangeError('a day before the calendar begins');
    this.#reach(() => this.#before.length > at);
    return this.#before[at] ?? 0;
  }

  /** A working day by its number since the origin. */
  #nth(count: number): number {
    if (count < 0) throw new RangeError('work before the calendar begins');
    this.#reach(() => this.#worked.length > count);
    return this.#worked[count] ?? 0;
  }

  #reach(isThere: () => boolean): void {
    while (!isThere()) {
      const day = this.#origin + this.#before.length;
      if (day > LAST_DAY) throw new BeyondCalendar();
      this.#before.push(this.#worked.length);
      if (this.isWorked(day)) this.#worked.push(day);
    }
  }
}
