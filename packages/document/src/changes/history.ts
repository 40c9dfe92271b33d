import type { BookState } from '../state/state.ts';
import type { Change } from './types.ts';

/** What was done, as changes that do it and changes that undo it. */
export interface HistoryEntry {
  /** In the order in which they were done. */
  readonly changes: readonly Change[];
  /** In the order in which they take it back. */
  readonly inverse: readonly Change[];
  /** It came in from elsewhere, and nobody here takes it back: how it is put before a step of here. */
  readonly cameIn?: TurnSteps;
}

/**
 * Two steps that were done one after the other, the other way round: the second one as if it had been first.
 * `now`: what both came to.
 */
export type TurnSteps = (
  now: BookState,
  first: HistoryEntry,
  second: HistoryEntry,
) => readonly [second: HistoryEntry, first: HistoryEntry];

const MOST = 1_000;

/** What can be undone and redone. Something new forgets what was undone (rule U3). */
export class History {
  readonly #past: HistoryEntry[] = [];
  #future: HistoryEntry[] = [];

  /** Whether something can be taken back. */
  get canUndo(): boolean {
    // What came in one after the other is one entry.
    return (
      this.#past.length > 1 || (this.#past.length === 1 && this.#past[0]?.cameIn === undefined)
    );
  }

  /** Whether something taken back can be done again. */
  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** Something new was done; beyond a thousand, the oldest is forgotten. */
  record(entry: HistoryEntry): void {
    this.#put(entry);
    if (this.#past.length > MOST) this.#past.shift();
    this.#future = [];
  }

  /** Nothing done before can be taken back any more. */
  forget(): void {
    this.#past.length = 0;
    this.#future = [];
  }

  /** What an undo takes back: the last step of here, as it is behind what came in after it. */
  lastDone(now: BookState): HistoryEntry | undefined {
    const last = this.#past.at(-1);
    if (last?.cameIn === undefined) return last;
    const own = this.#past.at(-2);
    if (own === undefined) return undefined;
    const [before, behind] = last.cameIn(now, own, last);
    this.#past.splice(-2);
    this.#put(before);
    this.#past.push(behind);
    return behind;
  }

  #put(entry: HistoryEntry): void {
    const last = this.#past.at(-1);
    if (entry.cameIn === undefined || last?.cameIn === undefined) {
      this.#past.push(entry);
      return;
    }
    const changes = [...last.changes, ...entry.changes];
    this.#past.splice(-1, 1, {
      changes,
      inverse: [...entry.inverse, ...last.inverse],
      cameIn: entry.cameIn,
    });
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
