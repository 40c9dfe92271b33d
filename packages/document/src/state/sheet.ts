import type { CellDocument, ColumnDocument, RowDocument, SheetDocument } from '../format/schema.ts';
import type { CountedSheet } from '../format/size.ts';
import { type RowGroup, rowGroups } from './groups.ts';
import { Index } from './places-by-id.ts';

/** A row of a workbook's state. Nothing of it is changed in place. */
export interface RowState {
  readonly id: string;
  readonly hidden?: true;
  readonly group?: number;
  /** The file says that it has cells, and none are there: written again as it was. */
  readonly bare?: true;
  readonly cells: ReadonlyMap<string, CellDocument>;
}

/** What is said of a sheet beside its rows and columns. */
export type SheetAbout = Omit<SheetDocument, 'rows' | 'columns'>;

/** A cell that is put in place, or taken out with `undefined`; its row by where it is. */
export interface CellPut {
  readonly row: number;
  readonly column: string;
  readonly cell: CellDocument | undefined;
}

interface Outline {
  readonly hidden: readonly number[];
  readonly groups: readonly RowGroup[];
}

/** A sheet as a value: what changes it makes another one, which shares what stayed the same. */
export class SheetState {
  readonly about: SheetAbout;
  readonly columns: readonly ColumnDocument[];
  readonly rows: readonly RowState[];
  readonly #rowAt: Index;
  readonly #columnAt: Index;
  #outline: Outline | undefined;

  private constructor(
    about: SheetAbout,
    columns: readonly ColumnDocument[],
    rows: readonly RowState[],
    kept: { rowAt?: Index; columnAt?: Index; outline?: Outline | undefined } = {},
  ) {
    this.about = about;
    this.columns = columns;
    this.rows = rows;
    this.#rowAt = kept.rowAt ?? new Index(rows);
    this.#columnAt = kept.columnAt ?? new Index(columns);
    this.#outline = kept.outline;
  }

  static of({ rows, columns, ...about }: SheetDocument): SheetState {
    return new SheetState(about, columns, rows.map(rowState));
  }

  get id(): string {
    return this.about.id;
  }

  get name(): string {
    return this.about.name;
  }

  /** Columns that stay in view. */
  get frozenColumns(): number | undefined {
    return this.about.frozenColumns;
  }

  /** Rows that stay in view. */
  get frozenRows(): number | undefined {
    return this.about.frozenRows;
  }

  rowIndex(id: string): number | undefined {
    return this.#rowAt.at(id);
  }

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

  cell(row: number, column: number): CellDocument | undefined {
    const id = this.columns[column]?.id;
    return id === undefined ? undefined : this.rows[row]?.cells.get(id);
  }

  withAbout(about: SheetAbout): SheetState {
    return new SheetState(about, this.columns, this.rows, {
      rowAt: this.#rowAt,
      columnAt: this.#columnAt,
      outline: this.#outline,
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
    return new SheetState(this.about, this.columns, rows, {
      rowAt: this.#rowAt,
      columnAt: this.#columnAt,
      outline: this.#outline,
    });
  }

  withRows(rows: readonly RowState[]): SheetState {
    return new SheetState(this.about, this.columns, rows, { columnAt: this.#columnAt });
  }

  withColumns(columns: readonly ColumnDocument[]): SheetState {
    return new SheetState(this.about, columns, this.rows, {
      rowAt: this.#rowAt,
      outline: this.#outline,
    });
  }

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
