import { type At, type BookState, CHECKS_SHEET } from '@kerfbook/document';
import type { Differing } from '../port.ts';

const COLUMNS = 1024;
const placeKey = (at: At): number => at.row * COLUMNS + at.column;

/** Collects which cells differ after an edit, each once (rule C1). */
export class Affected {
  structure = false;
  readonly #lists: (readonly At[])[] = [];
  readonly #checks = new Set<number>();

  /** Whether there is any. */
  get any(): boolean {
    return this.structure || this.#lists.length > 0 || this.#checks.size > 0;
  }

  /** Cells of makers' sheets, each once. */
  add(cells: readonly At[]): void {
    if (cells.length > 0) this.#lists.push(cells);
  }

  take({ cells, checks }: Differing): void {
    this.add(cells);
    for (const row of checks) this.#checks.add(row);
  }

  /** Rows or columns of a sheet come or go: cells added before are those that stand there then. */
  moved(id: string, before: BookState, after: BookState): void {
    const [was, is] = [before.sheet(id), after.sheet(id)];
    for (const [i, list] of this.#lists.entries()) {
      if (!list.some(({ sheet }) => sheet === id)) continue;
      this.#lists[i] = list.flatMap((at) => {
        if (at.sheet !== id) return at;
        const row = is?.rowIndex(was?.rows[at.row]?.id ?? '');
        const column = is?.columnIndex(was?.columns[at.column]?.id ?? '');
        return row === undefined || column === undefined ? [] : { sheet: id, row, column };
      });
    }
  }

  all(): Differing {
    return { cells: this.#list(), checks: [...this.#checks] };
  }

  /** Without repeats. A single list from the engine has none and is kept. */
  #list(): readonly At[] {
    const [only, ...more] = this.#lists;
    if (only === undefined) return [];
    return more.length === 0 ? only : withoutRepeats(this.#lists);
  }
}

/** So few cells are looked for in a long list one by one: putting that in order takes longer. */
const FEW = 8;

const isSame = (a: At, b: At): boolean =>
  a.row === b.row && a.column === b.column && a.sheet === b.sheet;

function withoutRepeats(lists: readonly (readonly At[])[]): readonly At[] {
  // The longest list usually comes from one recalculation; only the others need looking up.
  const [longest = [], ...rest] = [...lists].sort((a, b) => b.length - a.length);
  const few = rest.flat();
  if (few.length <= FEW) return withFew(longest, few);
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
  for (const list of [longest, ...rest]) for (const at of list) take(at);
  return result;
}

/** A list that has no repeats, and a few cells. */
function withFew(list: readonly At[], few: readonly At[]): readonly At[] {
  const more: At[] = [];
  for (const at of few) {
    const known = (one: At): boolean => isSame(one, at);
    if (!more.some(known) && !list.some(known)) more.push(at);
  }
  return more.length === 0 ? list : [...list, ...more];
}

/** Cells of checks, which stand on a sheet of their own, told apart from those of makers' sheets. */
export function apart(cells: readonly At[]): Differing {
  const checks = cells.flatMap(({ sheet, row }) => (sheet === CHECKS_SHEET ? row : []));
  if (checks.length === 0) return { cells, checks };
  return { cells: cells.filter(({ sheet }) => sheet !== CHECKS_SHEET), checks };
}
