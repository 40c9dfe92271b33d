import {
  applyChanges,
  type BookState,
  type Change,
  type Conflict,
  type MakeId,
  type RefusedResult,
  type Step,
} from '@kerfbook/document';

/** What an edit is planned on: a workbook as a value, and the changes that make another one of it. */
export interface Desk {
  /** The workbook with all that was planned so far. */
  readonly state: BookState;
  readonly makeId: MakeId;
  readonly steps: readonly Step[];
  /** Plans changes that were made for the workbook as it is now. */
  change(...changes: readonly Change[]): void;
}

/** What was planned: the steps to another workbook, and the changes that the edit itself came to. */
export interface Planning {
  readonly state: BookState;
  /** All that the engine is told. */
  readonly steps: readonly Step[];
  readonly changes: readonly Change[];
  /** Takes the changes back. */
  readonly inverse: readonly Change[];
}

/** Why an edit cannot be carried out; undefined where all of it was planned. */
export type Refusal = RefusedResult | undefined;

/** An edit as it is planned. No engine knows of it, so that one that is refused leaves nothing behind. */
export class Plan implements Desk {
  readonly makeId: MakeId;
  readonly steps: Step[] = [];
  readonly #inverses: (readonly Change[])[] = [];
  #state: BookState;

  constructor(state: BookState, makeId: MakeId) {
    this.#state = state;
    this.makeId = makeId;
  }

  get state(): BookState {
    return this.#state;
  }

  get changes(): readonly Change[] {
    return this.steps.map(({ change }) => change);
  }

  /** Takes all of it back. */
  get inverse(): readonly Change[] {
    return [...this.#inverses].reverse().flat();
  }

  change(...changes: readonly Change[]): void {
    const [conflict] = this.take(changes);
    // Who plans for this very state has looked at it before.
    if (conflict !== undefined) throw new RangeError(conflict.says);
  }

  /** The same with changes that were made elsewhere; what does not fit is told. */
  take(changes: readonly Change[]): readonly Conflict[] {
    const { state, steps, inverse, conflicts } = applyChanges(this.#state, changes);
    this.#state = state;
    this.steps.push(...steps);
    this.#inverses.push(inverse);
    return conflicts;
  }
}
