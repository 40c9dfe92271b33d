import {
  type AllTaken,
  clock,
  type DayOfWork,
  type Likelihood,
  MAKER,
  type Moment,
  type Placed,
  type Schedule,
  sayDay,
  type Taken,
  takesTime,
  usualDaysSaid,
  weekdayOf,
  written,
} from '@kerfbook/days';
import type { Workbook } from '@kerfbook/workbook';
import { tableText } from './table-text.ts';

/** A plan as it is printed. */
export interface ShownDays {
  readonly book: Workbook;
  readonly schedule: Schedule;
  /** How likely it is done when; undefined where no operation says how little or how much it may take. */
  readonly odds: Likelihood | undefined;
  readonly day: DayOfWork;
  /** What operations took so far; undefined where no hours are written down. */
  readonly taken: AllTaken | undefined;
}

const hours = (count: number): string => `${rounded(count)} h`;
const some = (count: number): string => (count === 0 ? '' : hours(count));
const when = ({ day, hour }: Moment): string => `${sayDay(day)} ${clock(hour)}`;
const whose = ({ operation: { who } }: Placed): string =>
  who.length === 0 ? MAKER : who.join(', ');

const HEADS = [
  'operation',
  'hands-on',
  'waiting',
  'who',
  'begins',
  'work ends',
  'over',
  'to spare',
];

const takenUp = ({ placed }: Schedule): readonly Placed[] =>
  placed.filter(({ operation }) => takesTime(operation));

/** The table of operations, the day to promise, and what to do on a day, line by line. */
export function daysText({ schedule, odds, day, taken }: ShownDays): readonly string[] {
  const rows = takenUp(schedule).map((placed) => {
    const { operation, start, worked, end, slack, critical } = placed;
    return [
      operation.name,
      some(operation.handsOn),
      some(operation.waiting),
      operation.handsOn > 0 ? whose(placed) : '',
      when(start),
      operation.handsOn > 0 ? when(worked) : '',
      operation.waiting > 0 ? when(end) : '',
      critical ? 'none' : hours(slack),
    ];
  });
  return [
    ...beginSaid(schedule),
    ...tableText([HEADS, ...rows]),
    '',
    ...promiseSaid(schedule, odds),
    '',
    ...daySaid(day),
    ...(taken === undefined ? [] : ['', ...takenSaid(taken)]),
  ];
}

/** Estimate and hours of each operation that was begun. */
function takenSaid({ operations, estimate, worked, spent, done }: AllTaken): readonly string[] {
  const rows = operations
    .filter((one) => one.times > 0 || one.spent > 0)
    .map((one) => [
      one.name,
      one.estimate === undefined ? '' : hours(one.estimate),
      hours(one.worked),
      one.estimate === undefined ? '' : differing(one.worked - one.estimate),
      one.spent === 0 ? '' : `${rounded(one.spent)}`,
      one.isDone ? 'done' : '',
    ]);
  return [
    'What it took so far:',
    ...tableText([['operation', 'thought', 'took', 'differs', 'spent', ''], ...rows]),
    `In all ${hours(worked)} of ${hours(estimate)}${spent === 0 ? '' : `, ${rounded(spent)} spent`}.`,
    ...(done.count === 0
      ? []
      : [
          `What is done took ${hours(done.worked)}, and was thought to take ${hours(done.estimate)}.`,
        ]),
  ];
}

const rounded = (count: number): number => Math.round(count * 100) / 100;
const differing = (count: number): string => `${count > 0 ? '+' : ''}${hours(count)}`;

function beginSaid({ asked, begins }: Schedule): readonly string[] {
  if (asked === begins) return [];
  return [`${sayDay(asked)} is a day off: the work begins on ${sayDay(begins)}.`, ''];
}

function promiseSaid({ jobs }: Schedule, odds: Likelihood | undefined): readonly string[] {
  const promise = `Done by ${sayDay(jobs[0]?.promise ?? 0)}`;
  if (odds === undefined) {
    return [
      `${promise}, if every operation takes just as long as it says.`,
      'How likely that is cannot be told: give operations a least and a most.',
    ];
  }
  const { byPromise, draws, seed } = odds;
  return [
    `${promise} in ${percent(byPromise)} of ${draws} tries (seed ${seed}).`,
    usualDaysSaid(odds),
  ];
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function daySaid({ day, isWorked, inHand, waiting, couldBegin }: DayOfWork): readonly string[] {
  if (!isWorked) {
    return [
      `${sayDay(day)}: nobody works.`,
      ...waiting.map(({ operation, end }) => `  ${operation.name}: left alone until ${when(end)}`),
    ];
  }
  const lines = [
    ...inHand.map(({ placed, hours: count, from, begins, ends }) => {
      const part = begins ? (ends ? '' : ', begun') : ends ? ', to its end' : ', gone on with';
      return `  ${clock(from)} ${placed.operation.name}: ${hours(count)}${part}${withWhom(placed)}`;
    }),
    ...waiting.map(({ operation, end }) => `  ${operation.name}: left alone until ${when(end)}`),
    ...couldBegin.map(
      ({ operation }) => `  ${operation.name}: could be begun too, with more hands or machines`,
    ),
  ];
  return [`On ${sayDay(day)}:`, ...(lines.length === 0 ? ['  nothing'] : lines)];
}

const withWhom = (placed: Placed): string => {
  const { who, machines } = placed.operation;
  const needs = [...who, ...machines];
  return needs.length === 0 ? '' : ` (${needs.join(', ')})`;
};

/** The table of operations as comma-separated values, days and hours in columns of their own. */
export function daysCsv({ schedule, taken }: ShownDays): readonly string[] {
  const heads = [
    'operation',
    'hands-on',
    'waiting',
    'who',
    'machine',
    'begins day',
    'begins hour',
    'work ends day',
    'work ends hour',
    'over day',
    'over hour',
    'to spare',
    ...(taken === undefined ? [] : ['took', 'spent', 'done']),
  ];
  const rows = takenUp(schedule).map((placed) => {
    const { operation, start, worked, end, slack } = placed;
    const took = taken?.operations.find(({ id }) => id === operation.id);
    const moments = [start, worked, end].flatMap(({ day, hour }) => [written(day), clock(hour)]);
    return [
      operation.name,
      `${operation.handsOn}`,
      `${operation.waiting}`,
      whose(placed),
      operation.machines.join(', '),
      ...moments,
      `${slack}`,
      ...(took === undefined ? [] : tookFields(took)),
    ];
  });
  // What was done beside the plan was planned for no day.
  const beside = (taken?.operations ?? [])
    .filter(({ id }) => id === undefined)
    .map((took) => [
      took.name,
      ...Array.from({ length: heads.length - 4 }, () => ''),
      ...tookFields(took),
    ]);
  return [heads, ...rows, ...beside].map((row) => row.map(field).join(','));
}

const tookFields = ({ worked, spent, isDone }: Taken): readonly string[] => [
  `${rounded(worked)}`,
  `${rounded(spent)}`,
  isDone ? 'yes' : 'no',
];

/** What a sheet would read as a formula is a text all the same: a name may come from anyone. */
function field(text: string): string {
  const plain = /^[=+\-@\t\r]/.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

const moment = ({ day, hour }: Moment) => ({ day: written(day), hour });

/** All of it, as `days --json` prints it. */
export function daysJson({ book, schedule, odds, day, taken }: ShownDays) {
  const { shop, asked, begins, jobs, placed } = schedule;
  return {
    title: book.title,
    asked: written(asked),
    begins: written(begins),
    shop: {
      hoursADay: shop.hoursADay,
      begins: shop.begins,
      worked: shop.week,
      off: shop.off.map(({ from, to }) => ({ from: written(from), to: written(to) })),
    },
    promise: written(jobs[0]?.promise ?? begins),
    operations: placed.map(({ operation, start, worked, end, slack, critical }) => ({
      id: operation.id,
      operation: operation.name,
      handsOn: operation.handsOn,
      waiting: operation.waiting,
      who: operation.who,
      machines: operation.machines,
      begins: moment(start),
      workEnds: moment(worked),
      over: moment(end),
      slack,
      critical,
    })),
    likelihood:
      odds === undefined
        ? null
        : {
            draws: odds.draws,
            seed: odds.seed,
            p10: written(odds.p10),
            p50: written(odds.p50),
            p90: written(odds.p90),
            byPromise: odds.byPromise,
            days: odds.days.map((one) => ({ ...one, day: written(one.day) })),
          },
    took: taken ?? null,
    on: {
      day: written(day.day),
      weekday: weekdayOf(day.day),
      worked: day.isWorked,
      inHand: day.inHand.map(({ placed: one, ...more }) => ({ id: one.operation.id, ...more })),
      waiting: day.waiting.map(({ operation }) => operation.id),
      couldBegin: day.couldBegin.map(({ operation }) => operation.id),
    },
  };
}
