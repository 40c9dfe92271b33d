import type { Edit } from '@kerfbook/workbook';
import type { BookStore, SnapshotHead } from './book-store.ts';
import { breath, STRETCH } from './breath.ts';
import { entryOf } from './entries.ts';
import { KEPT, type LogEntry, type Owed, type Values } from './records.ts';
import type { SaveState } from './save-state.ts';
import { NO_STORAGE, writeTrouble } from './trouble.ts';

export interface KeeperBook {
  readonly id: string;
  /** Number of the last edit that is kept already. */
  readonly revision: number;
  /** When that was; nothing where the workbook is as it came. */
  readonly savedAt?: number;
  /** Number of the last edit in the saved text, where that is not `revision`. */
  readonly folded?: number;
  /** What has to be written before the next edit. */
  readonly owed?: Owed;
  /** What has to be there before the text is written for the first time. */
  readonly before?: Values;
  /** Why the workbook itself is not kept yet. */
  readonly trouble?: string;
  /** The workbook's title now. */
  title(): string;
  /** Its text as it stands, in pieces; comes to false where they do not fit together. */
  pieces(): Iterator<string, boolean>;
}

/** How edits are kept. */
export interface KeeperOptions {
  /** The clock, ms since 1970; `Date.now` where left out. */
  readonly now?: () => number;
  /** How long after the last edit the log is folded into the text, ms. */
  readonly idle?: number;
  /** How long after a failed write it is tried again, ms. */
  readonly retry?: number;
}

/** A log longer than this makes the next opening slow. */
const LONG_LOG = 200;

/**
 * Keeps one open workbook on this device. Each edit is written to the log at once, in a
 * transaction of its own; when the maker pauses, the log is folded into the saved text.
 */
export class Keeper {
  readonly #store: BookStore;
  readonly #book: KeeperBook;
  readonly #tell: (state: SaveState) => void;
  readonly #now: () => number;
  readonly #idle: number;
  readonly #retry: number;
  #revision: number;
  #folded: number;
  #waiting: LogEntry[] = [];
  #owed: Owed | undefined;
  #before: Values | undefined;
  #inFlight = 0;
  #trouble: string | undefined;
  #idleTimer: ReturnType<typeof setTimeout> | undefined;
  #retryTimer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();
  #state: SaveState;

  constructor(
    store: BookStore,
    book: KeeperBook,
    tell: (state: SaveState) => void,
    options: KeeperOptions = {},
  ) {
    this.#store = store;
    this.#book = book;
    this.#tell = tell;
    this.#now = options.now ?? Date.now;
    this.#idle = options.idle ?? 2_000;
    this.#retry = options.retry ?? 10_000;
    this.#revision = book.revision;
    this.#folded = book.folded ?? book.revision;
    this.#owed = book.owed;
    this.#before = book.before;
    this.#trouble = book.trouble;
    this.#state = firstState(book);
    if (book.trouble !== undefined) this.#retryLater();
  }

  get state(): SaveState {
    return this.#state;
  }

  /** True while closing the page would lose something. */
  get unsafe(): boolean {
    return this.unwritten || this.#state.kind === 'notSaved';
  }

  /** True while something of the workbook is nowhere but in this page's hands. */
  get unwritten(): boolean {
    return this.#inFlight > 0 || this.#waiting.length > 0 || this.#trouble !== undefined;
  }

  get revision(): number {
    return this.#revision;
  }

  /** Keeps an edit that was just carried out. */
  record(edit: Edit): void {
    this.#revision += 1;
    this.#waiting.push(entryOf(this.#book.id, this.#revision, edit, this.#now()));
    this.#write();
    this.#foldLater();
  }

  /** Writes what could not be written before. */
  retry(): Promise<void> {
    if (this.unwritten) this.#write();
    return this.#writing;
  }

  /** Settles when what is on its way was written, or was not. */
  async written(): Promise<void> {
    await this.#writing;
  }

  /** Folds the log into the saved text now: before the page goes away, or is hidden. */
  fold(): Promise<void> {
    return this.#fold(Number.POSITIVE_INFINITY);
  }

  /** @param stretch how long the text is written before others have their turn, ms */
  async #fold(stretch: number): Promise<void> {
    clearTimeout(this.#idleTimer);
    await this.#writing;
    if (this.#revision === this.#folded) return;
    const revision = this.#revision;
    const title = this.#book.title();
    const text = await this.#text(stretch);
    if (text === undefined || (this.#owed !== undefined && this.#inFlight > 0)) {
      // Something was changed meanwhile, or is being put in: the log has what is kept of it.
      this.#foldAfter(this.#idle);
      return;
    }
    try {
      const head = { title, revision, kept: KEPT, updated: this.#now() };
      if (this.#before !== undefined && this.#before.size > 0)
        await this.#store.setAll(this.#before);
      this.#before = undefined;
      if (this.#owed === undefined) await this.#store.snapshot(this.#book.id, text, head);
      else await this.#putOwed(this.#owed, text, head);
      this.#folded = Math.max(this.#folded, revision);
      this.#waiting = this.#waiting.filter((entry) => entry.seq > revision);
      this.#settle(undefined);
    } catch (error) {
      // The edits are in the log or waiting for it, so a failed fold by itself loses nothing.
      if (this.#waiting.length > 0) this.#settle(writeTrouble(error));
    }
  }

  /** Nothing of the workbook is on the device yet, or what is there has to make way first. */
  async #putOwed(owed: Owed, text: string, head: SnapshotHead): Promise<void> {
    await this.#store.put({ ...owed.record, ...head, text }, owed.beside);
    this.#owed = undefined;
  }

  async #text(stretch: number): Promise<string | undefined> {
    const pieces = this.#book.pieces();
    const text: string[] = [];
    let end = performance.now() + stretch;
    for (let piece = pieces.next(); ; piece = pieces.next()) {
      if (piece.done === true) return piece.value ? text.join('') : undefined;
      text.push(piece.value);
      if (performance.now() < end) continue;
      await breath();
      end = performance.now() + stretch;
    }
  }

  /** Stops the clocks after a last fold. */
  async close(): Promise<void> {
    clearTimeout(this.#retryTimer);
    await this.fold();
    clearTimeout(this.#idleTimer);
    clearTimeout(this.#retryTimer);
  }

  #write(): void {
    // What is owed empties the log: no edit may be on its way beside it.
    if (this.#owed !== undefined && this.#inFlight > 0) return;
    const batch = this.#waiting;
    const owed = this.#owed;
    this.#waiting = [];
    this.#inFlight += 1;
    this.#say();
    const written = this.#append(batch, owed).then(
      () => {
        this.#inFlight -= 1;
        if (owed !== undefined) {
          this.#owed = undefined;
          if (this.#waiting.length > 0) return this.#write();
        }
        // An older batch that failed is still waiting, and its trouble stands.
        this.#settle(this.#waiting.length === 0 ? undefined : this.#trouble);
      },
      (error: unknown) => {
        this.#inFlight -= 1;
        this.#waiting = [...batch, ...this.#waiting].sort((a, b) => a.seq - b.seq);
        this.#settle(writeTrouble(error));
        this.#retryLater();
      },
    );
    this.#writing = Promise.all([this.#writing, written]).then(() => undefined);
  }

  /** `append` may throw at once, where the browser has closed its storage. */
  #append(batch: readonly LogEntry[], owed: Owed | undefined): Promise<void> {
    try {
      return this.#store.append(batch, owed);
    } catch (error) {
      return Promise.reject(error);
    }
  }

  #settle(trouble: string | undefined): void {
    this.#trouble = trouble;
    this.#say();
  }

  #say(): void {
    this.#state = this.#stateNow();
    this.#tell(this.#state);
  }

  #stateNow(): SaveState {
    if (!this.#store.lasting) return { kind: 'notSaved', why: NO_STORAGE };
    if (this.#trouble !== undefined) return { kind: 'notSaved', why: this.#trouble };
    if (this.#inFlight > 0 || this.#waiting.length > 0) return { kind: 'saving' };
    return { kind: 'saved', at: this.#now() };
  }

  #foldLater(): void {
    this.#foldAfter(this.#revision - this.#folded >= LONG_LOG ? 0 : this.#idle);
  }

  #foldAfter(wait: number): void {
    clearTimeout(this.#idleTimer);
    this.#idleTimer = setTimeout(() => void this.#fold(STRETCH), wait);
  }

  #retryLater(): void {
    clearTimeout(this.#retryTimer);
    this.#retryTimer = setTimeout(() => void this.retry(), this.#retry);
  }
}

function firstState(book: KeeperBook): SaveState {
  if (book.trouble !== undefined) return { kind: 'notSaved', why: book.trouble };
  if (book.savedAt === undefined) return { kind: 'untouched' };
  return { kind: 'saved', at: book.savedAt };
}
