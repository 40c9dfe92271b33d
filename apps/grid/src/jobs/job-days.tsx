import {
  clock,
  type DayOfWork,
  dayOf,
  delayed,
  type JobsInTurn,
  type JobToDo,
  type Likelihood,
  likelyBy,
  planJobs,
  type Schedule,
  sayDay,
  takesTime,
  workOn,
  written,
} from '@kerfbook/days';
import type { Bookcase } from '@kerfbook/keeping';
import { useMemo, useState } from 'react';
import { today } from '../commands/usual.ts';
import { CalendarKey } from '../days/calendar-key.tsx';
import { triesSaid } from '../days/said.ts';
import { useLikelihood } from '../days/use-likelihood.ts';
import type { Session } from '../session/session.ts';
import { ChooseJobs } from './choose-jobs.tsx';
import { isToBuild, type JobLine, shownJobs } from './job-list.ts';
import { type OpenedJobs, useOpenJobs } from './open-jobs.ts';

interface JobDaysProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly lines: readonly JobLine[];
  /** Grows with every change of the workbook at hand. */
  readonly changes: number;
  readonly onClose: () => void;
}

/** Several jobs in one shop: which day each can be promised, what is done when, and what one that is late moves. */
export function JobDays({ session, bookcase, lines: all, changes, onClose }: JobDaysProps) {
  const lines = shownJobs(all, { shown: 'open', order: 'due', typed: '' });
  const [chosen, setChosen] = useState<ReadonlySet<string>>(
    () => new Set(lines.filter(isToBuild).map(({ id }) => id)),
  );
  const [from, setFrom] = useState(() => written((dayOf(today()) ?? 0) + 1));
  const wanted = lines.filter(({ id }) => chosen.has(id));
  const key = JSON.stringify(wanted.map(({ id, updated, facts }) => [id, updated, facts]));
  // biome-ignore lint/correctness/useExhaustiveDependencies: a price that comes later makes no other plan
  const some = useMemo(() => wanted, [key]);
  const opened = useOpenJobs(session, bookcase, some, changes);
  const day = dayOf(from);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook at hand changes within
  const plan = useMemo(
    () =>
      opened.left > 0 || opened.books.length === 0 || day === undefined
        ? undefined
        : planJobs(opened.books.map(toDo), day),
    [opened, day, changes],
  );
  return (
    <section className="jobs-page" aria-label="Days of the jobs">
      <header className="jobs-head">
        <h2>Days of the jobs</h2>
        <p className="actions">
          <button type="button" className="button" onClick={onClose}>
            Close
          </button>
        </p>
      </header>
      <fieldset className="jobs-choose">
        <ChooseJobs lines={lines} chosen={chosen} onChosen={setChosen} />
      </fieldset>
      <p className="jobs-find">
        <label>
          Begin on
          <input
            className="field"
            type="date"
            value={from}
            onChange={(event) => setFrom(event.target.value)}
          />
        </label>
      </p>
      {opened.troubles.map((trouble) => (
        <p key={trouble} className="complaint">
          {trouble}
        </p>
      ))}
      {day === undefined ? (
        <p className="complaint">Type the day on which the work begins.</p>
      ) : some.length === 0 ? (
        <p className="quiet">Choose the jobs to plan.</p>
      ) : opened.left > 0 || plan === undefined ? (
        <p className="quiet" role="status">
          Opening the workbooks …
        </p>
      ) : (
        <>
          {plan.troubles.map(({ job, says }) => (
            <p key={`${job} ${says}`} className="complaint">
              {`${opened.books[job]?.line.title ?? ''}: ${says}`}
            </p>
          ))}
          {plan.ok ? (
            <>
              <Plan plan={plan} />
              <CalendarKey
                schedule={plan.schedule}
                store={bookcase.store}
                bookIds={plan.jobs.map(({ job }) => opened.books[job]?.line.id ?? '')}
                name="Days of the jobs"
              />
            </>
          ) : (
            <p className="complaint" role="alert">
              {plan.says}
            </p>
          )}
        </>
      )}
    </section>
  );
}

function toDo({ line, book }: OpenedJobs['books'][number]): JobToDo {
  const due = line.facts.due === undefined ? undefined : dayOf(line.facts.due);
  return {
    name: line.title,
    source: book,
    isBegun: line.facts.state === 'in the shop',
    ...(due === undefined ? {} : { due }),
  };
}

const rounded = (count: number): number => Math.round(count * 100) / 100;

/** An operation that begins late, and by how many hours. */
interface Late {
  readonly which: string;
  readonly hours: string;
}

function Plan({ plan }: { readonly plan: JobsInTurn }) {
  const { jobs, notes } = plan;
  const [late, setLate] = useState<Late>({ which: '', hours: '8' });
  const odds = useLikelihood(plan.schedule);
  const hours = Number(late.hours);
  const one = plan.schedule.placed.find((placed) => keyOf(placed) === late.which);
  const isLate = one !== undefined && hours > 0 && hours <= MOST_LATE;
  const schedule = isLate
    ? delayed(plan.schedule, one.operation.id, hours, one.job)
    : plan.schedule;
  const { asked, begins } = schedule;
  const first = begins;
  const last = Math.max(...schedule.jobs.map(({ promise }) => promise));
  return (
    <>
      {asked === begins ? null : (
        <p className="quiet">{`${sayDay(asked)} is a day off: the work begins on ${sayDay(begins)}.`}</p>
      )}
      {notes.map((note) => (
        <p key={note} className="quiet">
          {note}
        </p>
      ))}
      <table className="jobs-table">
        <thead>
          <tr>
            <th scope="col">Job</th>
            <th scope="col">Hands-on</th>
            <th scope="col">Promise</th>
            <th scope="col">Due</th>
            <th scope="col">How likely</th>
            <th scope="col">{`${sayDay(first)} to ${sayDay(last)}`}</th>
          </tr>
        </thead>
        <tbody>
          {jobs.map(({ job: number, name, handsOn, due, promise: was }, job) => {
            const promise = schedule.jobs[job]?.promise ?? was;
            const over = due === undefined ? 0 : promise - due;
            return (
              <tr key={number}>
                <th scope="row">{name}</th>
                <td data-heads="Hands-on">{`${rounded(handsOn)} h`}</td>
                <td data-heads="Promise" className={over > 0 ? 'jobs-late' : undefined}>
                  {sayDay(promise)}
                  {promise === was ? '' : `, was ${sayDay(was)}`}
                </td>
                <td data-heads="Due">
                  {due === undefined
                    ? 'no due date'
                    : `${sayDay(due)}${over > 0 ? `, ${over} ${over === 1 ? 'day' : 'days'} too late` : ''}`}
                </td>
                <td data-heads="How likely">
                  {isLate ? 'not worked out' : likelySaid(odds.likelihood?.[job], due)}
                </td>
                <td>
                  <Bars schedule={schedule} job={job} first={first} last={last} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {odds.failed === undefined ? null : (
        <p className="complaint" role="alert">
          {odds.failed}
        </p>
      )}
      <p className="quiet">
        A bar is work, a line is waiting: glue, stain or coats left alone, while the hands are at
        another job.
      </p>
      <p className="jobs-find">
        <label>
          What if this begins late
          <select
            className="field"
            value={late.which}
            onChange={(event) => setLate({ ...late, which: event.target.value })}
          >
            <option value="">nothing</option>
            {plan.schedule.placed
              .filter(({ operation }) => takesTime(operation))
              .map((placed) => (
                <option key={keyOf(placed)} value={keyOf(placed)}>
                  {`${jobs[placed.job]?.name ?? ''}: ${placed.operation.name}`}
                </option>
              ))}
          </select>
        </label>
        <label>
          By hours
          <input
            className="field"
            inputMode="decimal"
            size={6}
            value={late.hours}
            onChange={(event) => setLate({ ...late, hours: event.target.value })}
          />
        </label>
      </p>
      {one !== undefined && !isLate ? (
        <p className="complaint">{`Type by how many hours, more than 0 and at most ${MOST_LATE}.`}</p>
      ) : null}
      <DayList schedule={schedule} names={jobs.map(({ name }) => name)} />
    </>
  );
}

/** How likely a job is done by the day it can be promised for, by which day it nearly always is, and by the day it is due. */
function likelySaid(odds: Likelihood | undefined, due: number | undefined): string {
  if (odds === undefined) return 'not known yet';
  const promised = `by the promise ${triesSaid(odds.byPromise)}, nine of ten by ${sayDay(odds.p90)}`;
  return due === undefined
    ? promised
    : `${promised}, by the due date ${triesSaid(likelyBy(odds, due))}`;
}

/** More is a slip of the pen: common practice, no source. */
const MOST_LATE = 2000;

const keyOf = ({ job, operation }: Schedule['placed'][number]): string => `${job} ${operation.id}`;

const DAY = 86_400;
/** Of a picture of the days of a job, units. */
const HIGH = 20;

interface BarsProps {
  readonly schedule: Schedule;
  readonly job: number;
  readonly first: number;
  readonly last: number;
}

/**
 * The days of a job as bars, each day as wide as its working hours; what they show stands in the table beside them and in
 * the list of each day.
 */
function Bars({ schedule, job, first, last }: BarsProps) {
  const days = last - first + 1;
  const { calendar } = schedule.inside;
  const x = (seconds: number): number => {
    const day = Math.floor(seconds / DAY);
    const [opens, closes] = [calendar.opens(day), calendar.closes(day)];
    return day - first + Math.min(1, Math.max(0, (seconds - opens) / (closes - opens)));
  };
  const all = Array.from({ length: days }, (_, i) => first + i);
  const own = schedule.placed.filter((one) => one.job === job);
  return (
    <svg
      className="jobs-bars"
      viewBox={`0 0 ${days} ${HIGH}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {all
        .filter((day) => !calendar.isWorked(day))
        .map((day) => (
          <rect key={day} className="jobs-off" x={day - first} y={0} width={1} height={HIGH} />
        ))}
      {own.map(({ operation, seconds: { start, worked, end } }) => (
        <g key={operation.id}>
          <rect
            className="jobs-wait"
            x={x(worked)}
            y={HIGH / 2 - 1}
            width={Math.max(0, x(end) - x(worked))}
            height={2}
          />
          {all.flatMap((day) => {
            const from = Math.max(start, calendar.opens(day));
            const to = Math.min(worked, calendar.closes(day));
            if (!calendar.isWorked(day) || from >= to) return [];
            const width = x(to) - x(from);
            return [
              <rect
                key={day}
                className="jobs-work"
                x={x(from)}
                y={3}
                width={width}
                height={HIGH - 6}
              />,
            ];
          })}
        </g>
      ))}
    </svg>
  );
}

/** What is to be done on a day, of all jobs. */
function DayList({
  schedule,
  names,
}: {
  readonly schedule: Schedule;
  readonly names: readonly string[];
}) {
  const [asked, setAsked] = useState<string>();
  const shown = asked ?? written(schedule.begins);
  const day = dayOf(shown);
  return (
    <>
      <p className="jobs-find">
        <label>
          What to do on
          <input
            className="field"
            type="date"
            value={shown}
            onChange={(event) => setAsked(event.target.value)}
          />
        </label>
      </p>
      {day === undefined ? null : <Day work={workOn(schedule, day)} names={names} />}
    </>
  );
}

function Day({ work, names }: { readonly work: DayOfWork; readonly names: readonly string[] }) {
  const { day, isWorked, inHand, waiting } = work;
  const isIdle = inHand.length + waiting.length === 0;
  const says = isWorked
    ? isIdle
      ? `${sayDay(day)}: nothing.`
      : undefined
    : `${sayDay(day)}: nobody works.`;
  return (
    <>
      {says === undefined ? null : <p>{says}</p>}
      {isIdle ? null : (
        <ul className="jobs-day">
          {inHand.map(({ placed, hours, from }) => (
            <li key={keyOf(placed)}>
              {`${clock(from)} ${names[placed.job] ?? ''}: ${placed.operation.name}, ${rounded(hours)} h`}
            </li>
          ))}
          {waiting.map((placed) => (
            <li key={`${keyOf(placed)} waits`} className="quiet">
              {`${names[placed.job] ?? ''}: ${placed.operation.name}, left alone until ${sayDay(placed.end.day)} ${clock(placed.end.hour)}`}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
