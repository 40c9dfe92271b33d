import { DAY, type Seconds, secondsOf } from '../calendar/moments.ts';
import type { ShopCalendar } from '../calendar/shop-days.ts';
import type { Job, Operation } from './operation.ts';

/** Something that has to be over before a task begins. */
export interface Arc {
  /** The task that comes before, by its number. */
  readonly from: number;
  /** What of it has to be over: the work alone, as for hands, or its waiting too. */
  readonly until: 'work' | 'end';
}

/** An operation among all that are planned together. */
export interface Task {
  /** The job it is of, by its number. */
  readonly job: number;
  readonly operation: Operation;
  readonly work: Seconds;
  readonly waiting: Seconds;
  /** The moment from which it may begin. */
  readonly from: Seconds;
  /** What has to be done before it, by their numbers. */
  readonly after: readonly number[];
  /** All that has to be over before it begins: that, and what has the same hands or the same machine first. */
  readonly before: readonly Arc[];
}

/** When the tasks of a network begin, when their work ends and when their waiting does. */
export interface Times {
  readonly start: readonly Seconds[];
  readonly worked: readonly Seconds[];
  readonly end: readonly Seconds[];
}

/** The operations wait for each other in a circle, so that none can begin. */
export class Circle extends Error {
  constructor() {
    super('Operations wait for each other in a circle.');
    this.name = 'Circle';
  }
}

/** All operations of some jobs, each job in the order of its table. */
export function tasksOf(jobs: readonly Job[], begins: Seconds): readonly Task[] {
  const tasks: Task[] = [];
  for (const [job, { operations, notBefore }] of jobs.entries()) {
    const first = tasks.length;
    const numbers = new Map(operations.map(({ id }, i) => [id, first + i]));
    for (const operation of operations) {
      const day = Math.max(notBefore ?? 0, operation.notBefore ?? 0);
      const after = operation.after
        .map((id) => numbers.get(id))
        .filter((number) => number !== undefined);
      tasks.push({
        job,
        operation,
        work: secondsOf(operation.handsOn),
        waiting: secondsOf(operation.waiting),
        from: Math.max(begins, day * DAY),
        after,
        before: after.map((from) => ({ from, until: 'end' })),
      });
    }
  }
  return tasks;
}

/**
 * An order in which each task comes after all that come before it, of those that could be next the one above.
 * @throws Circle where there is none
 */
export function orderOf(tasks: readonly Task[]): readonly number[] {
  const left = tasks.map(({ before }) => before.length);
  const next = nextOf(tasks);
  const order: number[] = [];
  const ready = new Set(left.flatMap((count, i) => (count === 0 ? [i] : [])));
  while (ready.size > 0) {
    const task = Math.min(...ready);
    ready.delete(task);
    order.push(task);
    for (const { to } of next[task] ?? []) {
      left[to] = (left[to] ?? 0) - 1;
      if (left[to] === 0) ready.add(to);
    }
  }
  if (order.length < tasks.length) throw new Circle();
  return order;
}

/** For each task what waits for it. */
function nextOf(tasks: readonly Task[]) {
  const next: { to: number; until: Arc['until'] }[][] = tasks.map(() => []);
  for (const [to, { before }] of tasks.entries()) {
    for (const { from, until } of before) next[from]?.push({ to, until });
  }
  return next;
}

/** What differs from the plan when its times are worked out anew. */
interface Otherwise {
  /** Working seconds of each task. */
  readonly work?: readonly Seconds[];
  /** By how much each begins later than it could: of work, or by the clock where there is no work in it. */
  readonly late?: ReadonlyMap<number, Seconds>;
}

/** The earliest times of tasks that wait for nothing but what comes before them. */
export function earliest(
  tasks: readonly Task[],
  order: readonly number[],
  calendar: ShopCalendar,
  { work, late }: Otherwise = {},
): Times {
  const start: Seconds[] = Array.from({ length: tasks.length }, () => 0);
  const worked = start.slice();
  const end = start.slice();
  for (const i of order) {
    const task = tasks[i] as Task;
    const takes = work?.[i] ?? task.work;
    let from = task.from;
    for (const arc of task.before) {
      from = Math.max(from, (arc.until === 'end' ? end : worked)[arc.from] ?? 0);
    }
    const begins = beginsAt(from, takes, late?.get(i) ?? 0, calendar);
    start[i] = begins;
    worked[i] = calendar.addWork(begins, takes);
    end[i] = (worked[i] ?? 0) + task.waiting;
  }
  return { start, worked, end };
}

/** What has work in it begins in working hours; what has only waiting begins at once. */
function beginsAt(from: Seconds, work: Seconds, late: Seconds, calendar: ShopCalendar): Seconds {
  if (work === 0) return from + late;
  const start = calendar.workStart(from);
  return late === 0 ? start : calendar.workStart(calendar.addWork(start, late));
}

/** The latest times at which nothing ends later than it is due. */
export function latest(
  tasks: readonly Task[],
  order: readonly number[],
  calendar: ShopCalendar,
  due: (task: Task) => Seconds,
): Times {
  const next = nextOf(tasks);
  const start: Seconds[] = Array.from({ length: tasks.length }, () => 0);
  const worked = start.slice();
  const end = start.slice();
  for (const i of order.toReversed()) {
    const task = tasks[i] as Task;
    let ends = due(task);
    for (const { to, until } of next[i] ?? []) {
      const by = start[to] ?? 0;
      ends = Math.min(ends, until === 'end' ? by : by + task.waiting);
    }
    end[i] = ends;
    worked[i] = ends - task.waiting;
    start[i] = calendar.subtractWork(worked[i] ?? 0, task.work);
  }
  return { start, worked, end };
}

/** By how much a task may begin later: working hours where there is work in it, hours of the clock where there is none. */
export function slackOf(
  { work }: Task,
  from: Seconds,
  to: Seconds,
  calendar: ShopCalendar,
): Seconds {
  return work === 0 ? to - from : calendar.workBetween(from, to);
}
