import type { Change } from './types.ts';

/** What was done, as changes that do it and changes that undo it. */
export interface HistoryEntry {
  /** In the order in which they were done. */
  readonly changes: readonly Change[];
  /** In the order in which they take it back. */
  readonly inverse: readonly Change[];
}

const MOST = 1_000;

/** What can be undone and redone. Something new forgets what was undone (rule U3). */
export class History {
  readonly #past: HistoryEntry[] = [];
  #future: HistoryEntry[] = [];

  /** Whether something can be taken back. */
  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  /** Whether something taken back can be done again. */
  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** Something new was done; beyond a thousand, the oldest is forgotten. */
  record(entry: HistoryEntry): void {
    this.#past.push(entry);
    if (this.#past.length > MOST) this.#past.shift();
    this.#future = [];
  }

  /** What an undo takes back. */
  get lastDone(): HistoryEntry | undefined {
    return this.#past.at(-1);
  }

  /** What a redo does again. */
  get lastUndone(): HistoryEntry | undefined {
    return this.#future.at(-1);
  }

  /** After an undo: the entry can be redone. */
  undone(): void {
    const entry = this.#past.pop();
    if (entry !== undefined) this.#future.push(entry);
  }

  /** After a redo: the entry can be undone again, by what undoes it now. */
  redone(entry: HistoryEntry): void {
    this.#future.pop();
    this.#past.push(entry);
  }
}
