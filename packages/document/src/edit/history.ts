import type { Edit } from './types.ts';

/** What was done, as a value that does it and a value that undoes it. */
export interface Step {
  readonly edit: Edit;
  readonly inverse: Edit;
}

const MOST = 1_000;

/** Steps that can be undone and redone. A new step forgets those that were undone (rule U3). */
export class History {
  readonly #past: Step[] = [];
  #future: Step[] = [];

  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  record(step: Step): void {
    this.#past.push(step);
    if (this.#past.length > MOST) this.#past.shift();
    this.#future = [];
  }

  /** What an undo takes back. */
  get lastDone(): Step | undefined {
    return this.#past.at(-1);
  }

  /** What a redo does again. */
  get lastUndone(): Step | undefined {
    return this.#future.at(-1);
  }

  /** After an undo: the step can be redone. */
  undone(): void {
    const step = this.#past.pop();
    if (step !== undefined) this.#future.push(step);
  }

  /** After a redo: the step can be undone again, by what undoes it now. */
  redone(step: Step): void {
    this.#future.pop();
    this.#past.push(step);
  }
}
