import { z } from 'zod';
import { Done, Id, line, MOST_PACKED, Packed, Person, Sign, Time } from './common.ts';
import { route } from './route.ts';

const book = z.strictObject({ book: Id });

const BookListed = z.strictObject({
  id: Id,
  title: z.string(),
  /** Number of its last state. */
  head: z.int(),
  changed: Time,
  owner: Person,
  /** Who else may open and change it. */
  with: z.array(Person),
});

const MOST_STATE = MOST_PACKED + 64 * 1024;
const DeviceName = line(60);

/**
 * A member's own workbooks, as they follow him from device to device, and those that two share. The club keeps states,
 * one after the other; a state is taken only on top of the last one, so that nothing overwrites what it has not seen.
 * Two states that went apart are put together by a device (rules H9, H10), never here.
 */
export const BOOKS = {
  books: route('GET', '/club/books', 'member', {
    answer: z.strictObject({ books: z.array(BookListed) }),
  }),
  /** Sent again with the same id and sign, it is the same workbook. */
  keepBook: route('POST', '/club/books', 'member', {
    body: z.strictObject({
      id: Id,
      title: line(200),
      text: Packed,
      sign: Sign,
      device: DeviceName,
    }),
    answer: z.strictObject({ head: z.int() }),
    most: MOST_STATE,
  }),
  /** What stands now; without a text where `since` is the last state. */
  book: route('GET', '/club/books/:book', 'member', {
    params: book,
    query: z.strictObject({ since: z.coerce.number().int().min(0).max(1e9).optional() }),
    answer: z.strictObject({
      book: BookListed,
      /** The last state, where it is not the one that is known. */
      state: z
        .strictObject({ text: Packed, sign: Sign, by: Person, device: z.string(), at: Time })
        .optional(),
    }),
  }),
  /**
   * Takes a state on top of `parent`; refused as `changed`, with what stands, where that is not the last. A device that
   * did not hear the answer finds in `states` by its sign whether it was taken.
   */
  addState: route('POST', '/club/books/:book/states', 'member', {
    params: book,
    body: z.strictObject({
      parent: z.int(),
      title: line(200),
      text: Packed,
      sign: Sign,
      device: DeviceName,
      /** How many changes it holds. */
      changes: z.int().min(0),
    }),
    answer: z.strictObject({ head: z.int() }),
    most: MOST_STATE,
  }),
  /** Who changed it when, the last 100 states. */
  states: route('GET', '/club/books/:book/states', 'member', {
    params: book,
    answer: z.strictObject({
      states: z.array(
        z.strictObject({
          number: z.int(),
          sign: Sign,
          by: Person,
          device: z.string(),
          at: Time,
          changes: z.int(),
        }),
      ),
    }),
  }),
  /** By its owner: it goes from the club, and stays on the devices that have it. */
  letBookGo: route('DELETE', '/club/books/:book', 'member', { params: book, answer: Done }),
  shareBook: route('PUT', '/club/books/:book/with/:member', 'member', {
    params: z.strictObject({ book: Id, member: Id }),
    answer: Done,
  }),
  /** By its owner, or by the one it was shared with. */
  unshareBook: route('DELETE', '/club/books/:book/with/:member', 'member', {
    params: z.strictObject({ book: Id, member: Id }),
    answer: Done,
  }),
} as const;

/** A workbook that the club keeps, as lists show it. */
export type BookListed = z.infer<typeof BookListed>;
