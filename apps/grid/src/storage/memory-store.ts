import {
  type BookStore,
  changedHead,
  type HeadChange,
  headOf,
  type SnapshotHead,
} from './book-store.ts';
import type { BookHead, BookRecord, KeptBook, LogEntry } from './records.ts';

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

  async put(record: BookRecord): Promise<void> {
    this.#books.set(record.id, record);
    this.#logs.delete(record.id);
  }

  async relabel(id: string, head: HeadChange): Promise<void> {
    const record = this.#books.get(id);
    if (record !== undefined) this.#books.set(id, changedHead(record, head));
  }

  async append(entries: readonly LogEntry[]): Promise<void> {
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
  }

  async get(key: string): Promise<unknown> {
    return this.#values.get(key);
  }

  async set(key: string, value: unknown): Promise<void> {
    this.#values.set(key, value);
  }
}
