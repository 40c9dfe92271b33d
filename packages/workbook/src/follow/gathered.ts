import type { At, BookState } from '@kerfbook/document';

const COLUMNS = 1024;
const placeKey = (at: At): number => at.row * COLUMNS + at.column;

/** Gathers which cells differ after an edit, each once (rule C1). */
export class Gathered {
  structure = false;
  readonly #lists: (readonly At[])[] = [];

  /** Whether anything was gathered. */
  get any(): boolean {
    return this.structure || this.#lists.length > 0;
  }

  add(cells: readonly At[]): void {
    if (cells.length > 0) this.#lists.push(cells);
  }

  /** Rows or columns of a sheet come or go: cells gathered before are those that stand there then. */
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

  /** All cells that were gathered, each once. */
  all(): readonly At[] {
    return this.#list();
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
