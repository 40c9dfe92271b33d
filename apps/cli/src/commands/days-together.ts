import {
  clock,
  type DayOfWork,
  dayOf,
  dayOfClock,
  isUncertain,
  type JobsInTurn,
  type JobToDo,
  type Likelihood,
  likelihood,
  likelyBy,
  type Moment,
  type Placed,
  planJobs,
  sayDay,
  takesTime,
  workOn,
  written,
} from '@kerfbook/days';
import { csvText } from '@kerfbook/interchange';
import { jobIn, type Workbook } from '@kerfbook/workbook';
import { type CalendarFiles, writeCalendar } from '../days-calendar.ts';
import type { ExitCode, Io } from '../io.ts';
import { openBooks } from '../open.ts';
import { tableText } from '../table-text.ts';
import { cellOf } from '../values.ts';
import { printJson } from '../visible.ts';

interface Asked {
  readonly from: number | undefined;
  readonly on: number | undefined;
  readonly json: boolean;
  readonly csv: boolean;
  readonly draws: number;
  readonly seed: number;
  /** Where the calendar file of all of them goes. */
  readonly calendar: CalendarFiles | undefined;
}

/** `days` of several files: one after the other in one shop, what is begun and what is due first going first. */
export async function daysTogether(
  paths: readonly string[],
  { from, on, json, csv, draws, seed, calendar }: Asked,
  io: Io,
): Promise<ExitCode> {
  const books = await openBooks(paths, io);
  if (books === undefined) return 2;
  const plan = planJobs(books.map(jobOf), from ?? dayOfClock(io.now()) + 1);
  for (const { job, at, says } of plan.troubles) {
    const book = books[job];
    const cell = at === undefined || book === undefined ? '' : ` ${cellOf(book, at)}`;
    io.err(`${book?.title ?? ''}${cell}: ${says}`);
  }
  if (!plan.ok) {
    io.err(plan.says);
    return 1;
  }
  const day = workOn(plan.schedule, on ?? plan.schedule.begins);
  const isOpen = plan.jobs.some((_, job) => isUncertain(plan.schedule, job));
  const odds = isOpen ? likelihood(plan.schedule, { draws, seed }) : undefined;
  if (json) printJson(io, jsonOf(plan, day, odds));
  else if (csv) for (const line of csvText(rowsOf(plan))) io.out(line);
  else for (const line of textOf(plan, day, odds)) io.out(line);
  for (const note of plan.notes) io.err(note);
  if (calendar !== undefined) {
    const inTurn = plan.jobs.map(({ job }) => paths[job] ?? '');
    const ended = await writeCalendar(plan.schedule, inTurn, calendar, io);
    if (ended !== 0) return ended;
  }
  return plan.troubles.length > 0 ? 1 : 0;
}

function jobOf(source: Workbook): JobToDo {
  const facts = jobIn(source.document());
  const due = facts?.due === undefined ? source.head.due : facts.due;
  const day = due === undefined ? undefined : dayOf(due);
  return {
    name: source.title,
    source,
    isBegun: facts?.state === 'in the shop',
    ...(day === undefined ? {} : { due: day }),
  };
}

const when = ({ day, hour }: Moment): string => `${sayDay(day)} ${clock(hour)}`;
const rounded = (count: number): number => Math.round(count * 100) / 100;
const counted = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** How likely each job is done by the day it can be promised for and by the day it is due. */
function oddsSaid(
  { jobs }: JobsInTurn,
  odds: readonly Likelihood[] | undefined,
): readonly string[] {
  const [first] = odds ?? [];
  if (odds === undefined || first === undefined) {
    return ['How likely that is cannot be told: give operations a least and a most.'];
  }
  return [
    `How likely, in ${first.draws} tries (seed ${first.seed}):`,
    ...tableText([
      ['job', 'by the promise', 'half by', 'nine of ten by', 'by the due day'],
      ...jobs.map(({ name, due }, job) => {
        const one = odds[job];
        return one === undefined
          ? [name]
          : [
              name,
              percent(one.byPromise),
              sayDay(one.p50),
              sayDay(one.p90),
              due === undefined ? '' : percent(likelyBy(one, due)),
            ];
      }),
    ]),
  ];
}

function textOf(
  plan: JobsInTurn,
  day: DayOfWork,
  odds: readonly Likelihood[] | undefined,
): readonly string[] {
  const { schedule, jobs } = plan;
  const { asked, begins, placed } = schedule;
  const name = (one: Placed): string => jobs[one.job]?.name ?? '';
  return [
    ...(asked === begins
      ? []
      : [`${sayDay(asked)} is a day off: the work begins on ${sayDay(begins)}.`, '']),
    ...tableText([
      ['job', 'hands-on', 'begins', 'promise', 'due', ''],
      ...jobs.map((one) => [
        one.name,
        `${rounded(one.handsOn)} h`,
        sayDay(one.begins),
        sayDay(one.promise),
        one.due === undefined ? '' : sayDay(one.due),
        one.isLate ? `${counted(one.promise - (one.due ?? 0))} late` : '',
      ]),
    ]),
    '',
    ...oddsSaid(plan, odds),
    '',
    ...tableText([
      ['job', 'operation', 'begins', 'work ends', 'over'],
      ...inOrder(placed).map((one) => [
        name(one),
        one.operation.name,
        when(one.start),
        one.operation.handsOn > 0 ? when(one.worked) : '',
        one.operation.waiting > 0 ? when(one.end) : '',
      ]),
    ]),
    '',
    ...daySaid(day, name),
  ];
}

const inOrder = (placed: readonly Placed[]): readonly Placed[] =>
  placed
    .filter(({ operation }) => takesTime(operation))
    .toSorted((one, other) => one.seconds.start - other.seconds.start || one.job - other.job);

function daySaid(
  { day, isWorked, inHand, waiting }: DayOfWork,
  name: (placed: Placed) => string,
): readonly string[] {
  const lines = [
    ...inHand.map(
      ({ placed, hours, from }) =>
        `  ${clock(from)} ${name(placed)}, ${placed.operation.name}: ${rounded(hours)} h`,
    ),
    ...waiting.map(
      (placed) =>
        `  ${name(placed)}, ${placed.operation.name}: left alone until ${when(placed.end)}`,
    ),
  ];
  if (!isWorked) return [`${sayDay(day)}: nobody works.`, ...lines];
  return [`On ${sayDay(day)}:`, ...(lines.length === 0 ? ['  nothing'] : lines)];
}

function rowsOf({ schedule, jobs }: JobsInTurn) {
  return [
    [
      'job',
      'operation',
      'hands-on',
      'waiting',
      'begins day',
      'begins hour',
      'work ends day',
      'work ends hour',
      'over day',
      'over hour',
    ],
    ...inOrder(schedule.placed).map(({ job, operation, start, worked, end }) => [
      jobs[job]?.name ?? '',
      operation.name,
      operation.handsOn,
      operation.waiting,
      ...[start, worked, end].flatMap(({ day, hour }) => [written(day), clock(hour)]),
    ]),
  ];
}

function jsonOf(
  { schedule, jobs, notes, troubles }: JobsInTurn,
  day: DayOfWork,
  odds: readonly Likelihood[] | undefined,
) {
  const moment = ({ day: on, hour }: Moment) => ({ day: written(on), hour });
  return {
    asked: written(schedule.asked),
    begins: written(schedule.begins),
    jobs: jobs.map(({ name, handsOn, begins, promise, due, isLate }, job) => ({
      job: name,
      handsOn: rounded(handsOn),
      begins: written(begins),
      promise: written(promise),
      due: due === undefined ? null : written(due),
      late: isLate,
      likelihood: likelyJson(odds?.[job], due),
    })),
    operations: inOrder(schedule.placed).map(({ job, operation, start, worked, end }) => ({
      job: jobs[job]?.name ?? '',
      operation: operation.name,
      handsOn: operation.handsOn,
      waiting: operation.waiting,
      who: operation.who,
      machines: operation.machines,
      begins: moment(start),
      workEnds: moment(worked),
      over: moment(end),
    })),
    on: {
      day: written(day.day),
      worked: day.isWorked,
      inHand: day.inHand.map(({ placed, hours, from }) => ({
        job: jobs[placed.job]?.name ?? '',
        operation: placed.operation.name,
        hours: rounded(hours),
        from,
      })),
    },
    notes,
    troubles: troubles.map(({ says }) => says),
  };
}

function likelyJson(odds: Likelihood | undefined, due: number | undefined) {
  if (odds === undefined) return null;
  const { draws, seed, p10, p50, p90, byPromise } = odds;
  return {
    draws,
    seed,
    p10: written(p10),
    p50: written(p50),
    p90: written(p90),
    byPromise,
    byDue: due === undefined ? null : likelyBy(odds, due),
  };
}
