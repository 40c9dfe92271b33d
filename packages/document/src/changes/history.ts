import type { Change } from './types.ts';

/** What was done, as changes that do it and changes that undo it. */
export interface Deed {
  /** In the order in which they were done. */
  readonly changes: readonly Change[];
  /** In the order in which they take it back. */
  readonly inverse: readonly Change[];
}

const MOST = 1_000;

/** What can be undone and redone. Something new forgets what was undone (rule U3). */
export class History {
  readonly #past: Deed[] = [];
  #future: Deed[] = [];

  /** Whether something can be taken back. */
  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  /** Whether something taken back can be done again. */
  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** Something new was done; beyond a thousand, the oldest is forgotten. */
  record(deed: Deed): void {
    this.#past.push(deed);
    if (this.#past.length > MOST) this.#past.shift();
    this.#future = [];
  }

  /** What an undo takes back. */
  get lastDone(): Deed | undefined {
    return this.#past.at(-1);
  }

  /** What a redo does again. */
  get lastUndone(): Deed | undefined {
    return this.#future.at(-1);
  }

  /** After an undo: the deed can be redone. */
  undone(): void {
    const deed = this.#past.pop();
    if (deed !== undefined) this.#future.push(deed);
  }

  /** After a redo: the deed can be undone again, by what undoes it now. */
  redone(deed: Deed): void {
    this.#future.pop();
    this.#past.push(deed);
  }
}
