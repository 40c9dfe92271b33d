import { beginOf, endOf, HOUR, type Moment, type Seconds, secondsOf } from '../calendar/moments.ts';
import { type Shop, ShopCalendar } from '../calendar/shop-days.ts';
import { bounds, endsOfJobs } from './critical-path.ts';
import { Hands } from './hands.ts';
import { earliest, latest, orderOf, slackOf, type Task, type Times, tasksOf } from './network.ts';
import type { Job, Operation } from './operation.ts';

/** An operation and when it is done. */
export interface Placed {
  /** What is done. */
  readonly operation: Operation;
  /** The number of its job. */
  readonly job: number;
  /** When the work of it begins. */
  readonly start: Moment;
  /** When the work of it ends, and waiting begins. */
  readonly worked: Moment;
  /** When its waiting is over too, and what comes after it may begin. */
  readonly end: Moment;
  /**
   * By how many hours it may begin later without any job ending later, all others following in the same order:
   * working hours, or hours of the clock where it is nothing but waiting.
   */
  readonly slack: number;
  /** It has no slack: what delays it delays a job. */
  readonly critical: boolean;
  /** The same moments in seconds since the midnight that began day 0. */
  readonly seconds: {
    /** When nothing that has to be done before it hinders it any more. */
    readonly ready: Seconds;
    readonly start: Seconds;
    readonly worked: Seconds;
    readonly end: Seconds;
  };
}

/** When everything is done. */
export interface Schedule {
  /** Whose hours it keeps to. */
  readonly shop: Shop;
  /** The day on which it was to begin. */
  readonly asked: number;
  /** The first working day from there on. */
  readonly begins: number;
  /** Each job and its end, in the order in which they were given. */
  readonly jobs: readonly {
    readonly name: string;
    /** When the last operation of it is over. */
    readonly end: Moment;
    /** The day that can be promised: a working day by whose last hour all of it is over. */
    readonly promise: number;
  }[];
  /** All operations, job by job, in the order of their tables. */
  readonly placed: readonly Placed[];
  /** What it is worked out from. */
  readonly inside: Inside;
}

/** The tasks of a schedule with the order in which they share hands and machines. */
export interface Inside {
  readonly jobs: readonly Job[];
  readonly calendar: ShopCalendar;
  readonly tasks: readonly Task[];
  readonly order: readonly number[];
}

/**
 * Plans the operations of some jobs in one shop. Each operation is put where it can begin first, one after the other
 * (serial generation of schedules): always, of those whose turn it may be, the one of the job that goes first, of
 * these the one whose work has to be over first, then the one that has to begin first, then the one above. By when work
 * has to be over says the critical path, as if there were hands and machines enough (serial generation with priority by
 * latest finish: J. E. Kelley 1963, R. Kolisch 1996; from memory). Waiting takes no hands, so that what then waits long
 * comes first. It need not be the shortest of all plans.
 * @param from the day on which the first may begin
 * @throws Circle where operations wait for each other
 * @throws BeyondCalendar where it would never end
 */
export function scheduleJobs(jobs: readonly Job[], shop: Shop, from: number): Schedule {
  const calendar = new ShopCalendar(shop, from);
  const begins = calendar.workday(from);
  const tasks = tasksOf(jobs, calendar.opens(begins));
  const { last } = bounds(tasks, calendar);
  const hands = new Hands(calendar);
  const end: Seconds[] = [];
  for (const number of inTurn(jobs, tasks, last)) {
    const task = tasks[number] as Task;
    const ready = Math.max(task.from, ...task.after.map((one) => end[one] ?? 0));
    const start = hands.firstFree(task, ready);
    hands.take(task, number, start);
    end[number] = calendar.addWork(start, task.work) + task.waiting;
  }
  const shared = hands.arcs(tasks.length);
  const held = tasks.map((task, i) => ({
    ...task,
    before: [...task.before, ...(shared[i] ?? [])],
  }));
  const inside = { jobs, calendar, tasks: held, order: orderOf(held) };
  return scheduleOf({ shop, asked: from, begins, inside });
}

/** Which operation is put in its place when. */
function inTurn(jobs: readonly Job[], tasks: readonly Task[], last: Times): readonly number[] {
  const priority = tasks.map(({ job }) => jobs[job]?.priority ?? 0);
  const sooner = (a: number, b: number): number =>
    (priority[a] ?? 0) - (priority[b] ?? 0) ||
    (last.worked[a] ?? 0) - (last.worked[b] ?? 0) ||
    (last.start[a] ?? 0) - (last.start[b] ?? 0) ||
    a - b;
  const left = new Set(tasks.keys());
  const turns: number[] = [];
  while (left.size > 0) {
    const open = [...left].filter((i) => tasks[i]?.after.every((one) => !left.has(one)));
    const [next] = open.sort(sooner);
    if (next === undefined) break;
    left.delete(next);
    turns.push(next);
  }
  return turns;
}

/** The schedule of tasks whose order is settled. */
function scheduleOf(
  about: Pick<Schedule, 'shop' | 'asked' | 'begins' | 'inside'>,
  late: ReadonlyMap<number, Seconds> = new Map(),
): Schedule {
  const { jobs, calendar, tasks, order } = about.inside;
  const times = earliest(tasks, order, calendar, { late });
  const ends = endsOfJobs(tasks, times);
  const opens = calendar.opens(about.begins);
  const last = latest(tasks, order, calendar, ({ job }) => ends.get(job) ?? opens);
  return {
    ...about,
    jobs: jobs.map(({ name }, job) => {
      const end = ends.get(job) ?? opens;
      return { name, end: endOf(end), promise: calendar.promise(end) };
    }),
    placed: tasks.map((task, i) => {
      const [start, worked, end] = [times.start, times.worked, times.end].map((all) => all[i] ?? 0);
      return placedOf(task, { start, worked, end } as PlacedTimes, last.start[i] ?? 0, {
        calendar,
        ready: readyAt(task, times),
      });
    }),
  };
}

type PlacedTimes = Omit<Placed['seconds'], 'ready'>;

/** When nothing hinders a task but hands and machines: what has to be done before it is done. */
function readyAt(task: Task, { end }: Times): Seconds {
  return Math.max(task.from, ...task.after.map((one) => end[one] ?? 0));
}

function placedOf(
  task: Task,
  times: PlacedTimes,
  lastStart: Seconds,
  { calendar, ready }: { readonly calendar: ShopCalendar; readonly ready: Seconds },
): Placed {
  const { start, worked, end } = times;
  const slack = slackOf(task, start, lastStart, calendar) / HOUR;
  return {
    operation: task.operation,
    job: task.job,
    start: beginOf(start),
    worked: worked > start ? endOf(worked) : beginOf(worked),
    end: end > start ? endOf(end) : beginOf(end),
    slack,
    critical: slack === 0,
    seconds: { ready, start, worked, end },
  };
}

/**
 * The same plan with one operation begun later than it could be: everything that rests on it, or wants the same hands,
 * moves along as far as it must, in the same order.
 * @param hours working hours, or hours of the clock where the operation is nothing but waiting
 */
export function delayed(schedule: Schedule, operation: string, hours: number, job = 0): Schedule {
  const { shop, asked, begins, inside } = schedule;
  const number = inside.tasks.findIndex(
    (task) => task.operation.id === operation && task.job === job,
  );
  if (number < 0) throw new RangeError(`there is no operation ${operation}`);
  if (!(hours >= 0)) throw new RangeError('a delay is of no hours or more');
  return scheduleOf({ shop, asked, begins, inside }, new Map([[number, secondsOf(hours)]]));
}
