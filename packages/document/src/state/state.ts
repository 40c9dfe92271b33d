import type { Streamed } from '../format/save.ts';
import type {
  BookDocument,
  CellDocument,
  CheckDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
  TableDocument,
} from '../format/schema.ts';
import type { CountedSheet } from '../format/size.ts';
import { nameKey } from '../formula/names.ts';
import type { SheetIndex } from '../formula/references.ts';
import { type RowGroup, rowGroups } from './groups.ts';
import { Journal, type Noted } from './journal.ts';
import type { At } from './places.ts';

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
  readonly #columns: ColumnDocument[];
  readonly #rows: RowState[];
  readonly #journal: Journal;
  #name: string;
  #frozenColumns: number | undefined;
  #frozenRows: number | undefined;
  #rowAt: Map<string, number> | undefined;
  #columnAt: Map<string, number> | undefined;
  #outline:
    | { readonly hidden: readonly number[]; readonly groups: readonly RowGroup[] }
    | undefined;

  constructor(sheet: SheetDocument, journal: Journal) {
    this.#journal = journal;
    this.id = sheet.id;
    this.#name = sheet.name;
    this.#frozenColumns = sheet.frozenColumns;
    this.#frozenRows = sheet.frozenRows;
    this.#columns = [...sheet.columns];
    this.#rows = sheet.rows.map(rowState);
  }

  get columns(): readonly ColumnDocument[] {
    return this.#columns;
  }

  get rows(): readonly RowState[] {
    return this.#rows;
  }

  get name(): string {
    return this.#name;
  }

  rename(name: string): void {
    const was = this.#name;
    this.#name = name;
    this.#journal.note(() => {
      this.#name = was;
    });
  }

  /** Columns that stay in view. */
  get frozenColumns(): number | undefined {
    return this.#frozenColumns;
  }

  /** Rows that stay in view. */
  get frozenRows(): number | undefined {
    return this.#frozenRows;
  }

  freeze(columns: number | undefined, rows: number | undefined): void {
    const [frozenColumns, frozenRows] = [this.#frozenColumns, this.#frozenRows];
    this.#frozenColumns = columns;
    this.#frozenRows = rows;
    this.#journal.note(() => {
      this.#frozenColumns = frozenColumns;
      this.#frozenRows = frozenRows;
    });
  }

  rowIndex(id: string): number | undefined {
    this.#rowAt ??= new Map(this.#rows.map((row, index) => [row.id, index]));
    return this.#rowAt.get(id);
  }

  columnIndex(id: string): number | undefined {
    this.#columnAt ??= new Map(this.#columns.map((column, index) => [column.id, index]));
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
    const was = cells.get(id);
    put(cells, id, cell);
    this.#journal.note(() => put(cells, id, was));
  }

  insertRows(at: number, rows: readonly RowDocument[]): void {
    this.#spliceRows(at, 0, rows.map(rowState));
  }

  removeRows(at: number, count: number): RowDocument[] {
    return this.#spliceRows(at, count, []).map((row) => this.rowDocument(row));
  }

  #spliceRows(at: number, count: number, rows: readonly RowState[]): RowState[] {
    const gone = this.#rows.splice(at, count, ...rows);
    this.#forgetRows();
    this.#journal.note(() => {
      this.#rows.splice(at, rows.length, ...gone);
      this.#forgetRows();
    });
    return gone;
  }

  #forgetRows(): void {
    this.#rowAt = undefined;
    this.#outline = undefined;
  }

  insertColumns(at: number, columns: readonly ColumnDocument[]): void {
    this.#spliceColumns(at, 0, columns);
  }

  removeColumns(at: number, count: number): ColumnDocument[] {
    return this.#spliceColumns(at, count, []);
  }

  #spliceColumns(at: number, count: number, columns: readonly ColumnDocument[]) {
    const gone = this.#columns.splice(at, count, ...columns);
    this.#columnAt = undefined;
    this.#journal.note(() => {
      this.#columns.splice(at, columns.length, ...gone);
      this.#columnAt = undefined;
    });
    return gone;
  }

  setColumn(at: number, column: ColumnDocument): void {
    const was = this.#columns[at];
    if (was === undefined) throw new RangeError('no such column');
    this.#columns[at] = column;
    this.#journal.note(() => {
      this.#columns[at] = was;
    });
  }

  setRow(at: number, row: RowState): void {
    const was = this.#rows[at];
    if (was === undefined) throw new RangeError('no such row');
    this.#rows[at] = row;
    this.#outline = undefined;
    this.#journal.note(() => {
      this.#rows[at] = was;
      this.#outline = undefined;
    });
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
      ...(this.frozenColumns === undefined ? {} : { frozenColumns: this.frozenColumns }),
      ...(this.frozenRows === undefined ? {} : { frozenRows: this.frozenRows }),
    };
  }
}

function put(cells: Map<string, CellDocument>, id: string, cell: CellDocument | undefined): void {
  if (cell === undefined) cells.delete(id);
  else cells.set(id, cell);
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
  readonly #journal = new Journal();
  readonly #sheets: SheetState[];
  #head: Head;
  #checks: readonly CheckDocument[];
  #tables: readonly TableDocument[];
  readonly #names = new Map<string, NameHome>();

  constructor(document: BookDocument) {
    const { sheets, checks, tables, ...head } = document;
    this.#head = head;
    this.#sheets = sheets.map((sheet) => new SheetState(sheet, this.#journal));
    this.#checks = checks;
    this.#tables = tables;
    for (const sheet of this.#sheets) for (const row of sheet.rows) this.#noteRow(sheet, row);
  }

  /** From here on every change notes how it is taken back. */
  begin(): void {
    this.#journal.begin();
  }

  /** Ends what was begun; the answer takes all of it back, as long as nothing else came after it. */
  end(): Noted {
    return this.#journal.end();
  }

  get head(): Head {
    return this.#head;
  }

  set head(head: Head) {
    const was = this.#head;
    this.#head = head;
    this.#journal.note(() => {
      this.#head = was;
    });
  }

  get checks(): readonly CheckDocument[] {
    return this.#checks;
  }

  set checks(checks: readonly CheckDocument[]) {
    const was = this.#checks;
    this.#checks = checks;
    this.#journal.note(() => {
      this.#checks = was;
    });
  }

  get tables(): readonly TableDocument[] {
    return this.#tables;
  }

  set tables(tables: readonly TableDocument[]) {
    const was = this.#tables;
    this.#tables = tables;
    this.#journal.note(() => {
      this.#tables = was;
    });
  }

  get sheets(): readonly SheetState[] {
    return this.#sheets;
  }

  /** Puts a sheet in; the names of its cells are noted by who puts it in. */
  addSheet(at: number, document: SheetDocument): SheetState {
    const sheet = new SheetState(document, this.#journal);
    this.#spliceSheets(at, 0, [sheet]);
    return sheet;
  }

  removeSheet(at: number): void {
    this.#spliceSheets(at, 1, []);
  }

  moveSheet(from: number, to: number): void {
    this.#spliceSheets(to, 0, this.#spliceSheets(from, 1, []));
  }

  #spliceSheets(at: number, count: number, sheets: readonly SheetState[]): SheetState[] {
    const gone = this.#sheets.splice(at, count, ...sheets);
    this.#journal.note(() => {
      this.#sheets.splice(at, sheets.length, ...gone);
    });
    return gone;
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
    this.#putName(nameKey(name), { name, sheet: at.sheet, row, column });
  }

  dropName(name: string): void {
    this.#putName(nameKey(name), undefined);
  }

  #putName(key: string, home: NameHome | undefined): void {
    const was = this.#names.get(key);
    const put = (one: NameHome | undefined): void => {
      if (one === undefined) this.#names.delete(key);
      else this.#names.set(key, one);
    };
    put(home);
    this.#journal.note(() => put(was));
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
