import { complaint } from '../faults/catalogue.ts';
import type { CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { carryRead } from '../formula/tree/read.ts';
import type { BookState, NameHome } from '../state/state.ts';
import type { Conflict, Outcome } from './apply.ts';
import type { CellChange, Change } from './types.ts';

type Cells = Change & { readonly change: 'cells' };

/** Puts whole cells in place. Names that leave with this change are free for cells that come with it. */
export function applyCells(state: BookState, change: Cells): Outcome {
  const sheet = state.sheet(change.sheet);
  const conflicts: Conflict[] = [];
  const gone = (cells: readonly CellChange[]): void => {
    const lost: Change = { ...change, cells };
    conflicts.push({ ...complaint('W26', cellsInWords(cells.length)), change: lost });
  };
  if (sheet === undefined) {
    gone(change.cells);
    return { state, changes: [], inverse: [], conflicts };
  }
  const here = (one: CellChange): boolean =>
    sheet.rowIndex(one.row) !== undefined && sheet.columnIndex(one.column) !== undefined;
  const homeless = change.cells.filter((one) => !here(one));
  if (homeless.length > 0) gone(homeless);
  const wanted = lastOfEach(homeless.length === 0 ? change.cells : change.cells.filter(here));
  const olds = wanted.map(({ row, column }) =>
    sheet.rows[sheet.rowIndex(row) ?? 0]?.cells.get(column),
  );
  for (const [i, { cell }] of wanted.entries()) carryRead(olds[i], cell);
  const names = new Names(state);
  const keeps = (one: CellChange, i: number): boolean => one.cell?.name === olds[i]?.name;
  for (const [i, one] of wanted.entries()) if (!keeps(one, i)) names.leave(olds[i]?.name);
  const cells = wanted.map((one, i) => {
    if (one.cell === null || keeps(one, i)) return one;
    const cell = names.arrive(one.cell, { ...one, sheet: sheet.id });
    if (cell === one.cell) return one;
    carryRead(one.cell, cell);
    conflicts.push(nameTaken(one.cell.name ?? '', { ...change, cells: [one] }));
    return { ...one, cell };
  });
  if (cells.length === 0) return { state, changes: [], inverse: [], conflicts };
  const puts = cells.map(({ row, column, cell }) => ({
    row: sheet.rowIndex(row) ?? 0,
    column,
    cell: cell ?? undefined,
  }));
  const before = cells.map((one, i) => ({ ...one, cell: olds[i] ?? null }));
  return {
    state: state.withSheet(sheet.withCells(puts)).with({ homes: names.homes }),
    changes: [{ ...change, cells }],
    inverse: [{ ...change, cells: before }],
    conflicts,
  };
}

export const nameTaken = (name: string, change: Change): Conflict => ({
  ...complaint('W25', name),
  change,
});

const cellsInWords = (count: number): string => (count === 1 ? 'a cell' : `${count} cells`);

/** One change a cell, the last one. */
function lastOfEach(cells: readonly CellChange[]): readonly CellChange[] {
  if (cells.length < 2) return cells;
  const byPlace = new Map(cells.map((one) => [`${one.row} ${one.column}`, one]));
  return byPlace.size === cells.length ? cells : [...byPlace.values()];
}

/** Names of a state while cells come and go; copied as soon as one of them changes. */
export class Names {
  readonly #before: ReadonlyMap<string, NameHome>;
  #now: Map<string, NameHome> | undefined;

  constructor(state: BookState) {
    this.#before = state.homes;
  }

  get homes(): ReadonlyMap<string, NameHome> {
    return this.#now ?? this.#before;
  }

  leave(name: string | undefined): void {
    if (name !== undefined) this.#changed().delete(nameKey(name));
  }

  /** A cell that comes to a place: without its name where another cell has that (rule H4). */
  arrive(cell: CellDocument, place: Omit<NameHome, 'name'>): CellDocument {
    const { name, ...nameless } = cell;
    if (name === undefined) return cell;
    if (this.homes.has(nameKey(name))) return nameless;
    const { sheet, row, column } = place;
    this.#changed().set(nameKey(name), { name, sheet, row, column });
    return cell;
  }

  #changed(): Map<string, NameHome> {
    this.#now ??= new Map(this.#before);
    return this.#now;
  }
}
