import type { BookStore } from './book-store.ts';
import type { Locks } from './locks.ts';
import { signOf } from './sign.ts';

/** What was handed to a customer: a page as it was, with its number and day. It is never changed. */
export interface SentPage {
  /** Its number: no other on this device has it, and later ones are higher. */
  readonly number: number;
  /** What it is: `quote`, `care`, `receipt`. */
  readonly kind: string;
  /** The day that stands on it, `2026-03-14`. */
  readonly day: string;
  /** The page, letter by letter. */
  readonly page: string;
  /** SHA-256 of the page, so that it can be told to be the one that was sent. */
  readonly sign: string;
  /** When it was kept, ms since 1970. */
  readonly at: number;
  /** What a receipt says was paid. */
  readonly paid?: number;
}

/** What is kept, before it has a number. */
export interface PageToSend {
  /** What it is. */
  readonly kind: string;
  /** The day that stands on it. */
  readonly day: string;
  /** Makes the page with its number on it. */
  readonly page: (number: number) => string;
  /** What a receipt says was paid. */
  readonly paid?: number;
}

/** The highest number given on this device; it stays when the workbook goes. */
const COUNTER = 'sentnumber';
const LOCK = 'kerfbook:sent';
/** Keys are read in the order of their letters. */
const DIGITS = 7;
const MOST = 10 ** DIGITS - 1;

const keyOf = (book: string, number: number): string =>
  `sent:${book}:${String(number).padStart(DIGITS, '0')}`;

/** The number that the next page gets, as far as can be told now. */
export async function nextNumber(store: BookStore): Promise<number> {
  const counted = await store.get(COUNTER);
  const last = (await store.keys('sent:')).reduce(
    (most, key) => Math.max(most, Number(key.slice(key.lastIndexOf(':') + 1)) || 0),
    typeof counted === 'number' && Number.isSafeInteger(counted) ? counted : 0,
  );
  return last + 1;
}

/**
 * Keeps a page as it was sent, under the next number. Nothing changes or removes it while its workbook is there.
 * @param locks of the browser, so that two tabs give no number twice; left out where it has none
 */
export function keepSent(
  store: BookStore,
  book: string,
  { kind, day, page, paid }: PageToSend,
  { now, locks }: { readonly now: number; readonly locks?: Locks | undefined },
): Promise<SentPage> {
  return alone(locks, async () => {
    const number = await nextNumber(store);
    if (number > MOST) throw new RangeError('There are no numbers left on this device.');
    const text = page(number);
    const sent: SentPage = {
      number,
      kind,
      day,
      page: text,
      sign: signOf(text),
      at: now,
      ...(paid === undefined ? {} : { paid }),
    };
    await store.setAll(
      new Map<string, unknown>([
        [keyOf(book, number), sent],
        [COUNTER, number],
      ]),
    );
    return sent;
  });
}

/** What was sent of a workbook, the first one first; what cannot be read, or is not what was signed, is left out. */
export async function sentOf(store: BookStore, book: string): Promise<readonly SentPage[]> {
  const kept = await store.values(`sent:${book}:`);
  return [...kept.values()]
    .flatMap((one) => sentIn(one) ?? [])
    .sort((one, other) => one.number - other.number);
}

/**
 * Takes in what another device sent of a workbook, as it was, with its numbers: new ones here are higher. What is here
 * under a number stays.
 * @returns how many came in
 */
export function takeSent(
  store: BookStore,
  book: string,
  pages: readonly unknown[],
  locks?: Locks,
): Promise<number> {
  return alone(locks, async () => {
    const here = new Set(await store.keys(`sent:${book}:`));
    const values = new Map<string, unknown>();
    let last = (await nextNumber(store)) - 1;
    for (const one of pages) {
      const sent = sentIn(one);
      if (sent === undefined) continue;
      const key = keyOf(book, sent.number);
      if (here.has(key) || values.has(key)) continue;
      values.set(key, sent);
      last = Math.max(last, sent.number);
    }
    const came = values.size;
    if (came > 0) await store.setAll(values.set(COUNTER, last));
    return came;
  });
}

/** A page as it was kept; nothing where it is none, or another than was signed. */
function sentIn(kept: unknown): SentPage | undefined {
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { number, kind, day, page, sign, at, paid } = kept as { readonly [key: string]: unknown };
  if (typeof number !== 'number' || !Number.isSafeInteger(number) || number < 1 || number > MOST) {
    return undefined;
  }
  if (typeof kind !== 'string' || typeof day !== 'string' || typeof page !== 'string') {
    return undefined;
  }
  if (sign !== signOf(page)) return undefined;
  return {
    number,
    kind,
    day,
    page,
    sign,
    at: typeof at === 'number' && Number.isFinite(at) ? at : 0,
    ...(typeof paid === 'number' && Number.isFinite(paid) ? { paid } : {}),
  };
}

/** One after the other, over all tabs where the browser can, and within this one always. */
async function alone<T>(locks: Locks | undefined, what: () => Promise<T>): Promise<T> {
  const mine = turn.then(() => withLock(locks, what));
  turn = mine.catch(() => undefined);
  return mine;
}

let turn: Promise<unknown> = Promise.resolve();

async function withLock<T>(locks: Locks | undefined, what: () => Promise<T>): Promise<T> {
  if (locks === undefined) return what();
  const done: { value?: T } = {};
  await locks.request(LOCK, {}, async () => {
    done.value = await what();
  });
  return done.value as T;
}
