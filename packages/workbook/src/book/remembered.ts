import type { At, BookState, SheetState } from '@kerfbook/document';
import type { CellIds, CellValue, Moved } from '../api.ts';
import type { Pace, Values } from '../port.ts';

/** A number alone takes the least room, and most cells hold one. */
type Kept = number | Exclude<CellValue, { kind: 'number' }>;

/** How many cells are looked at between two looks at the pace. */
const BETWEEN_LOOKS = 256;

/** What cells of a sheet came to, by the ids of their rows and columns: nothing moves when others come and go. */
type KeptSheet = Map<string, Map<string, Kept>>;

interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

/**
 * What the cells of a workbook came to when it was looked at last, so that what a change moved can be told.
 * Nothing is looked at while values are still to be worked out.
 */
export class Remembered {
  readonly #sources: () => Sources;
  #sheets = new Map<string, KeptSheet>();
  #taking: Generator<void, void> | undefined;
  #taken = false;

  constructor(sources: () => Sources) {
    this.#sources = sources;
  }

  /** Looks at all cells, as far as the pace allows. True once all have been looked at. */
  take(pace?: Pace): boolean {
    if (this.#taken) return true;
    this.#taking ??= this.#all(() => undefined);
    this.#taken = walked(this.#taking, pace);
    if (this.#taken) this.#taking = undefined;
    return this.#taken;
  }

  /**
   * Compares with what cells come to now, and remembers that from here on. `changed`: where they stand that
   * may differ; any may, and rows, columns and sheets may have come or gone, where it is left out.
   */
  compare(changed?: readonly At[]): Comparison {
    const moved: Moved[] = [];
    // Who compares all has looked at all.
    if (changed === undefined) {
      this.#taking = undefined;
      this.#taken = true;
    }
    const walk =
      changed === undefined
        ? this.#all((one) => moved.push(one))
        : this.#some(changed, (one) => moved.push(one));
    return { moved, go: (pace) => walked(walk, pace) };
  }

  /** What of some cells comes to something else now; what was remembered stays. */
  differing(cells: readonly At[]): readonly Moved[] {
    const moved: Moved[] = [];
    walked(
      this.#some(cells, (one) => moved.push(one), false),
      undefined,
    );
    return moved;
  }

  *#all(tell: (moved: Moved) => void): Generator<void, void> {
    const before = this.#sheets;
    this.#sheets = new Map();
    const { state, values } = this.#sources();
    let looked = 0;
    for (const sheet of state.sheets) {
      const was = before.get(sheet.id);
      const is: KeptSheet = new Map();
      this.#sheets.set(sheet.id, is);
      for (let row = 0; row < sheet.rows.length; row += 1) {
        const { id, cells } = sheet.rows[row] as SheetState['rows'][number];
        if (cells.size === 0) continue;
        const [old, line] = [was?.get(id), new Map<string, Kept>()];
        is.set(id, line);
        for (const [columnId, { formula }] of cells) {
          const at = { sheet: sheet.id, row, column: sheet.columnIndex(columnId) ?? 0 };
          const value = values.value(at);
          const now = kept(value);
          line.set(columnId, now);
          const then = old?.get(columnId);
          // What was not there before came with the change; nothing moved it.
          if (then !== undefined && !isSame(then, now)) {
            const ids = { sheet: sheet.id, row: id, column: columnId };
            tell({ ids, at, was: unkept(then), is: value, calculated: formula !== undefined });
          }
          looked += 1;
          if (looked % BETWEEN_LOOKS === 0) yield;
        }
      }
    }
  }

  *#some(
    changed: readonly At[],
    tell: (moved: Moved) => void,
    remembers = true,
  ): Generator<void, void> {
    const { state, values } = this.#sources();
    let sheet: SheetState | undefined;
    for (let i = 0; i < changed.length; i += 1) {
      const at = changed[i] as At;
      if (sheet?.id !== at.sheet) sheet = state.sheet(at.sheet);
      const [row, column] = [sheet?.rows[at.row], sheet?.columns[at.column]];
      if (row === undefined || column === undefined) continue;
      const line = this.#line(at.sheet, row.id);
      const value = values.value(at);
      const [then, now] = [line.get(column.id) ?? NOTHING, kept(value)];
      if (!isSame(then, now)) {
        if (remembers) line.set(column.id, now);
        const ids = { sheet: at.sheet, row: row.id, column: column.id };
        const calculated = row.cells.get(column.id)?.formula !== undefined;
        tell({ ids, at, was: unkept(then), is: value, calculated });
      }
      if ((i + 1) % BETWEEN_LOOKS === 0) yield;
    }
  }

  #line(sheetId: string, rowId: string): Map<string, Kept> {
    let sheet = this.#sheets.get(sheetId);
    if (sheet === undefined) {
      sheet = new Map();
      this.#sheets.set(sheetId, sheet);
    }
    let line = sheet.get(rowId);
    if (line === undefined) {
      line = new Map();
      sheet.set(rowId, line);
    }
    return line;
  }
}

/** Cells being compared with what they were. */
export interface Comparison {
  /** Those found so far. */
  readonly moved: readonly Moved[];
  /** Goes on as far as the pace allows. True once all were compared. */
  go(pace?: Pace): boolean;
}

const NOTHING: Kept = { kind: 'empty' };

function walked(walk: Generator<void, void>, pace: Pace | undefined): boolean {
  while (walk.next().done !== true) if (pace?.() === false) return false;
  return true;
}

const kept = (value: CellValue): Kept => (value.kind === 'number' ? value.number : value);

const unkept = (one: Kept): CellValue =>
  typeof one === 'number' ? { kind: 'number', number: one } : one;

function isSame(a: Kept, b: Kept): boolean {
  if (typeof a === 'number' || typeof b === 'number') return a === b;
  if (a.kind === 'text') return b.kind === 'text' && a.text === b.text;
  if (a.kind === 'logical') return b.kind === 'logical' && a.logical === b.logical;
  if (a.kind === 'error') return b.kind === 'error' && a.error.word === b.error.word;
  return a.kind === b.kind;
}

/** The ids that a cell is known by; nothing beyond the sheet's edge. */
export function idsAt(state: BookState, { sheet, row, column }: At): CellIds | undefined {
  const [rowId, columnId] = [state.rowId(sheet, row), state.columnId(sheet, column)];
  if (rowId === undefined || columnId === undefined) return undefined;
  return { sheet, row: rowId, column: columnId };
}

/** Where the cell stands now that these ids are of; nothing where it is gone. */
export function placeOf(state: BookState, { sheet, row, column }: CellIds): At | undefined {
  const at = { row: state.rowIndex(sheet, row), column: state.columnIndex(sheet, column) };
  if (at.row === undefined || at.column === undefined) return undefined;
  return { sheet, row: at.row, column: at.column };
}
