import {
  type BookHead,
  type BookRecord,
  type BookStore,
  changedHead,
  type HeadChange,
  HeldByOlder,
  headOf,
  KEPT,
  type KeptBook,
  keysBeside,
  type LogEntry,
  type Owed,
  type SnapshotHead,
  type Values,
} from '@kerfbook/keeping';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

interface Tables extends DBSchema {
  books: { key: string; value: BookRecord };
  log: { key: [string, number]; value: LogEntry };
  kv: { key: string; value: unknown };
}

const NAME = 'kerfbook';
const STRICT = { durability: 'strict' } as const;

/** Every edit of one book, whatever its number. */
function logOf(book: string, upTo = Number.POSITIVE_INFINITY): IDBKeyRange {
  return IDBKeyRange.bound([book, Number.NEGATIVE_INFINITY], [book, upTo]);
}

/** Every key that begins so. */
function beginning(prefix: string): IDBKeyRange {
  return IDBKeyRange.bound(prefix, `${prefix}\uffff`);
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
    try {
      return (await this.#database.getAll('books')).map(headOf);
    } catch {
      // One that the browser cannot read any more fails them all: then each by itself.
      const ids = await this.#database.getAllKeys('books');
      return Promise.all(
        ids.map((id) =>
          this.#database.get('books', id).then(headOf, () => headOf({ id, title: '' })),
        ),
      );
    }
  }

  async read(id: string): Promise<KeptBook | undefined> {
    const work = this.#database.transaction(['books', 'log']);
    const [record, log] = await Promise.all([
      work.objectStore('books').get(id),
      work.objectStore('log').getAll(logOf(id)),
    ]);
    return record === undefined ? undefined : { record, log };
  }

  put(record: BookRecord, beside?: Values): Promise<void> {
    return this.append([], beside === undefined ? { record } : { record, beside });
  }

  async relabel(id: string, head: HeadChange): Promise<void> {
    const work = this.#database.transaction('books', 'readwrite', STRICT);
    const record = await work.store.get(id);
    await finish(
      work.done,
      record === undefined ? [] : [work.store.put(changedHead(record, head))],
    );
  }

  append(entries: readonly LogEntry[], before?: Owed): Promise<void> {
    if (before === undefined) {
      const work = this.#database.transaction('log', 'readwrite', STRICT);
      const writes = entries.map((entry) => work.store.put(entry));
      // Without this the browser waits for a round trip to this page before it commits, and a
      // page that dies within it would take the edit along.
      work.commit();
      return finish(work.done, writes);
    }
    const { record, beside = new Map() } = before;
    const work = this.#database.transaction(['books', 'log', 'kv'], 'readwrite', STRICT);
    const log = work.objectStore('log');
    const writes: Promise<unknown>[] = [
      work.objectStore('books').put(record),
      log.delete(logOf(record.id)),
      ...[...beside].map((one) => keep(work.objectStore('kv'), one)),
      ...entries.map((entry) => log.put(entry)),
    ];
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
    const { keys, prefixes } = keysBeside(id);
    const work = this.#database.transaction(['books', 'log', 'kv'], 'readwrite', STRICT);
    const values = work.objectStore('kv');
    await finish(work.done, [
      work.objectStore('books').delete(id),
      work.objectStore('log').delete(logOf(id)),
      ...keys.map((key) => values.delete(key)),
      ...prefixes.map((prefix) => values.delete(beginning(prefix))),
    ]);
  }

  async get(key: string): Promise<unknown> {
    return await this.#database.get('kv', key);
  }

  set(key: string, value: unknown): Promise<void> {
    return this.setAll(new Map([[key, value]]));
  }

  async setAll(values: Values): Promise<void> {
    const work = this.#database.transaction('kv', 'readwrite', STRICT);
    await finish(
      work.done,
      [...values].map((one) => keep(work.store, one)),
    );
  }

  async keys(prefix: string): Promise<readonly string[]> {
    return await this.#database.getAllKeys('kv', beginning(prefix));
  }

  async values(prefix: string): Promise<Values> {
    const { store } = this.#database.transaction('kv');
    const [keys, values] = await Promise.all([
      store.getAllKeys(beginning(prefix)),
      store.getAll(beginning(prefix)),
    ]);
    return new Map(keys.map((key, i) => [key, values[i]]));
  }
}

interface Shelf {
  put(value: unknown, key: string): Promise<unknown>;
  delete(key: string): Promise<unknown>;
}

/** Keeps a value under its key, or takes it out. */
function keep(values: Shelf, [key, value]: readonly [string, unknown]): Promise<unknown> {
  return value === undefined ? values.delete(key) : values.put(value, key);
}

/** Waits for a transaction and its requests together, so that none fails unheard. */
async function finish(done: Promise<void>, requests: readonly Promise<unknown>[]): Promise<void> {
  await Promise.all([...requests, done]);
}

/** How long a tab of an older app has to let go, in ms: it ends what it is writing first. */
const LETS_GO = 5_000;

/**
 * The database has the version of what is kept in it. A tab of an older app is shut out by that as soon as
 * a newer one opens it, and cannot write over what it does not know: its next edit says so. Nothing is
 * rewritten here, each workbook is when it is opened.
 */
function connect(): Promise<IDBPDatabase<Tables>> {
  return new Promise((resolve, reject) => {
    let late: ReturnType<typeof setTimeout> | undefined;
    let givenUp = false;
    const giveUp = (): void => {
      givenUp = true;
      reject(new HeldByOlder());
    };
    const held = (): void => {
      late = setTimeout(giveUp, LETS_GO);
    };
    open(held).then((database) => {
      clearTimeout(late);
      if (givenUp) database.close();
      resolve(database);
    }, reject);
  });
}

function open(held: () => void): Promise<IDBPDatabase<Tables>> {
  return openDB<Tables>(NAME, KEPT, {
    upgrade(database, version) {
      if (version > 0) return;
      database.createObjectStore('books', { keyPath: 'id' });
      database.createObjectStore('log', { keyPath: ['book', 'seq'] });
      database.createObjectStore('kv');
    },
    blocked: held,
    // A newer version of the app in another tab waits for this one to let go.
    blocking(_current, _wanted, event) {
      (event.target as IDBDatabase).close();
    },
  });
}
