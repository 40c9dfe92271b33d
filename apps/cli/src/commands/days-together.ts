import {
  clock,
  type DayOfWork,
  dayOf,
  dayOfClock,
  type JobsInTurn,
  type JobToDo,
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
}

/** `days` of several files: one after the other in one shop, what is begun and what is due first going first. */
export async function daysTogether(
  paths: readonly string[],
  { from, on, json, csv }: Asked,
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
  if (json) printJson(io, jsonOf(plan, day));
  else if (csv) for (const line of csvText(rowsOf(plan))) io.out(line);
  else for (const line of textOf(plan, day)) io.out(line);
  for (const note of plan.notes) io.err(note);
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

function textOf({ schedule, jobs }: JobsInTurn, day: DayOfWork): readonly string[] {
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

function jsonOf({ schedule, jobs, notes, troubles }: JobsInTurn, day: DayOfWork) {
  const moment = ({ day: on, hour }: Moment) => ({ day: written(on), hour });
  return {
    asked: written(schedule.asked),
    begins: written(schedule.begins),
    jobs: jobs.map(({ name, handsOn, begins, promise, due, isLate }) => ({
      job: name,
      handsOn: rounded(handsOn),
      begins: written(begins),
      promise: written(promise),
      due: due === undefined ? null : written(due),
      late: isLate,
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
