import type { At, BookDocument, Scalar } from '@kerfbook/document';
import type { CellValue, CellView } from '@kerfbook/workbook';
import {
  CompiledDocument,
  checkPlace,
  checkStanding,
  type Slice,
  type Sweeper,
} from '@kerfbook/workbook/sweep';
import type { StudyBook } from './inputs.ts';

/** One set of values for inputs, in their order; `null` is an empty cell. */
export type Given = readonly (Scalar | null)[];

/** What an input is in a set, as a cell would hold it. */
export function asCell(given: Given[number] | undefined): CellValue {
  switch (typeof given) {
    case 'number':
      return { kind: 'number', number: given };
    case 'string':
      return { kind: 'text', text: given };
    case 'boolean':
      return { kind: 'logical', logical: given };
    default:
      return { kind: 'empty' };
  }
}

/** What results come to for many sets of inputs. */
export interface Question {
  /** Cells that hold no formula. */
  readonly inputs: readonly At[];
  /** Cells of sheets, and checks by their places. */
  readonly results: readonly At[];
  /** Values of all inputs, set by set. */
  readonly sets: readonly Given[];
}

/** How an answer is waited for. */
export interface Waiting {
  /** Hears how many sets are done, and the rows from one on. */
  readonly hear?: (done: number) => void;
  /** Ends it; what is not done by then is left out. */
  readonly signal?: AbortSignal;
}

/** Whoever works results out for many sets of inputs. */
export interface Asker {
  /** A row for each set, in their order; `undefined` for those that were not done before it was stopped. */
  ask(
    question: Question,
    waiting?: Waiting,
  ): Promise<readonly (readonly CellValue[] | undefined)[]>;
}

/** Sets that are worked out before anything else has its turn. */
const AT_ONCE = 256;

/** Works results out in this thread, by the compiled formulas of a workbook. `destroy` when it is no longer asked. */
export class HereAsker implements Asker {
  readonly #compiled: CompiledDocument;
  #last: { readonly key: string; readonly slice: Slice } | undefined;

  constructor(document: BookDocument) {
    this.#compiled = CompiledDocument.of(document);
  }

  async ask({ inputs, results, sets }: Question, { hear, signal }: Waiting = {}) {
    const slice = this.#slice(inputs, results);
    const rows: (readonly CellValue[] | undefined)[] = new Array(sets.length).fill(undefined);
    for (let from = 0; from < sets.length; from += AT_ONCE) {
      if (signal?.aborted === true) break;
      const end = Math.min(sets.length, from + AT_ONCE);
      for (let i = from; i < end; i += 1) rows[i] = slice.run(sets[i] as Given);
      hear?.(end);
      if (end < sets.length) await turn();
    }
    return rows;
  }

  /** The same question is asked again and again while something is looked for: its formulas are found once. */
  #slice(inputs: readonly At[], results: readonly At[]): Slice {
    const key = JSON.stringify([inputs, results]);
    if (this.#last?.key !== key) {
      this.#last?.slice.destroy();
      this.#last = { key, slice: this.#compiled.slice(inputs, results) };
    }
    return this.#last.slice;
  }

  /** Lets go of what was built; nothing may be asked after it. */
  destroy(): void {
    this.#last?.slice.destroy();
    this.#last = undefined;
    this.#compiled.destroy();
  }
}

/** Lets what else waits in this thread have its turn. */
const turn = (): Promise<void> => new Promise((then) => setTimeout(then, 0));

/** Shares the sets out among threads that sweep; each has the workbook open already. */
export class SharedAsker implements Asker {
  readonly #sweepers: readonly Sweeper[];

  constructor(sweepers: readonly Sweeper[]) {
    if (sweepers.length === 0) throw new RangeError('no thread to ask');
    this.#sweepers = sweepers;
  }

  async ask({ inputs, results, sets }: Question, { hear, signal }: Waiting = {}) {
    const rows: (readonly CellValue[] | undefined)[] = new Array(sets.length).fill(undefined);
    let next = 0;
    let done = 0;
    const work = async (sweeper: Sweeper): Promise<void> => {
      while (next < sets.length && signal?.aborted !== true) {
        const from = next;
        next = Math.min(sets.length, from + AT_ONCE);
        let at = from;
        const part = { inputs, results, sets: sets.slice(from, next) };
        const running = sweeper.sweep(part, (more) => {
          for (const row of more) {
            rows[at] = row;
            at += 1;
          }
          done += more.length;
          hear?.(done);
        });
        const stop = (): void => running.stop();
        signal?.addEventListener('abort', stop, { once: true });
        try {
          await running.ended;
        } finally {
          signal?.removeEventListener('abort', stop);
        }
      }
    };
    await Promise.all(this.#sweepers.map(work));
    return rows;
  }
}

/** A check that is not passed. */
export interface Failing {
  /** What the check is called. */
  readonly name: string;
  /** How bad it is; unknown where it cannot be told. */
  readonly state: 'care' | 'stop' | 'unknown';
}

/** What a workbook comes to for one set of inputs. */
export interface Outcome {
  /** What the inputs were, in their order. */
  readonly set: Given;
  /** What the results come to, in their order. */
  readonly values: readonly CellValue[];
  /** The checks that are not passed. */
  readonly failing: readonly Failing[];
}

/** It breaks a check that says stop, or one that cannot be told. */
export const isStopped = ({ failing }: Pick<Outcome, 'failing'>): boolean =>
  failing.some(({ state }) => state !== 'care');

/** The number a result comes to; undefined where it comes to none. */
export function numberOf(value: CellValue | undefined): number | undefined {
  return value?.kind === 'number' && Number.isFinite(value.number) ? value.number : undefined;
}

/** Asks for results and for all checks; sets that were not done are left out at the end. */
export async function outcomes(
  book: Pick<StudyBook, 'checkForms'>,
  asker: Asker,
  {
    inputs,
    results,
    sets,
  }: {
    readonly inputs: readonly CellView[];
    readonly results: readonly CellView[];
    readonly sets: readonly Given[];
  },
  waiting: Waiting = {},
): Promise<readonly (Outcome | undefined)[]> {
  const checks = book.checkForms();
  const rows = await asker.ask(
    {
      inputs: inputs.map(({ at }) => at),
      results: [...results.map(({ at }) => at), ...checks.map((_, i) => checkPlace(i))],
      sets,
    },
    waiting,
  );
  return rows.map((row, i) => {
    if (row === undefined) return undefined;
    const failing = checks.flatMap((check, place): Failing[] => {
      const value = row[results.length + place] ?? { kind: 'empty' };
      const state = checkStanding(value, check);
      return state === 'pass' ? [] : [{ name: check.name, state }];
    });
    return { set: sets[i] as Given, values: row.slice(0, results.length), failing };
  });
}
