import {
  dayOf,
  dayOfClock,
  isUncertain,
  type Likelihood,
  likelihood,
  MOST_DRAWS,
  planBook,
  readHours,
  type Schedule,
  takenOf,
  USUAL_DRAWS,
  workOn,
} from '@kerfbook/days';
import type { Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { writeCalendar } from '../days-calendar.ts';
import { daysCsv, daysJson, daysText } from '../days-printed.ts';
import type { Io } from '../io.ts';
import { openAndSet } from '../open-set.ts';
import { cellOf } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';
import { daysTogether } from './days-together.ts';

/** `days`: when each operation of a job is done, and by which day all of it; of several jobs in one shop too. */
export const daysCommand: Command = {
  name: 'days',
  usage:
    'days FILE… [--from DATE] [--on DATE] [--set name=entry]… [--json|--csv] [--draws N] [--seed N] [--ics PATH [--since OLD] [--force]]',
  does: 'plans the operations of a job in working days: when each is done, which day to promise, what to do tomorrow; several workbooks are several jobs in one shop',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      from: { type: 'string' },
      on: { type: 'string' },
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
      csv: { type: 'boolean' },
      draws: { type: 'string' },
      seed: { type: 'string' },
      ics: { type: 'string' },
      since: { type: 'string' },
      force: { type: 'boolean' },
    });
    if (values.json === true && values.csv === true) {
      throw new Misuse('--json and --csv are two ways to print the same: give one of them.');
    }
    if (values.ics === undefined && values.since !== undefined) {
      throw new Misuse(
        '--since names the calendar file that was made last: it takes --ics, where the new one goes.',
      );
    }
    const asked = {
      from: dayIn('--from', values.from),
      on: dayIn('--on', values.on),
      draws: numberIn('--draws', values.draws, { least: 1, most: MOST_DRAWS }) ?? USUAL_DRAWS,
      seed: numberIn('--seed', values.seed, { least: 0, most: 2 ** 31 - 1 }) ?? 1,
    };
    const { ics, since, force = false } = values;
    const calendar = ics === undefined ? undefined : { ics, since, force };
    if (positionals.length > 1) {
      if (values.set !== undefined) {
        throw new Misuse('--set is of one workbook: leave it out, or plan one by itself.');
      }
      const { json = false, csv = false } = values;
      return daysTogether(positionals, { ...asked, json, csv, calendar }, io);
    }
    const opened = await openAndSet('plan the days of', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const planned = planOf(book, asked.from, io);
    if (planned === undefined) return 1;
    const { schedule, taken } = planned;
    const day = workOn(schedule, asked.on ?? schedule.begins);
    const odds = isUncertain(schedule) ? likelihoodOf(schedule, asked) : undefined;
    const shown = { book, schedule, odds, day, taken };
    if (values.json === true) printJson(io, daysJson(shown));
    else for (const line of values.csv === true ? daysCsv(shown) : daysText(shown)) io.out(line);
    if (calendar !== undefined) {
      const ended = await writeCalendar(schedule, positionals, calendar, io);
      if (ended !== 0) return ended;
    }
    return planned.troubled || refused.length > 0 ? 1 : 0;
  },
};

/** A day that was asked for. @throws Misuse for one that is none */
function dayIn(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const day = dayOf(text);
  if (day === undefined) {
    throw new Misuse(`${option} takes a day such as 2026-11-30; it got "${text}".`);
  }
  return day;
}

function numberIn(
  option: string,
  text: string | undefined,
  { least, most }: { readonly least: number; readonly most: number },
): number | undefined {
  if (text === undefined) return undefined;
  const number = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(number >= least && number <= most)) {
    throw new Misuse(`${option} takes a whole number from ${least} to ${most}; it got "${text}".`);
  }
  return number;
}

const NO_TABLE =
  'This workbook has no operations table, so there are no days to plan. Add a table of kind "operations" with columns headed operation, hands-on, waiting and after; each row is a piece of work.';

/** The plan of a workbook, with what is wrong told; undefined where there is none. */
function planOf(book: Workbook, from: number | undefined, io: Io) {
  const { reading, hours, schedule, says } = planBook(book, {
    from,
    otherwise: dayOfClock(io.now()) + 1,
  });
  if (!reading.found) {
    io.err(NO_TABLE);
    return undefined;
  }
  const worked = readHours(book);
  const problems = [...reading.problems, ...worked.problems];
  for (const { at, says: what } of problems) io.err(`${cellOf(book, at)} ${what}`);
  for (const { says: what } of hours.problems) io.err(what);
  if (says !== undefined) io.err(says);
  if (schedule === undefined) return undefined;
  const taken = worked.rows.length === 0 ? undefined : takenOf(reading.operations, worked.rows);
  return { schedule, taken, troubled: problems.length > 0 || hours.problems.length > 0 };
}

function likelihoodOf(
  schedule: Schedule,
  asked: { readonly draws: number; readonly seed: number },
): Likelihood | undefined {
  return likelihood(schedule, asked)[0];
}
