/** Seconds of an hour and of a day: work is reckoned in whole seconds, so that what meets, meets to the last bit. */
export const HOUR = 3600;
export const DAY = 24 * HOUR;

/** A moment, as a day and an hour of it. */
export interface Moment {
  /** Days since 1899-12-30, as cells count them. */
  readonly day: number;
  /** Hours since its midnight; 24 where something ends with the day. */
  readonly hour: number;
}

/** Seconds since the midnight that began day 0. */
export type Seconds = number;

/** The moment at which something begins. */
export function beginOf(at: Seconds): Moment {
  const day = Math.floor(at / DAY);
  return { day, hour: (at - day * DAY) / HOUR };
}

/** The moment at which something ends: midnight belongs to the day before it. */
export function endOf(at: Seconds): Moment {
  const day = Math.ceil(at / DAY) - 1;
  return { day, hour: (at - day * DAY) / HOUR };
}

/** Hours as whole seconds. */
export const secondsOf = (hours: number): Seconds => Math.round(hours * HOUR);

/** An hour of the day as a clock shows it, to the minute: `08:00`. */
export function clock(hour: number): string {
  const minutes = Math.round(hour * 60);
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
