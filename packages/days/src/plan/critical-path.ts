import { HOUR } from '../calendar/moments.ts';
import { type Shop, ShopCalendar } from '../calendar/shop-days.ts';
import { earliest, latest, orderOf, slackOf, type Task, type Times, tasksOf } from './network.ts';
import type { Operation } from './operation.ts';

/** What the operations of one job come to with hands and machines enough for all of them. */
export interface CriticalPath {
  /** Seconds since the midnight that began day 0. */
  readonly end: number;
  /** In the order of the operations. */
  readonly operations: readonly {
    readonly id: string;
    readonly earliest: number;
    readonly latest: number;
    /** Hours by which it may begin later. */
    readonly slack: number;
    readonly critical: boolean;
  }[];
}

/**
 * The critical path method: the earliest times forward, the latest backward, critical what has no time between them
 * (J. E. Kelley, Critical-path planning and scheduling: mathematical basis, 1961; from memory).
 * @param from the day on which it begins
 * @throws Circle where operations wait for each other
 */
export function criticalPath(
  operations: readonly Operation[],
  shop: Shop,
  from: number,
): CriticalPath {
  const calendar = new ShopCalendar(shop, from);
  const tasks = tasksOf([{ name: '', operations }], calendar.opens(calendar.workday(from)));
  const { soonest, last } = bounds(tasks, calendar);
  return {
    end: Math.max(...soonest.end, calendar.opens(calendar.workday(from))),
    operations: tasks.map((task, i) => {
      const [earliestStart, latestStart] = [soonest.start[i] ?? 0, last.start[i] ?? 0];
      const slack = slackOf(task, earliestStart, latestStart, calendar) / HOUR;
      return {
        id: task.operation.id,
        earliest: earliestStart,
        latest: latestStart,
        slack,
        critical: slack === 0,
      };
    }),
  };
}

/** The earliest and the latest times of tasks, each job due when the last of it is done. */
export function bounds(
  tasks: readonly Task[],
  calendar: ShopCalendar,
): { readonly order: readonly number[]; readonly soonest: Times; readonly last: Times } {
  const order = orderOf(tasks);
  const soonest = earliest(tasks, order, calendar);
  const ends = endsOfJobs(tasks, soonest);
  const last = latest(tasks, order, calendar, ({ job }) => ends.get(job) ?? 0);
  return { order, soonest, last };
}

/** When the last operation of each job is over. */
export function endsOfJobs(tasks: readonly Task[], { end }: Times): ReadonlyMap<number, number> {
  const ends = new Map<number, number>();
  for (const [i, { job }] of tasks.entries()) {
    ends.set(job, Math.max(ends.get(job) ?? 0, end[i] ?? 0));
  }
  return ends;
}
