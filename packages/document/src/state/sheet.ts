import type { CellDocument, ColumnDocument, RowDocument, SheetDocument } from '../format/schema.ts';
import type { CountedSheet } from '../format/size.ts';
import { type RowGroup, rowGroups } from './groups.ts';
import type { Place } from './places.ts';
import { Index } from './places-by-id.ts';

/** A row of a workbook's state. Nothing of it is changed in place. */
export interface RowState {
  /** Unique among the rows of its sheet. */
  readonly id: string;
  /** Out of sight; it goes on calculating. */
  readonly hidden?: true;
  /** How many groups of rows it is in, one inside the other. */
  readonly group?: number;
  /** The file says that it has cells, and none are there: written again as it was. */
  readonly bare?: true;
  /** By the ids of their columns. */
  readonly cells: ReadonlyMap<string, CellDocument>;
}

/** What is said of a sheet beside its rows and columns. */
export type SheetAbout = Omit<SheetDocument, 'rows' | 'columns'>;

/** A cell that is put in place, or taken out with `undefined`; its row by where it is. */
export interface CellPut {
  /** Counted from 0. */
  readonly row: number;
  /** Id of the column. */
  readonly column: string;
  /** The whole cell as it is from now on. */
  readonly cell: CellDocument | undefined;
}

interface Outline {
  readonly hidden: readonly number[];
  readonly groups: readonly RowGroup[];
}

/** A sheet as a value: what changes it makes another one, which shares what stayed the same. */
export class SheetState {
  /** Its id, its name, and what stays in view. */
  readonly about: SheetAbout;
  /** From left to right. */
  readonly columns: readonly ColumnDocument[];
  /** From top to bottom. */
  readonly rows: readonly RowState[];
  readonly #rowAt: Index;
  readonly #columnAt: Index;
  #outline: Outline | undefined;
  #mayWrap: readonly Place[] | undefined;

  private constructor(
    about: SheetAbout,
    columns: readonly ColumnDocument[],
    rows: readonly RowState[],
    kept: {
      rowAt?: Index;
      columnAt?: Index;
      outline?: Outline | undefined;
      mayWrap?: readonly Place[] | undefined;
    } = {},
  ) {
    this.about = about;
    this.columns = columns;
    this.rows = rows;
    this.#rowAt = kept.rowAt ?? new Index(rows);
    this.#columnAt = kept.columnAt ?? new Index(columns);
    this.#outline = kept.outline;
    this.#mayWrap = kept.mayWrap;
  }

  /** The state of a sheet as it is saved. */
  static of({ rows, columns, ...about }: SheetDocument): SheetState {
    return new SheetState(about, columns, rows.map(rowState));
  }

  /** Unique in the workbook; it stays when the sheet is renamed. */
  get id(): string {
    return this.about.id;
  }

  /** What the maker calls it. */
  get name(): string {
    return this.about.name;
  }

  /** Out of the list of sheets. */
  get isHidden(): boolean {
    return this.about.hidden === true;
  }

  /** Columns that stay in view. */
  get frozenColumns(): number | undefined {
    return this.about.frozenColumns;
  }

  /** Rows that stay in view. */
  get frozenRows(): number | undefined {
    return this.about.frozenRows;
  }

  /** Where a row stands, from 0; nothing where it is not there. */
  rowIndex(id: string): number | undefined {
    return this.#rowAt.at(id);
  }

  /** Where a column stands, from 0; nothing where it is not there. */
  columnIndex(id: string): number | undefined {
    return this.#columnAt.at(id);
  }

  /** Rows out of sight, and groups of rows. */
  get outline(): Outline {
    this.#outline ??= {
      hidden: this.rows.flatMap(({ hidden }, at) => (hidden === true ? [at] : [])),
      groups: rowGroups(this.rows),
    };
    return this.#outline;
  }

  /** Cells whose words may take several lines, wrapped ones and notes; the same list as before where it says the same. */
  get mayWrap(): readonly Place[] {
    this.#mayWrap ??= this.rows.flatMap((_, row) => this.#mayWrapIn(row));
    return this.#mayWrap;
  }

  #mayWrapIn(row: number): readonly Place[] {
    const found: Place[] = [];
    for (const [id, { style, role }] of this.rows[row]?.cells ?? []) {
      if (style?.wrap === true || role === 'note')
        found.push({ row, column: this.columnIndex(id) ?? 0 });
    }
    return found.sort((a, b) => a.column - b.column);
  }

  /** The same after some of its rows came out of other ones: only these are looked at. */
  #mayWrapAfter(before: SheetState, rows: Iterable<number>): readonly Place[] {
    const changed = new Set(rows);
    const now = [...changed].flatMap((row) => this.#mayWrapIn(row));
    const others = before.mayWrap.filter(({ row }) => !changed.has(row));
    if (now.length === 0 && others.length === before.mayWrap.length) return before.mayWrap;
    const all = [...others, ...now].sort((a, b) => a.row - b.row || a.column - b.column);
    return samePlaces(all, before.mayWrap) ? before.mayWrap : all;
  }

  /** The cell at a place counted from 0; nothing where none is. */
  cell(row: number, column: number): CellDocument | undefined {
    const id = this.columns[column]?.id;
    return id === undefined ? undefined : this.rows[row]?.cells.get(id);
  }

  /** The same with something else said of it. */
  withAbout(about: SheetAbout): SheetState {
    return new SheetState(about, this.columns, this.rows, {
      rowAt: this.#rowAt,
      columnAt: this.#columnAt,
      outline: this.#outline,
      mayWrap: this.#mayWrap,
    });
  }

  /** With other cells in rows and columns that are there. */
  withCells(puts: readonly CellPut[]): SheetState {
    const rows = [...this.rows];
    const fresh = new Map<number, Map<string, CellDocument>>();
    for (const { row, column, cell } of puts) {
      const line = rows[row];
      if (line === undefined) throw new RangeError('no such row');
      let cells = fresh.get(row);
      if (cells === undefined) {
        cells = new Map(line.cells);
        fresh.set(row, cells);
        rows[row] = { ...line, cells };
      }
      if (cell === undefined) cells.delete(column);
      else cells.set(column, cell);
    }
    const next = new SheetState(this.about, this.columns, rows, {
      rowAt: this.#rowAt,
      columnAt: this.#columnAt,
      outline: this.#outline,
    });
    // Nobody asked yet: nothing to keep in step.
    if (this.#mayWrap !== undefined) next.#mayWrap = next.#mayWrapAfter(this, fresh.keys());
    return next;
  }

  /** The same with other rows. */
  withRows(rows: readonly RowState[]): SheetState {
    const next = new SheetState(this.about, this.columns, rows, { columnAt: this.#columnAt });
    if (this.#mayWrap?.length !== 0) return next;
    // Where there were none, only rows that are new may have some.
    const known = new Set(this.rows);
    const fresh = rows.some((row, at) => !known.has(row) && next.#mayWrapIn(at).length > 0);
    if (!fresh) next.#mayWrap = this.#mayWrap;
    return next;
  }

  /** The same with other columns; its rows stay as they are. */
  withColumns(columns: readonly ColumnDocument[]): SheetState {
    return new SheetState(this.about, columns, this.rows, {
      rowAt: this.#rowAt,
      outline: this.#outline,
      mayWrap: this.#mayWrap?.length === 0 ? this.#mayWrap : undefined,
    });
  }

  /** The sheet as it is saved. */
  document(): SheetDocument {
    return { ...this.#shape(), rows: this.rows.map(rowDocument) };
  }

  /** The same with rows that are made as they are asked for. */
  streamed() {
    return { ...this.#shape(), rows: rowDocuments(this.rows) };
  }

  /** The same for counting what it takes when it is saved. */
  counted(): CountedSheet {
    return { ...this.#shape(), rows: this.rows };
  }

  #shape(): Omit<SheetDocument, 'rows'> {
    return { ...this.about, columns: [...this.columns] };
  }
}

function* rowDocuments(rows: readonly RowState[]): Generator<RowDocument> {
  for (const row of rows) yield rowDocument(row);
}

export function rowDocument({ cells, bare, ...row }: RowState): RowDocument {
  if (cells.size > 0) return { ...row, cells: Object.fromEntries(cells) };
  return bare === true ? { ...row, cells: {} } : row;
}

export function rowState({ cells, ...row }: RowDocument): RowState {
  const entries = Object.entries(cells ?? {});
  const bare = cells !== undefined && entries.length === 0 ? { bare: true as const } : {};
  return { ...row, ...bare, cells: new Map(entries) };
}

const samePlaces = (some: readonly Place[], others: readonly Place[]): boolean =>
  some.length === others.length &&
  some.every(({ row, column }, i) => row === others[i]?.row && column === others[i]?.column);
