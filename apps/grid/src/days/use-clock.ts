import { type BookStore, writeTrouble } from '@kerfbook/keeping';
import { useEffect, useState } from 'react';
import type { Session } from '../session/session.ts';
import { type Clock, dayStarted, hoursRun, isDoubtful, keepClock, readClock } from './clock.ts';
import { workEdit } from './hours-edits.ts';

/** How often a running clock is shown anew, ms. */
const SHOWN_EVERY = 10_000;

/** The shortest stretch that is written down, hours: half a minute. */
const SHORTEST = 0.5 / 60;

/** A clock of a workbook, and what can be done with it. */
export interface RunningClock {
  /** Undefined until it is known whether one runs; null where none does. */
  readonly clock: Clock | null | undefined;
  /** What the device's clock shows. */
  readonly now: number;
  /** What was just done, or why it could not be. */
  readonly says: string | undefined;
  readonly start: (operation: { readonly id: string; readonly name: string }) => void;
  /** Writes down what the clock shows. */
  readonly stop: (isDone: boolean) => void;
  /** Writes down other hours than it shows; none where nothing is to be counted. */
  readonly settle: (hours: number | undefined, isDone: boolean) => void;
}

/**
 * The clock of a workbook as this device keeps it.
 * @param nameOf what an operation is called now
 */
export function useClock(
  session: Session,
  { store, bookId }: { readonly store: BookStore; readonly bookId: string },
  nameOf: (id: string) => string | undefined,
): RunningClock {
  const [clock, setClock] = useState<Clock | null>();
  const [now, setNow] = useState(() => Date.now());
  const [says, setSays] = useState<string>();
  useEffect(() => {
    let here = true;
    const look = (): void => {
      setNow(Date.now());
      readClock(store, bookId).then(
        (found) => {
          if (here) setClock(found ?? null);
        },
        (error: unknown) => {
          if (!here) return;
          setClock(null);
          setSays(`Whether a clock runs could not be read: ${writeTrouble(error)}`);
        },
      );
    };
    look();
    // A tablet that slept, or a page that was behind another one, finds the clock as it is now.
    document.addEventListener('visibilitychange', look);
    return () => {
      here = false;
      document.removeEventListener('visibilitychange', look);
    };
  }, [store, bookId]);
  const runs = clock !== undefined && clock !== null;
  useEffect(() => {
    if (!runs) return undefined;
    const timer = setInterval(() => setNow(Date.now()), SHOWN_EVERY);
    return () => clearInterval(timer);
  }, [runs]);
  const keep = (next: Clock | null, then?: string): void => {
    keepClock(store, bookId, next ?? undefined).then(
      () => {
        setClock(next);
        setNow(Date.now());
        setSays(
          store.lasting || next === null
            ? then
            : 'The clock is gone when this page closes: this browser does not let it store anything. Allow site data for this address and reload the page.',
        );
      },
      (error: unknown) => setSays(`Not kept on this device: ${writeTrouble(error)}`),
    );
  };
  const start: RunningClock['start'] = ({ id, name }) =>
    keep({ operation: id, name, started: Date.now() });
  const settle: RunningClock['settle'] = (hours, isDone) => {
    if (!runs) return;
    const name = nameOf(clock.operation) ?? clock.name;
    if (hours === undefined && !isDone) return keep(null, `Nothing was written down for ${name}.`);
    const work = {
      operation: name,
      day: dayStarted(clock),
      ...(hours === undefined ? {} : { hours }),
      isDone,
    };
    const done = session.apply(workEdit(session.book, work), `Hours of ${name}`);
    if (!done.ok) {
      session.hush();
      setSays(`The clock runs on, since nothing was written: ${done.says}`);
      return;
    }
    keep(null, saidOf(name, hours, isDone));
  };
  const stop: RunningClock['stop'] = (isDone) => {
    if (!runs) return;
    const at = Date.now();
    // It may have become doubtful since it was last shown: then it is asked about.
    if (isDoubtful(clock, at)) return setNow(at);
    const hours = hoursRun(clock, at);
    settle(hours < SHORTEST ? undefined : hours, isDone);
  };
  return { clock, now, says, start, stop, settle };
}

function saidOf(name: string, hours: number | undefined, isDone: boolean): string {
  const done = isDone ? ' It is done.' : '';
  if (hours === undefined) return `${name} is marked as done, without hours.`;
  return `${Math.round(hours * 60)} min written down for ${name}.${done}`;
}
