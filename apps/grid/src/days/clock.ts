import { dayOfClock, sayDay } from '@kerfbook/days';
import type { BookStore } from '@kerfbook/keeping';
import { timeOfDay } from '@kerfbook/keeping';

/** A clock that runs for an operation. It is the moment at which it was started, so that nothing has to count. */
export interface Clock {
  /** Id of the operation's row. */
  readonly operation: string;
  /** What the operation was called when it was started. */
  readonly name: string;
  /** ms since 1970. */
  readonly started: number;
}

const keyOf = (book: string): string => `clock:${book}`;

/** The clock that runs for a workbook on this device; nothing where none does. */
export async function readClock(
  store: Pick<BookStore, 'get'>,
  book: string,
): Promise<Clock | undefined> {
  const kept = await store.get(keyOf(book));
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { operation, name, started } = kept as { readonly [K in keyof Clock]?: unknown };
  if (typeof operation !== 'string' || typeof name !== 'string') return undefined;
  if (typeof started !== 'number' || !Number.isFinite(started)) return undefined;
  return { operation, name, started };
}

/** Keeps the clock that runs; `undefined` once none does. */
export const keepClock = (
  store: Pick<BookStore, 'set'>,
  book: string,
  clock: Clock | undefined,
): Promise<void> => store.set(keyOf(book), clock);

const HOUR = 3_600_000;

/** More hours than this at a stretch are asked about (common practice, no source). */
export const LONGEST = 10;

/** Hours that a clock has run. */
export const hoursRun = ({ started }: Clock, now: number): number => (now - started) / HOUR;

/**
 * Whether it is doubtful how long the work took: the clock ran over a midnight, longer than one works at a stretch, or
 * since a moment that is still to come.
 */
export function isDoubtful(clock: Clock, now: number): boolean {
  const run = hoursRun(clock, now);
  return run < 0 || run > LONGEST || dayStarted(clock) !== dayOfClock(new Date(now));
}

/** The day on which it was started. */
export const dayStarted = ({ started }: Clock): number => dayOfClock(new Date(started));

/** `yesterday at 16:10`. */
export function startSaid(clock: Clock, now: number): string {
  const ago = dayOfClock(new Date(now)) - dayStarted(clock);
  const day = ago === 0 ? 'today' : ago === 1 ? 'yesterday' : `on ${sayDay(dayStarted(clock))}`;
  return `${day} at ${timeOfDay(clock.started)}`;
}

/** Hours as they are said of a clock: `1 h 25 min`, `2 h`. */
export function runSaid(hours: number): string {
  const minutes = Math.max(0, Math.floor(hours * 60));
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (whole === 0) return `${rest} min`;
  return rest === 0 ? `${whole} h` : `${whole} h ${rest} min`;
}
