import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { dayOf, written } from '../calendar/day-numbers.ts';
import { USUAL_SHOP } from '../calendar/shop-days.ts';
import type { Operation } from '../plan/operation.ts';
import { scheduleJobs } from '../plan/schedule.ts';
import { operation } from '../testing/job-book.ts';
import {
  bookCalled,
  bookOf,
  calendarFile,
  eventsOf,
  type KeptEvent,
  readCalendarFile,
  sequenceAfter,
} from './calendar-file.ts';

const MONDAY = dayOf('2026-11-30') ?? 0;
const NOW = new Date('2026-11-29T20:15:30.250Z');

const plan = (operations: readonly Operation[], from = MONDAY) =>
  scheduleJobs([{ name: 'Table', operations }], USUAL_SHOP, from);
const fileOf = (
  operations: readonly Operation[],
  more: { sequence?: number; before?: readonly KeptEvent[]; from?: number } = {},
): string =>
  calendarFile(plan(operations, more.from), {
    books: ['book1'],
    now: NOW,
    sequence: more.sequence ?? 0,
    before: more.before ?? [],
  }) ?? '';

/** What an independent reader makes of a file (ical.js, which Kerfbook does not ship). */
const eventsIn = (text: string): readonly ICAL.Event[] =>
  new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((one) => new ICAL.Event(one));

/** A calendar that files are read into one after the other: an event takes the place of one with its UID, if it is newer. */
class Diary {
  readonly events = new Map<string, ICAL.Event>();

  take(text: string): void {
    for (const event of eventsIn(text)) {
      const there = this.events.get(event.uid);
      if (there === undefined || event.sequence > there.sequence) this.events.set(event.uid, event);
    }
  }

  /** What its owner sees. */
  get shown(): readonly string[] {
    return [...this.events.values()]
      .filter(({ component }) => component.getFirstPropertyValue('status') !== 'CANCELLED')
      .map(({ summary, startDate, endDate }) => `${startDate} ${endDate} ${summary}`)
      .sort();
  }
}

const JOB = [
  operation('mill', 9),
  operation('glue', 2, { after: ['mill'], waiting: 12, machines: ['clamps'] }),
  operation('dry', 0, { after: ['glue'], waiting: 30 }),
  operation('none', 0, { after: ['dry'] }),
];

describe('a calendar file', () => {
  it('has an event of whole days for each operation that takes time, as another reader reads it', () => {
    const text = fileOf(JOB, { sequence: 3 });
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toMatch(/Kerfbook/);
    expect(calendar.getFirstProperty('method')).toBeNull();
    expect(
      eventsIn(text).map((event) => [
        event.uid,
        event.summary,
        event.startDate.isDate,
        `${event.startDate}`,
        `${event.endDate}`,
        event.sequence,
        `${event.component.getFirstPropertyValue('dtstamp')}`,
        event.component.getFirstPropertyValue('status'),
      ]),
    ).toEqual(
      [
        ['mill.book1@kerfbook', 'mill (Table)', true, '2026-11-30', '2026-12-02'],
        ['glue.book1@kerfbook', 'glue (Table)', true, '2026-12-01', '2026-12-02'],
        ['dry.book1@kerfbook', 'dry (Table)', true, '2026-12-02', '2026-12-04'],
      ].map((event) => [...event, 3, '2026-11-29T20:15:30Z', 'CONFIRMED']),
    );
    expect(eventsIn(text)[1]?.description).toBe(
      '2 h of work, from 11:00.\nThen left alone for 12 h, until Wed 2 Dec 2026, 01:00.\nNeeds: clamps.',
    );
  });

  it('moves what came with an earlier one and never doubles it; what is gone is called off', () => {
    const diary = new Diary();
    const first = fileOf(JOB);
    diary.take(first);
    diary.take(first);
    expect(diary.shown).toHaveLength(3);
    const before = readCalendarFile(first) ?? [];
    // A day later, with another name, without the drying, and with something new.
    const second = fileOf(
      [
        operation('mill', 9, { name: 'Mill all boards' }),
        operation('glue', 2, { after: ['mill'] }),
        operation('oil', 1, { after: ['glue'] }),
      ],
      { sequence: 1, before, from: MONDAY + 1 },
    );
    diary.take(second);
    const now = [
      '2026-12-01 2026-12-03 Mill all boards (Table)',
      '2026-12-02 2026-12-03 glue (Table)',
      '2026-12-02 2026-12-03 oil (Table)',
    ];
    expect(diary.shown).toEqual(now);
    diary.take(first);
    expect(diary.shown).toEqual(now);
    expect(diary.events.size).toBe(4);
    // Back again: the one that was called off stands as before.
    const third = fileOf(JOB, { sequence: 2, before: readCalendarFile(second) ?? [] });
    diary.take(third);
    expect(diary.shown.filter((one) => one.includes('dry'))).toHaveLength(1);
    expect(diary.shown).toHaveLength(3);
  });

  it('keeps any text, in lines of at most 75 octets that break no character', () => {
    const texts = fc.string({
      unit: fc.oneof(
        fc.constantFrom(...',;:\\\n"äß木😀 '),
        fc.string({ minLength: 1, maxLength: 1 }),
      ),
      maxLength: 120,
    });
    fc.assert(
      fc.property(texts, (name) => {
        const text = fileOf([operation('a', 1, { name })]);
        for (const line of text.split('\r\n')) {
          expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
          expect(line).not.toMatch(/[\n\r\ufffd]/);
        }
        // What no calendar can hold is left out: control characters, of which a line's end alone has a sign.
        const kept = `${name} (Table)`
          .replaceAll(/\r\n|\r/g, '\n')
          .replaceAll(/(?![\t\n])\p{Cc}/gu, '');
        expect(eventsIn(text)[0]?.summary).toBe(kept);
        expect(readCalendarFile(text)?.[0]?.summary).toBe(kept);
      }),
      { seed: 20, numRuns: 300 },
    );
  });

  it('is read again as it was written, and no other calendar is taken for one of ours', () => {
    const events = readCalendarFile(fileOf(JOB, { sequence: 4 })) ?? [];
    expect(
      events.map(({ from, until, sequence }) => [written(from), written(until), sequence]),
    ).toEqual([
      ['2026-11-30', '2026-12-02', 4],
      ['2026-12-01', '2026-12-02', 4],
      ['2026-12-02', '2026-12-04', 4],
    ]);
    expect(bookOf(events)).toBe('book1');
    expect(
      readCalendarFile('BEGIN:VCALENDAR\r\nPRODID:-//A//B//EN\r\nEND:VCALENDAR\r\n'),
    ).toBeUndefined();
  });

  it('of several jobs is told apart again, and each goes on by itself or with the others', () => {
    const jobs = [
      { name: 'Table', operations: JOB },
      { name: 'Bench', operations: JOB.slice(0, 2) },
    ];
    const both = scheduleJobs(jobs, USUAL_SHOP, MONDAY);
    const diary = new Diary();
    const take = (text: string | undefined): readonly KeptEvent[] => {
      diary.take(text ?? '');
      return readCalendarFile(text ?? '') ?? [];
    };
    const first = take(
      calendarFile(both, { books: ['book1', 'book2'], now: NOW, sequence: 0 }) ?? '',
    );
    expect(eventsOf(first, 'book1')).toHaveLength(3);
    expect(eventsOf(first, 'book2')).toHaveLength(2);
    expect(bookCalled(first, 'Bench')).toBe('book2');
    expect(bookCalled(first, 'Chair')).toBeUndefined();
    expect(sequenceAfter(first)).toBe(1);
    expect(sequenceAfter([])).toBe(0);
    // The table alone, with an operation less: the days of the bench stay, and nothing is doubled.
    const before = eventsOf(first, 'book1');
    const alone = fileOf(JOB.slice(0, 2), { sequence: sequenceAfter(before), before });
    expect(take(alone)).toHaveLength(3);
    expect(diary.events.size).toBe(5);
    const gone = [...diary.events.values()].filter(
      (event) => event.component.getFirstPropertyValue('status') === 'CANCELLED',
    );
    expect(gone.map(({ summary }) => summary)).toEqual([expect.stringMatching(/\(Table\)$/)]);
  });

  it('is none where nothing takes time', () => {
    expect(fileOf([operation('a', 0)])).toBe('');
  });

  it('knows operations by ids that differ, whatever letters are in them', () => {
    const ids = ['r1', 'r 1', 'r.1', 'r_1', 'r:1'];
    const text = fileOf(ids.map((id) => operation(id, 1)));
    expect(new Set(eventsIn(text).map(({ uid }) => uid)).size).toBe(ids.length);
  });
});
