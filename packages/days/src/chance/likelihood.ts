import { numbersFrom, triangular } from '@kerfbook/studies';
import { secondsOf } from '../calendar/moments.ts';
import { endsOfJobs } from '../plan/critical-path.ts';
import { earliest } from '../plan/network.ts';
import type { Schedule } from '../plan/schedule.ts';

/** How many tries, unless another number is asked for. */
export const USUAL_DRAWS = 10_000;
/** More tries than this are not made at once. */
export const MOST_DRAWS = 1_000_000;

/** How likely a job is done by which day. */
export interface Likelihood {
  /** How many tries were made. */
  readonly draws: number;
  /** What the tries were drawn from. */
  readonly seed: number;
  /** The day by which it is done in one of ten tries. */
  readonly p10: number;
  /** The day by which it is done in half of them. */
  readonly p50: number;
  /** The day by which it is done in nine of ten. */
  readonly p90: number;
  /** How likely it is done by the day that was promised, from 0 to 1. */
  readonly byPromise: number;
  /** Each day on which it was done in some try, in order. */
  readonly days: readonly {
    readonly day: number;
    /** How likely it is done just on that day. */
    readonly on: number;
    /** How likely it is done by that day. */
    readonly by: number;
  }[];
}

/**
 * Tries the plan many times, each time with hours of work that are drawn between the least and the most of each
 * operation. The order of the plan is kept: who comes to what next does not change because something took longer. Waiting
 * takes as long as it says. The same seed gives the same tries.
 * @returns for each job
 */
export function likelihood(
  schedule: Schedule,
  { draws = USUAL_DRAWS, seed = 1 }: { readonly draws?: number; readonly seed?: number } = {},
): readonly Likelihood[] {
  if (!Number.isInteger(draws) || draws < 1 || draws > MOST_DRAWS) {
    throw new RangeError(`draws are a whole number from 1 to ${MOST_DRAWS}`);
  }
  const { tasks, order, calendar } = schedule.inside;
  const next = numbersFrom(seed);
  const counts = schedule.jobs.map(() => new Map<number, number>());
  for (let draw = 0; draw < draws; draw += 1) {
    const work = tasks.map(({ operation: { handsOn: likely, least, most }, work: planned }) =>
      least < most ? secondsOf(triangular({ low: least, likely, high: most }, next())) : planned,
    );
    const ends = endsOfJobs(tasks, earliest(tasks, order, calendar, { work }));
    for (const [job, count] of counts.entries()) {
      const end = ends.get(job);
      const day = end === undefined ? schedule.begins : calendar.promise(end);
      count.set(day, (count.get(day) ?? 0) + 1);
    }
  }
  return counts.map((count, job) =>
    told(count, { draws, seed, promise: schedule.jobs[job]?.promise ?? schedule.begins }),
  );
}

interface About {
  readonly draws: number;
  readonly seed: number;
  readonly promise: number;
}

function told(count: ReadonlyMap<number, number>, { draws, seed, promise }: About): Likelihood {
  let so = 0;
  const days = [...count.entries()]
    .sort(([a], [b]) => a - b)
    .map(([day, times]) => {
      so += times;
      return { day, on: times / draws, by: so / draws };
    });
  const dayBy = (share: number): number => days.find(({ by }) => by >= share)?.day ?? promise;
  return {
    draws,
    seed,
    p10: dayBy(0.1),
    p50: dayBy(0.5),
    p90: dayBy(0.9),
    byPromise: shareBy(days, promise),
    days,
  };
}

const shareBy = (days: Likelihood['days'], last: number): number =>
  days.findLast(({ day }) => day <= last)?.by ?? 0;

/** How likely a job is done by a day, from 0 to 1. */
export const likelyBy = ({ days }: Likelihood, day: number): number => shareBy(days, day);

/** Whether any operation of a job says how little or how much it may take: without that no day is more likely than another. */
export const isUncertain = (schedule: Schedule, job = 0): boolean =>
  schedule.inside.tasks.some(
    ({ job: one, operation: { least, most } }) => one === job && least < most,
  );
