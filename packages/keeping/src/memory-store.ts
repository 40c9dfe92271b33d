import {
  type BookStore,
  changedHead,
  type HeadChange,
  keysBeside,
  type SnapshotHead,
} from './book-store.ts';
import {
  type BookHead,
  type BookRecord,
  headOf,
  type KeptBook,
  type LogEntry,
  type Owed,
  type Values,
} from './records.ts';

/** Keeps workbooks until the page closes: what is left where the browser refuses storage. */
export class MemoryStore implements BookStore {
  readonly lasting: boolean = false;
  readonly #books = new Map<string, BookRecord>();
  readonly #logs = new Map<string, Map<number, LogEntry>>();
  readonly #values = new Map<string, unknown>();

  async list(): Promise<readonly BookHead[]> {
    return [...this.#books.values()].map(headOf);
  }

  async read(id: string): Promise<KeptBook | undefined> {
    const record = this.#books.get(id);
    if (record === undefined) return undefined;
    const log = [...(this.#logs.get(id)?.values() ?? [])].sort((a, b) => a.seq - b.seq);
    return { record, log };
  }

  async put(record: BookRecord, beside: Values = new Map()): Promise<void> {
    this.#books.set(record.id, record);
    this.#logs.delete(record.id);
    this.#keep(beside);
  }

  async relabel(id: string, head: HeadChange): Promise<void> {
    const record = this.#books.get(id);
    if (record !== undefined) this.#books.set(id, changedHead(record, head));
  }

  async append(entries: readonly LogEntry[], before?: Owed): Promise<void> {
    if (before !== undefined) {
      this.#books.set(before.record.id, before.record);
      this.#logs.delete(before.record.id);
      this.#keep(before.beside ?? new Map());
    }
    for (const entry of entries) {
      const log = this.#logs.get(entry.book) ?? new Map<number, LogEntry>();
      log.set(entry.seq, entry);
      this.#logs.set(entry.book, log);
    }
  }

  async snapshot(id: string, text: string, head: SnapshotHead): Promise<void> {
    const record = this.#books.get(id);
    if (record === undefined || record.revision > head.revision) return;
    this.#books.set(id, { ...record, ...head, text });
    const log = this.#logs.get(id);
    for (const seq of log?.keys() ?? []) if (seq <= head.revision) log?.delete(seq);
  }

  async destroy(id: string): Promise<void> {
    this.#books.delete(id);
    this.#logs.delete(id);
    const { keys, prefixes } = keysBeside(id);
    for (const key of this.#values.keys()) {
      if (keys.includes(key) || prefixes.some((one) => key.startsWith(one))) {
        this.#values.delete(key);
      }
    }
  }

  async get(key: string): Promise<unknown> {
    return this.#values.get(key);
  }

  async set(key: string, value: unknown): Promise<void> {
    this.#keep(new Map([[key, value]]));
  }

  async setAll(values: Values): Promise<void> {
    this.#keep(values);
  }

  async keys(prefix: string): Promise<readonly string[]> {
    return [...this.#values.keys()].filter((key) => key.startsWith(prefix)).sort();
  }

  async values(prefix: string): Promise<Values> {
    return new Map([...this.#values].filter(([key]) => key.startsWith(prefix)));
  }

  #keep(values: Values): void {
    for (const [key, value] of values) {
      if (value === undefined) this.#values.delete(key);
      else this.#values.set(key, value);
    }
  }
}
