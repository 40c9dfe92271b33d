import { calendarFile, readCalendarFile, type Schedule } from '@kerfbook/days';
import { type BookStore, fileNameFor, writeTrouble } from '@kerfbook/keeping';
import { newBookId } from '@kerfbook/keeping/shelf';
import { useState } from 'react';
import { download } from '../storage/download.ts';

interface CalendarKeyProps {
  readonly schedule: Schedule;
  readonly store: BookStore;
  readonly bookId: string;
}

/** What is kept of the calendar files of a workbook: what it is known by, and the last one. */
interface KeptCalendar {
  readonly book: string;
  readonly file: string;
}

const keyOf = (book: string): string => `calendar:${book}`;

async function readKept(store: BookStore, book: string): Promise<KeptCalendar | undefined> {
  const kept = await store.get(keyOf(book));
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { book: known, file } = kept as { readonly [K in keyof KeptCalendar]?: unknown };
  return typeof known === 'string' && typeof file === 'string' && /^[\w-]+$/.test(known)
    ? { book: known, file }
    : undefined;
}

/** Saves the days as a calendar file; a later one moves what came with an earlier one. */
export function CalendarKey({ schedule, store, bookId }: CalendarKeyProps) {
  const [says, setSays] = useState<string>();
  const save = async (): Promise<void> => {
    const kept = await readKept(store, bookId);
    const before = kept === undefined ? [] : (readCalendarFile(kept.file) ?? []);
    const book = kept?.book ?? newBookId();
    const text = calendarFile(schedule, {
      books: [book],
      now: new Date(),
      sequence: before.reduce((next, { sequence }) => Math.max(next, sequence + 1), 0),
      before,
    });
    if (text === undefined) {
      setSays('No operation takes any time, so there is nothing for a calendar to hold.');
      return;
    }
    // Kept first: a file that went out and is not known would be doubled by the next one.
    await store.set(keyOf(bookId), { book, file: text } satisfies KeptCalendar);
    const name = fileNameFor(schedule.jobs[0]?.name ?? 'Days').replace(/\.kerfbook\.json$/, '');
    download(`${name}.ics`, text, 'text/calendar');
    setSays(
      before.length === 0
        ? 'Saved. Read it into your calendar; the next one moves these days there.'
        : 'Saved. Read it into the same calendar as before: it moves what is there.',
    );
  };
  return (
    <section className="days-part days-calendar" aria-label="Calendar">
      <button
        type="button"
        className="button"
        onClick={() => {
          save().catch((error: unknown) => setSays(`Not saved: ${writeTrouble(error)}`));
        }}
      >
        Save a calendar file
      </button>{' '}
      <span role="status">{says ?? ''}</span>
    </section>
  );
}
