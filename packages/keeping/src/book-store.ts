import { keysOfCard } from './cards.ts';
import type { BookHead, BookRecord, KeptBook, LogEntry, Owed, Values } from './records.ts';

/** Where workbooks are kept. Every method that changes something is one transaction. */
export interface BookStore {
  /** False where everything is gone when the page closes. */
  readonly lasting: boolean;
  /** What the list shows of each, whatever state a record is in (rules of `headOf`). */
  list(): Promise<readonly BookHead[]>;
  /** A workbook with the edits after its text; nothing where there is none of this id. */
  read(id: string): Promise<KeptBook | undefined>;
  /** Adds or replaces a workbook, with what is kept beside it, and empties its log. */
  put(record: BookRecord, beside?: Values): Promise<void>;
  /** Changes what the list says of a workbook; its text and log stay. */
  relabel(id: string, head: HeadChange): Promise<void>;
  /**
   * Writes edits to the log, after what has to be there before them. The request has left this page
   * when the call returns, so a page that dies right after it loses nothing; the promise tells when
   * it is on the disk.
   */
  append(entries: readonly LogEntry[], before?: Owed): Promise<void>;
  /** Replaces a workbook's text and drops the edits it now holds. */
  snapshot(id: string, text: string, head: SnapshotHead): Promise<void>;
  /** Removes a workbook, its log and all that is kept beside it for good. */
  destroy(id: string): Promise<void>;
  /** A value kept beside workbooks; nothing where there is none. */
  get(key: string): Promise<unknown>;
  /** Keeps a value under a key, in the place of another. */
  set(key: string, value: unknown): Promise<void>;
  /** Several values at once, or none of them. */
  setAll(values: Values): Promise<void>;
  /** The keys of values that begin so, in order. */
  keys(prefix: string): Promise<readonly string[]>;
  /** The values whose keys begin so, read at once. */
  values(prefix: string): Promise<Values>;
}

/** What the list is to say of a workbook from now on; what is left out stays. */
export interface HeadChange {
  /** What it is called. */
  readonly title?: string;
  /** When it was last changed, ms since 1970. */
  readonly updated?: number;
  /** `null` takes it out of the trash. */
  readonly deleted?: number | null;
}

/** What the list says of a workbook whose text is written anew. */
export interface SnapshotHead {
  /** What it is called. */
  readonly title: string;
  /** When it was last changed, ms since 1970. */
  readonly updated: number;
  /** Number of the last edit the text holds. */
  readonly revision: number;
  /** Version of what is kept ({@link KEPT}). */
  readonly kept: number;
}

/** A record with what the list is to say of it from now on. */
export function changedHead(record: BookRecord, change: HeadChange): BookRecord {
  const { deleted: was, ...rest } = record;
  const deleted = change.deleted === undefined ? was : (change.deleted ?? undefined);
  return {
    ...rest,
    title: change.title ?? record.title,
    updated: change.updated ?? record.updated,
    ...(deleted === undefined ? {} : { deleted }),
  };
}

/** What is kept beside a workbook goes with it: single keys, and all that begin so. */
export function keysBeside(id: string): {
  readonly keys: readonly string[];
  readonly prefixes: readonly string[];
} {
  return {
    keys: [
      `versions:${id}`,
      `unopened:${id}`,
      `ticks:${id}`,
      `clock:${id}`,
      `calendar:${id}`,
      `customer:${id}`,
      `news:${id}`,
      `joins:${id}`,
      `shop:${id}`,
      `shopkept:${id}`,
      `racked:${id}`,
      `club:${id}`,
      `job:${id}`,
      ...keysOfCard(id),
    ],
    prefixes: [`version:${id}:`, `aside:${id}:`, `rests:${id}:`, `sent:${id}:`],
  };
}

/** What is kept beside a workbook, to be kept beside it under another id and no more under this one. */
export async function besideUnder(
  store: Pick<BookStore, 'get' | 'keys'>,
  from: string,
  to: string,
): Promise<Values> {
  const values = new Map<string, unknown>();
  const move = async (key: string, as: string): Promise<void> => {
    const value = await store.get(key);
    if (value === undefined) return;
    values.set(as, value);
    values.set(key, undefined);
  };
  const [old, next] = [keysBeside(from), keysBeside(to)];
  for (const [i, key] of old.keys.entries()) await move(key, next.keys[i] ?? key);
  for (const [i, prefix] of old.prefixes.entries()) {
    for (const key of await store.keys(prefix)) {
      await move(key, `${next.prefixes[i]}${key.slice(prefix.length)}`);
    }
  }
  return values;
}
