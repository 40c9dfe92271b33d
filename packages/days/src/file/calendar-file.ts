import { dayOf, sayDay, written } from '../calendar/day-numbers.ts';
import { clock } from '../calendar/moments.ts';
import { takesTime } from '../plan/operation.ts';
import type { Placed, Schedule } from '../plan/schedule.ts';
import { escaped, folded, unescaped, unfolded } from './content-lines.ts';

const PRODUCT = '-//Kerfbook//Days of a job//EN';
const OURS = 'kerfbook';

/** An event as it was handed out before. */
export interface KeptEvent {
  /** What it is known by. */
  readonly uid: string;
  /** Which state of it that was. */
  readonly sequence: number;
  /** Its first day. */
  readonly from: number;
  /** The first day after it. */
  readonly until: number;
  /** What it was called. */
  readonly summary: string;
}

/** What a calendar file says beside the days. */
export interface CalendarOptions {
  /** What the workbook of each job is known by, for ever: the same for no other workbook. Letters, digits, - and _. */
  readonly books: readonly string[];
  /** When the file is made. */
  readonly now: Date;
  /** Higher than that of any file of this job before; 0 for the first. */
  readonly sequence: number;
  /** What was handed out before. Events that are in the plan no more are called off. */
  readonly before?: readonly KeptEvent[];
}

/**
 * The operations of a plan as an iCalendar file (RFC 5545): an event of whole days each, from the day on which one turns
 * to it to the day on which the work of it ends. Who reads in a later file moves what came with an earlier one: an
 * operation keeps its UID whatever it is called and wherever it stands. Undefined where there would be no event at all,
 * which no calendar may be without.
 */
export function calendarFile(schedule: Schedule, options: CalendarOptions): string | undefined {
  const { books, now, sequence, before = [] } = options;
  const stamp = now.toISOString().replaceAll(/[-:]|\.\d+/g, '');
  const event = (lines: readonly string[]): readonly string[] => [
    'BEGIN:VEVENT',
    ...lines,
    `DTSTAMP:${stamp}`,
    `SEQUENCE:${sequence}`,
    'END:VEVENT',
  ];
  const planned = schedule.placed.filter(({ operation }) => takesTime(operation));
  const uids = planned.map(({ job, operation }) => uidOf(books[job] ?? '', operation.id));
  const gone = before.filter(({ uid }) => !uids.includes(uid));
  if (planned.length + gone.length === 0) return undefined;
  const events = [
    ...planned.map((placed, i) =>
      event([`UID:${uids[i]}`, ...linesOf(placed, schedule), 'STATUS:CONFIRMED']),
    ),
    ...gone.map(({ uid, from, until, summary }) =>
      event([
        `UID:${uid}`,
        ...spanOf(from, until),
        `SUMMARY:${escaped(summary)}`,
        'STATUS:CANCELLED',
      ]),
    ),
  ];
  return folded([
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    `PRODID:${PRODUCT}`,
    'CALSCALE:GREGORIAN',
    ...events.flat(),
    'END:VCALENDAR',
  ]);
}

/** @throws RangeError for an id that could not be told from another one */
function uidOf(book: string, operation: string): string {
  const id = /^[\w-]+$/;
  if (!id.test(book)) throw new RangeError(`"${book}" is no id of a workbook`);
  const plain = operation.replaceAll(
    /[^A-Za-z0-9-]/g,
    (one) => `_${one.codePointAt(0)?.toString(16)}_`,
  );
  return `${plain}.${book}@${OURS}`;
}

/** The id of the workbook that an event is of. */
const bookIn = ({ uid }: KeptEvent): string | undefined => /\.([\w-]+)@/.exec(uid)?.[1];

/** The id of the workbook that the first event of a kept file is of. */
export const bookOf = ([first]: readonly KeptEvent[]): string | undefined =>
  first === undefined ? undefined : bookIn(first);

/** The events of one workbook among those of several jobs. */
export const eventsOf = (events: readonly KeptEvent[], book: string): readonly KeptEvent[] =>
  events.filter((event) => bookIn(event) === book);

/** The id of the workbook whose events bear the name of a job; undefined where none do, or those of several. */
export function bookCalled(events: readonly KeptEvent[], job: string): string | undefined {
  const named = events.filter(({ summary }) => summary.endsWith(` (${job})`));
  const books = new Set(named.map(bookIn));
  return books.size === 1 ? bookOf(named) : undefined;
}

/** The sequence of the file that comes after these events: higher than any of them. */
export const sequenceAfter = (events: readonly KeptEvent[]): number =>
  events.reduce((next, { sequence }) => Math.max(next, sequence + 1), 0);

const basic = (day: number): string => written(day).replaceAll('-', '');

/** Whole days: the end is the first day that is not of it any more (RFC 5545, 3.6.1). */
const spanOf = (from: number, until: number): readonly string[] => [
  `DTSTART;VALUE=DATE:${basic(from)}`,
  `DTEND;VALUE=DATE:${basic(until)}`,
];

function linesOf(placed: Placed, schedule: Schedule): readonly string[] {
  const { operation, start, worked, end, job } = placed;
  const last = operation.handsOn > 0 ? worked : end;
  const until = Math.max(last.day, start.day) + 1;
  const name = schedule.jobs[job]?.name ?? '';
  return [
    ...spanOf(start.day, until),
    `SUMMARY:${escaped(name === '' ? operation.name : `${operation.name} (${name})`)}`,
    `DESCRIPTION:${escaped(descriptionOf(placed))}`,
  ];
}

function descriptionOf({ operation, start, end }: Placed): string {
  const hours = (count: number): string => `${Math.round(count * 100) / 100} h`;
  const says = [
    ...(operation.handsOn > 0
      ? [`${hours(operation.handsOn)} of work, from ${clock(start.hour)}.`]
      : []),
    ...(operation.waiting > 0
      ? [
          `Then left alone for ${hours(operation.waiting)}, until ${sayDay(end.day)}, ${clock(end.hour)}.`,
        ]
      : []),
    ...(operation.who.length > 0 ? [`Who: ${operation.who.join(', ')}.`] : []),
    ...(operation.machines.length > 0 ? [`Needs: ${operation.machines.join(', ')}.`] : []),
  ];
  return says.join('\n');
}

/** The events of a file that was made here; undefined where it was not. */
export function readCalendarFile(text: string): readonly KeptEvent[] | undefined {
  const lines = unfolded(text.replace(/^\ufeff/, ''));
  if (!lines.includes(`PRODID:${PRODUCT}`)) return undefined;
  const events: KeptEvent[] = [];
  let fields = new Map<string, string>();
  for (const line of lines) {
    const [, name = '', value = ''] = /^([A-Z-]+)(?:;[^:]*)?:(.*)$/.exec(line) ?? [];
    if (line === 'BEGIN:VEVENT') fields = new Map();
    else if (line === 'END:VEVENT') {
      const event = keptOf(fields);
      if (event !== undefined) events.push(event);
    } else fields.set(name, value);
  }
  return events;
}

function keptOf(fields: ReadonlyMap<string, string>): KeptEvent | undefined {
  const day = (name: string): number | undefined =>
    dayOf((fields.get(name) ?? '').replace(/^(\d{4})(\d\d)(\d\d)$/, '$1-$2-$3'));
  const [uid, from, until] = [fields.get('UID'), day('DTSTART'), day('DTEND')];
  const sequence = Number(fields.get('SEQUENCE') ?? 0);
  if (uid === undefined || from === undefined || until === undefined) return undefined;
  if (!Number.isInteger(sequence)) return undefined;
  return { uid, sequence, from, until, summary: unescaped(fields.get('SUMMARY') ?? '') };
}
