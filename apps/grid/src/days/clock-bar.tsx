import {
  BeyondCalendar,
  clock as clockText,
  dayOfClock,
  type Schedule,
  takesTime,
  workOn,
} from '@kerfbook/days';
import { useState } from 'react';
import { hoursRun, isDoubtful, LONGEST, runSaid, startSaid } from './clock.ts';
import { hoursTyped } from './typed.ts';
import type { RunningClock } from './use-clock.ts';

interface ClockBarProps {
  readonly running: RunningClock;
  /** Operations that can be worked at, and when. */
  readonly schedule: Schedule | undefined;
  /** What is done already. */
  readonly done: ReadonlySet<string>;
  /** Whether the workbook may be changed. */
  readonly mayChange: boolean;
}

/** Starting and stopping a clock for an operation: one press, with a gloved finger. */
export function ClockBar({ running, schedule, done, mayChange }: ClockBarProps) {
  const { clock, now, says, start, stop } = running;
  const [chosen, setChosen] = useState<string>();
  const operations = (schedule?.placed ?? []).filter(
    ({ operation }) => operation.handsOn > 0 || !takesTime(operation),
  );
  if (operations.length === 0 && (clock === undefined || clock === null)) return null;
  const next = chosen ?? nextOf(schedule, done, now);
  const operation =
    operations.find(({ operation: { id } }) => id === next)?.operation ?? operations[0]?.operation;
  const isAsked = clock !== null && clock !== undefined && isDoubtful(clock, now);
  return (
    <section className="clock-bar" aria-label="Clock">
      {clock === undefined ? null : clock === null ? (
        <p className="clock-line">
          <label className="clock-what">
            <span>Work on</span>
            <select
              className="field"
              value={operation?.id ?? ''}
              onChange={({ target }) => setChosen(target.value)}
            >
              {operations.map(({ operation: { id, name } }) => (
                <option key={id} value={id}>
                  {name}
                  {done.has(id) ? ' (done)' : ''}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            className="button button-main clock-key"
            disabled={!mayChange || operation === undefined}
            onClick={() => operation && start(operation)}
          >
            Start the clock
          </button>
        </p>
      ) : isAsked ? (
        <Overnight running={running} schedule={schedule} />
      ) : (
        <p className="clock-line">
          <span className="clock-what">
            <b>{clock.name}</b>{' '}
            <span className="quiet">since {startSaid(clock, now).replace(/^today at /, '')}</span>{' '}
            <b className="clock-run">{runSaid(hoursRun(clock, now))}</b>
          </span>
          <button
            type="button"
            className="button button-main clock-key"
            onClick={() => stop(false)}
          >
            Stop
          </button>
          <button type="button" className="button clock-key" onClick={() => stop(true)}>
            Stop, it is done
          </button>
        </p>
      )}
      <p role="status" className="clock-says">
        {says ?? ''}
      </p>
    </section>
  );
}

/** What is in hand today, or the first that is not done. */
function nextOf(
  schedule: Schedule | undefined,
  done: ReadonlySet<string>,
  now: number,
): string | undefined {
  if (schedule === undefined) return undefined;
  const inHand = workToday(schedule, now).find((id) => !done.has(id));
  if (inHand !== undefined) return inHand;
  const left = schedule.placed
    .filter(({ operation }) => operation.handsOn > 0 && !done.has(operation.id))
    .toSorted((one, other) => one.seconds.start - other.seconds.start);
  return left[0]?.operation.id;
}

function workToday(schedule: Schedule, now: number): readonly string[] {
  const today = dayOfClock(new Date(now));
  if (today < schedule.asked) return [];
  try {
    return workOn(schedule, today).inHand.map(({ placed }) => placed.operation.id);
  } catch (error) {
    if (error instanceof BeyondCalendar) return [];
    throw error;
  }
}

/** A clock that ran overnight, or longer than one works: how long it took is asked, and nothing is taken silently. */
function Overnight({
  running: { clock, now, settle },
  schedule,
}: Pick<ClockBarProps, 'running' | 'schedule'>) {
  const [text, setText] = useState('');
  const [isDone, setDone] = useState(false);
  const [wrong, setWrong] = useState<string>();
  if (clock === null || clock === undefined) return null;
  const run = hoursRun(clock, now);
  const evening = untilEvening(clock.started, schedule);
  return (
    <div className="clock-asked" role="alertdialog" aria-label="How long did it take?">
      <p>
        <b>
          You started {clock.name} {startSaid(clock, now)}. How long did it take?
        </b>{' '}
        {run < 0
          ? 'That is still to come: this device’s clock was set otherwise.'
          : run > LONGEST
            ? `The clock ran on for ${runSaid(run)}.`
            : 'The clock ran on over midnight.'}
      </p>
      <p className="clock-answers">
        {evening === undefined ? null : (
          <button
            type="button"
            className="button clock-key"
            onClick={() => settle(evening.hours, isDone)}
          >
            Until {evening.said}: {runSaid(evening.hours)}
          </button>
        )}
        {run <= 0 ? null : (
          <button type="button" className="button clock-key" onClick={() => settle(run, isDone)}>
            All of it: {runSaid(run)}
          </button>
        )}
        <button type="button" className="button clock-key" onClick={() => settle(undefined, false)}>
          Do not count it
        </button>
      </p>
      <form
        className="clock-answers"
        onSubmit={(event) => {
          event.preventDefault();
          const hours = hoursTyped(text);
          if (typeof hours === 'string') setWrong(hours);
          else settle(hours, isDone);
        }}
      >
        <label>
          <span>It took</span>
          <input
            className="field"
            value={text}
            placeholder="1 h 30 min"
            autoComplete="off"
            aria-invalid={wrong !== undefined}
            onChange={({ target }) => {
              setText(target.value);
              setWrong(undefined);
            }}
          />
        </label>
        <button type="submit" className="button clock-key">
          Write it down
        </button>
        <label className="clock-tick">
          <input
            type="checkbox"
            checked={isDone}
            onChange={({ target }) => setDone(target.checked)}
          />
          It is done
        </label>
      </form>
      {wrong === undefined ? null : (
        <p role="alert" className="clock-wrong">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** The end of the working day on which it was started, where that came after. */
function untilEvening(
  started: number,
  schedule: Schedule | undefined,
): { readonly hours: number; readonly said: string } | undefined {
  if (schedule === undefined) return undefined;
  const { begins, hoursADay } = schedule.shop;
  const at = new Date(started);
  const hour = at.getHours() + at.getMinutes() / 60 + at.getSeconds() / 3600;
  const hours = begins + hoursADay - hour;
  if (hours <= 0 || hours > LONGEST) return undefined;
  return { hours, said: `${clockText(begins + hoursADay)} that day` };
}
