import type { At, BookState, Edit, MakeId, RefusedResult } from '@kerfbook/document';
import type { Calculator } from '../engine/calculator.ts';

/** What an edit works on: the saved state, the engine that follows it, and the list of changes. */
export interface Desk {
  readonly state: BookState;
  readonly calculator: Calculator;
  readonly makeId: MakeId;
  readonly changes: Changes;
}

/** An edit carried out, as values: itself with its ids filled in, and what undoes it. */
export interface Done {
  readonly ok: true;
  readonly edit: Edit;
  readonly inverse: Edit;
}

export type Outcome = Done | RefusedResult;

const COLUMNS = 1024;
const placeKey = (at: At): number => at.row * COLUMNS + at.column;

/** Gathers which cells differ after an edit, each once (rule C1). */
export class Changes {
  structure = false;
  readonly #lists: (readonly At[])[] = [];

  /** Whether anything was gathered. */
  get any(): boolean {
    return this.structure || this.#lists.length > 0;
  }

  add(cells: readonly At[]): void {
    if (cells.length > 0) this.#lists.push(cells);
  }

  /** The gathered cells of makers' sheets, each once, and the rows of checks that changed. */
  sorted(checksSheet: string): { cells: readonly At[]; checkRows: ReadonlySet<number> } {
    const all = this.#list();
    const checkRows = new Set<number>();
    for (const at of all) if (at.sheet === checksSheet) checkRows.add(at.row);
    const cells = checkRows.size === 0 ? all : all.filter((at) => at.sheet !== checksSheet);
    return { cells, checkRows };
  }

  /** Without repeats. A single list from the engine has none and is kept. */
  #list(): readonly At[] {
    const [only, ...more] = this.#lists;
    if (only === undefined) return [];
    return more.length === 0 ? only : withoutRepeats(this.#lists);
  }
}

function withoutRepeats(lists: readonly (readonly At[])[]): readonly At[] {
  // The longest list usually comes from one recalculation; only the others need looking up.
  const [longest, ...rest] = [...lists].sort((a, b) => b.length - a.length);
  const seen = new Map<string, Set<number>>();
  const result: At[] = [];
  const take = (at: At): void => {
    let places = seen.get(at.sheet);
    if (places === undefined) {
      places = new Set();
      seen.set(at.sheet, places);
    }
    const key = placeKey(at);
    if (places.has(key)) return;
    places.add(key);
    result.push(at);
  };
  for (const list of [longest ?? [], ...rest]) for (const at of list) take(at);
  return result;
}
