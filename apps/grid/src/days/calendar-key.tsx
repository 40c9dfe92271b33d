import {
  calendarFile,
  eventsOf,
  readCalendarFile,
  type Schedule,
  sequenceAfter,
} from '@kerfbook/days';
import { type BookStore, fileNameFor, writeTrouble } from '@kerfbook/keeping';
import { newBookId } from '@kerfbook/keeping/shelf';
import { useState } from 'react';
import { download } from '../storage/download.ts';

interface CalendarKeyProps {
  readonly schedule: Schedule;
  readonly store: BookStore;
  /** The workbook of each of its jobs. */
  readonly bookIds: readonly string[];
  /** What the file is called. */
  readonly name: string;
}

/**
 * What is kept of the calendar files of a workbook: what it is known by, and the last one that had its days. Others may be
 * in it too, where several jobs were planned together.
 */
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

/**
 * Saves the days of one job or several as a calendar file; a later one moves what came with an earlier one, whether the
 * job stood alone in it or among others.
 */
export function CalendarKey({ schedule, store, bookIds, name }: CalendarKeyProps) {
  const [says, setSays] = useState<string>();
  const save = async (): Promise<void> => {
    const kept = await Promise.all(bookIds.map((id) => readKept(store, id)));
    const books = kept.map((one) => one?.book ?? newBookId());
    const before = kept.flatMap((one) =>
      one === undefined ? [] : eventsOf(readCalendarFile(one.file) ?? [], one.book),
    );
    const text = calendarFile(schedule, {
      books,
      now: new Date(),
      sequence: sequenceAfter(before),
      before,
    });
    if (text === undefined) {
      setSays('No operation takes any time, so there is nothing for a calendar to hold.');
      return;
    }
    // Kept first: a file that went out and is not known would be doubled by the next one.
    await store.setAll(
      new Map<string, unknown>(
        bookIds.map((id, i) => [
          keyOf(id),
          { book: books[i] ?? '', file: text } satisfies KeptCalendar,
        ]),
      ),
    );
    download(`${fileNameFor(name).replace(/\.kerfbook\.json$/, '')}.ics`, text, 'text/calendar');
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
