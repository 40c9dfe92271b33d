import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import {
  type BookStore,
  changedHead,
  type HeadChange,
  headOf,
  type SnapshotHead,
} from './book-store.ts';
import type { BookHead, BookRecord, KeptBook, LogEntry } from './records.ts';

interface Tables extends DBSchema {
  books: { key: string; value: BookRecord };
  log: { key: [string, number]; value: LogEntry };
  kv: { key: string; value: unknown };
}

const NAME = 'kerfbook';
const VERSION = 1;
const STRICT = { durability: 'strict' } as const;

/** Every edit of one book, whatever its number. */
function logOf(book: string, upTo = Number.POSITIVE_INFINITY): IDBKeyRange {
  return IDBKeyRange.bound([book, Number.NEGATIVE_INFINITY], [book, upTo]);
}

/** Keeps workbooks in this browser's IndexedDB. */
export class DeviceStore implements BookStore {
  readonly lasting: boolean = true;
  #database: IDBPDatabase<Tables>;

  private constructor(database: IDBPDatabase<Tables>) {
    this.#database = database;
  }

  /** @throws DOMException where the browser lets pages keep nothing */
  static async open(): Promise<DeviceStore> {
    return new DeviceStore(await connect());
  }

  async list(): Promise<readonly BookHead[]> {
    return (await this.#database.getAll('books')).map(headOf);
  }

  async read(id: string): Promise<KeptBook | undefined> {
    const work = this.#database.transaction(['books', 'log']);
    const [record, log] = await Promise.all([
      work.objectStore('books').get(id),
      work.objectStore('log').getAll(logOf(id)),
    ]);
    return record === undefined ? undefined : { record, log };
  }

  async put(record: BookRecord): Promise<void> {
    const work = this.#database.transaction(['books', 'log'], 'readwrite', STRICT);
    await finish(work.done, [
      work.objectStore('books').put(record),
      work.objectStore('log').delete(logOf(record.id)),
    ]);
  }

  async relabel(id: string, head: HeadChange): Promise<void> {
    const work = this.#database.transaction('books', 'readwrite', STRICT);
    const record = await work.store.get(id);
    await finish(
      work.done,
      record === undefined ? [] : [work.store.put(changedHead(record, head))],
    );
  }

  append(entries: readonly LogEntry[]): Promise<void> {
    const work = this.#database.transaction('log', 'readwrite', STRICT);
    const writes = entries.map((entry) => work.store.put(entry));
    // Without this the browser waits for a round trip to this page before it commits, and a
    // page that dies within it would take the edit along.
    work.commit();
    return finish(work.done, writes);
  }

  async snapshot(id: string, text: string, head: SnapshotHead): Promise<void> {
    const work = this.#database.transaction(['books', 'log'], 'readwrite', STRICT);
    const books = work.objectStore('books');
    const record = await books.get(id);
    const stale = record === undefined || record.revision > head.revision;
    await finish(
      work.done,
      stale
        ? []
        : [
            books.put({ ...record, ...head, text }),
            work.objectStore('log').delete(logOf(id, head.revision)),
          ],
    );
  }

  async destroy(id: string): Promise<void> {
    const work = this.#database.transaction(['books', 'log'], 'readwrite', STRICT);
    await finish(work.done, [
      work.objectStore('books').delete(id),
      work.objectStore('log').delete(logOf(id)),
    ]);
  }

  async get(key: string): Promise<unknown> {
    return await this.#database.get('kv', key);
  }

  async set(key: string, value: unknown): Promise<void> {
    const work = this.#database.transaction('kv', 'readwrite', STRICT);
    await finish(work.done, [work.store.put(value, key)]);
  }
}

/** Waits for a transaction and its requests together, so that none fails unheard. */
async function finish(done: Promise<void>, requests: readonly Promise<unknown>[]): Promise<void> {
  await Promise.all([...requests, done]);
}

function connect(): Promise<IDBPDatabase<Tables>> {
  return openDB<Tables>(NAME, VERSION, {
    upgrade(database) {
      database.createObjectStore('books', { keyPath: 'id' });
      database.createObjectStore('log', { keyPath: ['book', 'seq'] });
      database.createObjectStore('kv');
    },
    // A newer version of the app in another tab waits for this one to let go.
    blocking(_current, _wanted, event) {
      (event.target as IDBDatabase).close();
    },
  });
}
