import { DAY, HOUR } from '../calendar/moments.ts';
import { takesTime } from './operation.ts';
import type { Placed, Schedule } from './schedule.ts';

/** What there is to do on a day. */
export interface DayOfWork {
  /** Which day it is. */
  readonly day: number;
  /** The shop works on it. */
  readonly isWorked: boolean;
  /** In hand on that day, in the order in which they are begun. */
  readonly inHand: readonly {
    readonly placed: Placed;
    /** Hours of work at it on that day. */
    readonly hours: number;
    /** The hour of the day at which one turns to it. */
    readonly from: number;
    /** It is begun on that day. */
    readonly begins: boolean;
    /** The work of it ends on that day. */
    readonly ends: boolean;
  }[];
  /** Left alone on that day, or a part of it. */
  readonly waiting: readonly Placed[];
  /** Begun on a later day for want of hands or of a machine, though all that comes before is done by that day's end. */
  readonly couldBegin: readonly Placed[];
}

/** What there is to do on a day: on the next one, to lay things out the evening before. */
export function workOn(schedule: Schedule, day: number): DayOfWork {
  const { calendar } = schedule.inside;
  const isWorked = day >= schedule.asked && calendar.isWorked(day);
  const [opens, closes] = [calendar.opens(day), calendar.closes(day)];
  const placed = schedule.placed.filter(({ operation }) => takesTime(operation));
  const inHand = placed
    .map((one) => {
      const from = Math.max(one.seconds.start, opens);
      const to = Math.min(one.seconds.worked, closes);
      return { one, from, to };
    })
    .filter(({ from, to }) => isWorked && from < to)
    .sort((a, b) => a.from - b.from);
  return {
    day,
    isWorked,
    inHand: inHand.map(({ one, from, to }) => ({
      placed: one,
      hours: (to - from) / HOUR,
      from: (from - day * DAY) / HOUR,
      begins: one.seconds.start >= opens,
      ends: one.seconds.worked <= closes,
    })),
    waiting: placed.filter(
      ({ seconds: { worked, end } }) => worked < end && worked < (day + 1) * DAY && end > day * DAY,
    ),
    couldBegin: placed.filter(
      ({ operation, seconds: { ready, start } }) =>
        isWorked && operation.handsOn > 0 && ready < closes && start >= closes,
    ),
  };
}
