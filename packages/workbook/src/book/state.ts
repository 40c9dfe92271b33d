import type { Streamed } from '../document/save.ts';
import type {
  BookDocument,
  CellDocument,
  CheckDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
  TableDocument,
} from '../document/schema.ts';
import type { CountedSheet } from '../document/size.ts';
import type { At } from '../edit/types.ts';
import { nameKey } from '../formula/names.ts';
import type { SheetIndex } from '../formula/references.ts';
import { type RowGroup, rowGroups } from './groups.ts';

/** A row while its workbook is open. Cells are replaced, never changed in place. */
export interface RowState {
  readonly id: string;
  readonly hidden?: true;
  readonly group?: number;
  /** The file says that it has cells, and none are there: written again as it was. */
  readonly bare?: true;
  readonly cells: Map<string, CellDocument>;
}

/** A sheet while its workbook is open; keeps the way from ids to positions. */
export class SheetState {
  readonly id: string;
  name: string;
  /** Columns that stay in view. */
  frozen: number | undefined;
  /** Rows that stay in view. */
  frozenRows: number | undefined;
  readonly columns: ColumnDocument[];
  readonly rows: RowState[];
  #rowAt: Map<string, number> | undefined;
  #columnAt: Map<string, number> | undefined;
  #outline:
    | { readonly hidden: readonly number[]; readonly groups: readonly RowGroup[] }
    | undefined;

  constructor(sheet: SheetDocument) {
    this.id = sheet.id;
    this.name = sheet.name;
    this.frozen = sheet.frozen;
    this.frozenRows = sheet.frozenRows;
    this.columns = [...sheet.columns];
    this.rows = sheet.rows.map(rowState);
  }

  rowIndex(id: string): number | undefined {
    this.#rowAt ??= new Map(this.rows.map((row, index) => [row.id, index]));
    return this.#rowAt.get(id);
  }

  columnIndex(id: string): number | undefined {
    this.#columnAt ??= new Map(this.columns.map((column, index) => [column.id, index]));
    return this.#columnAt.get(id);
  }

  /** Rows out of sight, and groups of rows. */
  get outline() {
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

  setCell(row: number, column: number, cell: CellDocument | undefined): void {
    const id = this.columns[column]?.id;
    const cells = this.rows[row]?.cells;
    if (id === undefined || cells === undefined) throw new RangeError('no such cell');
    if (cell === undefined) cells.delete(id);
    else cells.set(id, cell);
  }

  insertRows(at: number, rows: readonly RowDocument[]): void {
    this.rows.splice(at, 0, ...rows.map(rowState));
    this.#rowAt = undefined;
    this.#outline = undefined;
  }

  removeRows(at: number, count: number): RowDocument[] {
    const gone = this.rows.splice(at, count);
    this.#rowAt = undefined;
    this.#outline = undefined;
    return gone.map((row) => this.rowDocument(row));
  }

  insertColumns(at: number, columns: readonly ColumnDocument[]): void {
    this.columns.splice(at, 0, ...columns);
    this.#columnAt = undefined;
  }

  removeColumns(at: number, count: number): ColumnDocument[] {
    const gone = this.columns.splice(at, count);
    this.#columnAt = undefined;
    return gone;
  }

  setColumn(at: number, column: ColumnDocument): void {
    this.columns[at] = column;
  }

  setRow(at: number, row: RowState): void {
    this.rows[at] = row;
    this.#outline = undefined;
  }

  rowDocument({ cells, bare, ...row }: RowState): RowDocument {
    if (cells.size > 0) return { ...row, cells: Object.fromEntries(cells) };
    return bare === true ? { ...row, cells: {} } : row;
  }

  document(): SheetDocument {
    return { ...this.#about(), rows: this.rows.map((row) => this.rowDocument(row)) };
  }

  /** The same with rows that are made as they are asked for, while nothing changes. */
  streamed() {
    return { ...this.#about(), rows: this.#rowDocuments() };
  }

  *#rowDocuments(): Generator<RowDocument> {
    for (const row of this.rows) yield this.rowDocument(row);
  }

  /** The same for counting what it takes when it is saved. */
  counted(): CountedSheet {
    return { ...this.#about(), rows: this.rows };
  }

  #about(): Omit<SheetDocument, 'rows'> {
    return {
      id: this.id,
      name: this.name,
      columns: [...this.columns],
      ...(this.frozen === undefined ? {} : { frozen: this.frozen }),
      ...(this.frozenRows === undefined ? {} : { frozenRows: this.frozenRows }),
    };
  }
}

function rowState({ cells, ...row }: RowDocument): RowState {
  const entries = Object.entries(cells ?? {});
  const bare = cells !== undefined && entries.length === 0 ? { bare: true as const } : {};
  return { ...row, ...bare, cells: new Map(entries) };
}

type Head = Omit<BookDocument, 'sheets' | 'checks' | 'tables'>;

interface NameHome {
  readonly name: string;
  readonly sheet: string;
  readonly row: string;
  readonly column: string;
}

/** Everything of an open workbook that is saved; the engine's cache of values is elsewhere. */
export class BookState implements SheetIndex {
  head: Head;
  readonly sheets: SheetState[];
  checks: readonly CheckDocument[];
  tables: readonly TableDocument[];
  readonly #names = new Map<string, NameHome>();

  constructor(document: BookDocument) {
    const { sheets, checks, tables, ...head } = document;
    this.head = head;
    this.sheets = sheets.map((sheet) => new SheetState(sheet));
    this.checks = checks;
    this.tables = tables;
    for (const sheet of this.sheets) for (const row of sheet.rows) this.#noteRow(sheet, row);
  }

  sheet(id: string): SheetState | undefined {
    return this.sheets.find((sheet) => sheet.id === id);
  }

  sheetId(name: string): string | undefined {
    const wanted = nameKey(name);
    return this.sheets.find((sheet) => nameKey(sheet.name) === wanted)?.id;
  }

  sheetName(id: string): string | undefined {
    return this.sheet(id)?.name;
  }

  columnId(sheet: string, index: number): string | undefined {
    return this.sheet(sheet)?.columns[index]?.id;
  }

  columnIndex(sheet: string, id: string): number | undefined {
    return this.sheet(sheet)?.columnIndex(id);
  }

  rowId(sheet: string, index: number): string | undefined {
    return this.sheet(sheet)?.rows[index]?.id;
  }

  rowIndex(sheet: string, id: string): number | undefined {
    return this.sheet(sheet)?.rowIndex(id);
  }

  cell(at: At): CellDocument | undefined {
    return this.sheet(at.sheet)?.cell(at.row, at.column);
  }

  /** Where a named cell is now. */
  named(name: string): At | undefined {
    const home = this.#names.get(nameKey(name));
    if (home === undefined) return undefined;
    const row = this.rowIndex(home.sheet, home.row);
    const column = this.columnIndex(home.sheet, home.column);
    if (row === undefined || column === undefined) return undefined;
    return { sheet: home.sheet, row, column };
  }

  /** Names in the order of sheets, rows and columns. */
  names(): { name: string; at: At }[] {
    const order = new Map(this.sheets.map((sheet, index) => [sheet.id, index]));
    const found: { name: string; at: At }[] = [];
    for (const { name } of this.#names.values()) {
      const at = this.named(name);
      if (at !== undefined) found.push({ name, at });
    }
    return found.sort(
      (a, b) =>
        (order.get(a.at.sheet) ?? 0) - (order.get(b.at.sheet) ?? 0) ||
        a.at.row - b.at.row ||
        a.at.column - b.at.column,
    );
  }

  noteName(at: At, name: string): void {
    const row = this.rowId(at.sheet, at.row);
    const column = this.columnId(at.sheet, at.column);
    if (row === undefined || column === undefined) throw new RangeError('no such cell');
    this.#names.set(nameKey(name), { name, sheet: at.sheet, row, column });
  }

  dropName(name: string): void {
    this.#names.delete(nameKey(name));
  }

  document(): BookDocument {
    return { ...this.streamed(), sheets: this.sheets.map((sheet) => sheet.document()) };
  }

  /** The saved form with rows that are made as they are asked for, while nothing changes. */
  streamed(): Streamed {
    return {
      ...this.head,
      sheets: this.sheets.map((sheet) => sheet.streamed()),
      checks: [...this.checks],
      tables: [...this.tables],
    };
  }

  #noteRow(sheet: SheetState, row: RowState): void {
    for (const [column, cell] of row.cells) {
      if (cell.name === undefined) continue;
      const home = { name: cell.name, sheet: sheet.id, row: row.id, column };
      this.#names.set(nameKey(cell.name), home);
    }
  }
}
