import { sayDay } from '../calendar/day-numbers.ts';
import { BeyondCalendar, type Shop } from '../calendar/shop-days.ts';
import { type Schedule, scheduleJobs } from '../plan/schedule.ts';
import { type DaysSource, readOperations } from './read-operations.ts';
import { readShop, type ShopHoursSource } from './read-shop.ts';

/** A job to be done in one shop with others. */
export interface JobToDo {
  /** What it is called. */
  readonly name: string;
  /** Its open workbook. */
  readonly source: DaysSource & ShopHoursSource;
  /** The day it is promised for. */
  readonly due?: number;
  /** It is begun: it goes before those that are not. */
  readonly isBegun?: boolean;
}

/** A job among those that are planned together. */
export interface PlannedJob {
  /** Its number among the jobs that were given. */
  readonly job: number;
  /** What it is called. */
  readonly name: string;
  /** The day on which the first of its operations begins. */
  readonly begins: number;
  /** The day that can be promised. */
  readonly promise: number;
  /** The day it was promised for. */
  readonly due?: number;
  /** It cannot be done by the day it was promised for. */
  readonly isLate: boolean;
  /** Hours of work in it. */
  readonly handsOn: number;
}

/** Something in the workbook of a job that cannot be read. */
export interface JobTrouble {
  /** Its number among the jobs that were given. */
  readonly job: number;
  /** The cell to look at; left out where it is about the shop's hours or all of the job. */
  readonly at?: { readonly sheet: string; readonly row: number; readonly column: number };
  /** What was wrong and what to do. */
  readonly says: string;
}

/** Several jobs in one shop. */
export interface JobsInTurn {
  /** All their operations; its jobs are in the order of `jobs`. */
  readonly schedule: Schedule;
  /** In the order in which they go first. */
  readonly jobs: readonly PlannedJob[];
  /** What the workbooks say differently of the shop, and what is reckoned with. */
  readonly notes: readonly string[];
  /** What could not be read. */
  readonly troubles: readonly JobTrouble[];
}

/** A plan, or what stands in its way. */
export type JobsInTurnOrNot =
  | ({ readonly ok: true } & JobsInTurn)
  | { readonly ok: false; readonly says: string; readonly troubles: readonly JobTrouble[] };

/**
 * Plans several jobs one after the other in one shop from a day on. What is begun goes first, then what is due first;
 * who waits for glue or coats of one job turns to the next. People and machines of one name are the same in all of them.
 * @param from the day on which the first may begin
 */
export function planJobs(given: readonly JobToDo[], from: number): JobsInTurnOrNot {
  const troubles: JobTrouble[] = [];
  const read = given.map(({ source }, job) => readJob(source, job, troubles));
  const inOrder = given
    .map((one, job) => ({ ...one, job, ...(read[job] as ReadJob) }))
    .filter(({ operations }) => operations.length > 0)
    .toSorted(firstToDo);
  const [first] = inOrder;
  if (first === undefined) {
    return { ok: false, says: 'None of these jobs has operations to plan.', troubles };
  }
  const notes: string[] = [];
  const { shop } = first;
  const others = inOrder.filter((one) => !sameShop(one.shop, shop));
  if (others.length > 0) {
    notes.push(
      `The hours of the shop differ: all is planned with those of ${first.name}, not with those of ${others.map(({ name }) => name).join(', ')}.`,
    );
  }
  for (const { name, begins } of inOrder) {
    if (begins !== undefined && begins > from) {
      notes.push(`${name} begins on ${sayDay(begins)} at the earliest, as its workbook says.`);
    }
  }
  try {
    const schedule = scheduleJobs(
      inOrder.map(({ name, operations, begins }, priority) => ({
        name,
        operations,
        priority,
        ...(begins === undefined ? {} : { notBefore: begins }),
      })),
      shop,
      from,
    );
    return {
      ok: true,
      schedule,
      jobs: inOrder.map((one, i) => jobOf(one, i, schedule)),
      notes,
      troubles,
    };
  } catch (error) {
    if (!(error instanceof BeyondCalendar)) throw error;
    return { ok: false, says: error.message, troubles };
  }
}

interface ReadJob {
  readonly operations: ReturnType<typeof readOperations>['operations'];
  readonly shop: Shop;
  readonly begins: number | undefined;
}

function readJob(source: JobToDo['source'], job: number, troubles: JobTrouble[]): ReadJob {
  const reading = readOperations(source);
  const hours = readShop(source);
  for (const { at, says } of reading.problems) troubles.push({ job, at, says });
  for (const { says } of hours.problems) troubles.push({ job, says });
  if (!reading.found) {
    troubles.push({
      job,
      says: 'It has no operations table, so that nothing of it is planned.',
    });
  }
  for (const circle of reading.circles) {
    troubles.push({
      job,
      says: `${circle.join(', ')} wait for each other, so that nothing of it is planned.`,
    });
  }
  return {
    operations: reading.circles.length > 0 ? [] : reading.operations,
    shop: hours.shop,
    begins: hours.begins,
  };
}

type InOrder = JobToDo & ReadJob & { readonly job: number };

const firstToDo = (one: InOrder, other: InOrder): number =>
  Number(other.isBegun ?? false) - Number(one.isBegun ?? false) ||
  (one.due ?? Number.MAX_SAFE_INTEGER) - (other.due ?? Number.MAX_SAFE_INTEGER) ||
  one.job - other.job;

const sameShop = (one: Shop, other: Shop): boolean => JSON.stringify(one) === JSON.stringify(other);

function jobOf(
  { job, name, due, operations }: InOrder,
  number: number,
  schedule: Schedule,
): PlannedJob {
  const promise = schedule.jobs[number]?.promise ?? schedule.begins;
  const starts = schedule.placed.filter((one) => one.job === number).map(({ start }) => start.day);
  return {
    job,
    name,
    begins: Math.min(...starts),
    promise,
    ...(due === undefined ? {} : { due }),
    isLate: due !== undefined && promise > due,
    handsOn: operations.reduce((all, { handsOn }) => all + handsOn, 0),
  };
}
