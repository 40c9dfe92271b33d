import type { BookStore } from './book-store.ts';
import { newBookId } from './new-id.ts';
import { timeOf } from './records.ts';

/** A kept state of a workbook, without its text. */
export interface VersionHead {
  /** Names the version in its list. */
  readonly key: string;
  /** When it was kept, ms since 1970. */
  readonly at: number;
  /** Left out where the app kept it by itself. */
  readonly name?: string;
}

/** States the app keeps by itself, at the most; the oldest give way. Named ones stay. */
const MOST_AUTOMATIC = 30;

type VersionStore = Pick<BookStore, 'get' | 'setAll' | 'keys'>;

/** What is under way in a store: the next state waits for it, or both would write the same list. */
const underWay = new WeakMap<VersionStore, Promise<unknown>>();

/**
 * Earlier states of one workbook on this device (G56). The list and each text have a place of their
 * own in the store, so that a long history costs nothing until it is looked at.
 */
export class Versions {
  readonly #store: VersionStore;
  readonly #book: string;
  readonly #now: () => number;

  constructor(store: VersionStore, book: string, now: () => number) {
    this.#store = store;
    this.#book = book;
    this.#now = now;
  }

  /** Newest first. A text that no list tells of is listed all the same, by the time in its key. */
  async list(): Promise<readonly VersionHead[]> {
    const [kept, keys] = await Promise.all([
      this.#store.get(this.#listKey),
      this.#store.keys(this.#textKey('')),
    ]);
    const listed = Array.isArray(kept) ? kept.filter(isHead) : [];
    const known = new Set(listed.map(({ key }) => key));
    const found = keys
      .map((key) => key.slice(this.#textKey('').length))
      .filter((key) => !known.has(key))
      .map((key) => ({ key, at: timeOf(Number.parseInt(key, 10)) }));
    if (found.length === 0) return listed;
    return [...listed, ...found].sort((a, b) => b.at - a.at);
  }

  /** The saved text of a version; nothing where it is not there. */
  async text(key: string): Promise<string | undefined> {
    const text = await this.#store.get(this.#textKey(key));
    return typeof text === 'string' ? text : undefined;
  }

  /**
   * Keeps a state; by the app itself only where it differs from the last one kept. `at`: when it was made,
   * where that was not now; it stands among the others by that.
   */
  keep(text: string, name?: string, at?: number): Promise<boolean> {
    const head = { at: at ?? this.#now(), ...(name === undefined ? {} : { name }) };
    const kept = (underWay.get(this.#store) ?? Promise.resolve()).then(() =>
      this.#keep(text, head, at === undefined),
    );
    underWay.set(
      this.#store,
      kept.catch(() => undefined),
    );
    return kept;
  }

  async #keep(text: string, head: Omit<VersionHead, 'key'>, isNewest: boolean): Promise<boolean> {
    const heads = await this.list();
    // What is made now is the newest, whatever the clock says.
    const older = isNewest ? 0 : heads.findIndex(({ at }) => at <= head.at);
    const place = older < 0 ? heads.length : older;
    const last = heads[place];
    if (head.name === undefined && last !== undefined && (await this.text(last.key)) === text) {
      return false;
    }
    const key = `${head.at}-${newBookId()}`;
    const next = [...heads.slice(0, place), { key, ...head }, ...heads.slice(place)];
    const automatic = next.filter((head) => head.name === undefined);
    const gone = new Set(automatic.slice(MOST_AUTOMATIC).map((head) => head.key));
    const values = new Map<string, unknown>([
      [this.#textKey(key), text],
      [this.#listKey, next.filter((head) => !gone.has(head.key))],
    ]);
    for (const old of gone) values.set(this.#textKey(old), undefined);
    await this.#store.setAll(values);
    return true;
  }

  get #listKey(): string {
    return `versions:${this.#book}`;
  }

  #textKey(key: string): string {
    return `version:${this.#book}:${key}`;
  }
}

function isHead(value: unknown): value is VersionHead {
  const { key, at, name } = (value ?? {}) as { key?: unknown; at?: unknown; name?: unknown };
  return (
    typeof key === 'string' &&
    typeof at === 'number' &&
    timeOf(at) === at &&
    (name === undefined || typeof name === 'string')
  );
}
