import {
  bookCalled,
  bookOf,
  calendarFile,
  eventsOf,
  type KeptEvent,
  readCalendarFile,
  type Schedule,
  sequenceAfter,
} from '@kerfbook/days';
import type { ExitCode, Io } from './io.ts';

/** A calendar file that is to be written. */
export interface CalendarFiles {
  readonly ics: string;
  /** The one that was written last. */
  readonly since: string | undefined;
  /** What is there may be overwritten. */
  readonly force: boolean;
}

/**
 * Writes the calendar file of one job or several, as the next one after the one that was made last.
 * @param paths of the workbooks of its jobs, in their order
 */
export async function writeCalendar(
  schedule: Schedule,
  paths: readonly string[],
  { ics, since, force }: CalendarFiles,
  io: Io,
): Promise<ExitCode> {
  const last = since === undefined ? [] : await keptIn(since, io);
  if (last === undefined) return 2;
  const alone = paths.length === 1 ? onlyBookOf(last) : undefined;
  const books: string[] = [];
  for (const [job, path] of paths.entries()) {
    const name = schedule.jobs[job]?.name ?? '';
    const own = idFrom(`${name}\n${path.replace(/^.*[\\/]/, '')}`);
    // Two jobs may have one title, and their files one name in two folders.
    const known = [bookCalled(last, name), alone, own, `${own}-${job}`];
    books.push(known.find((id) => id !== undefined && !books.includes(id)) ?? own);
  }
  // What the file says of jobs that are not planned now stays as it is in the calendar.
  const before = books.flatMap((book) => eventsOf(last, book));
  const text = calendarFile(schedule, {
    books,
    now: io.now(),
    sequence: sequenceAfter(last),
    before,
  });
  if (text === undefined) {
    io.err(`No operation takes any time, so there is nothing for ${ics} to hold.`);
    return 1;
  }
  const trouble = await io.write(ics, text, force);
  if (trouble === undefined) return 0;
  io.err(trouble);
  return 2;
}

async function keptIn(path: string, io: Io): Promise<readonly KeptEvent[] | undefined> {
  const read = await io.read(path);
  const kept = read.ok ? readCalendarFile(read.text) : undefined;
  if (!read.ok) io.err(read.says);
  else if (kept === undefined) {
    io.err(`${path} is no calendar file that was made here; give the one that --ics wrote last.`);
  }
  return kept;
}

/** The workbook that all events are of, so that it is the same one where it is called otherwise now. */
function onlyBookOf(events: readonly KeptEvent[]): string | undefined {
  const book = bookOf(events);
  const isOnly = book !== undefined && eventsOf(events, book).length === events.length;
  return isOnly ? book : undefined;
}

/**
 * What a workbook that has no id is known by in calendars: the same title in a file of the same name is the same
 * workbook (FNV-1a of 64 bits; from memory).
 */
function idFrom(words: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of new TextEncoder().encode(words)) {
    hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
  }
  return hash.toString(16).padStart(16, '0');
}
