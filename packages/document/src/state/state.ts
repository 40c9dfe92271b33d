import type { Streamed } from '../format/save.ts';
import type { BookDocument, CellDocument, CheckDocument, TableDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import type { SheetIndex } from '../formula/references.ts';
import type { At } from './places.ts';
import { SheetState } from './sheet.ts';

/** What is said of a workbook as a whole. */
export type Head = Omit<BookDocument, 'sheets' | 'checks' | 'tables'>;

/** The cell that has a name, by ids. */
export interface NameHome {
  readonly name: string;
  readonly sheet: string;
  readonly row: string;
  readonly column: string;
}

interface Contents {
  readonly head: Head;
  readonly sheets: readonly SheetState[];
  readonly checks: readonly CheckDocument[];
  readonly tables: readonly TableDocument[];
  /** Cells with names, by the names' keys. */
  readonly homes: ReadonlyMap<string, NameHome>;
}

/**
 * Everything of a workbook that is saved, as a value: a change makes another one that shares what
 * stayed the same, and this one can be read as before. Changes are carried out by `applyChanges`.
 */
export class BookState implements SheetIndex {
  /** Title, units and what else is said of it as a whole. */
  readonly head: Head;
  /** In their order. */
  readonly sheets: readonly SheetState[];
  /** In their order. */
  readonly checks: readonly CheckDocument[];
  /** The tables with known columns. */
  readonly tables: readonly TableDocument[];
  /** Cells with names, by the names' keys (`nameKey`). */
  readonly homes: ReadonlyMap<string, NameHome>;

  private constructor(contents: Contents) {
    this.head = contents.head;
    this.sheets = contents.sheets;
    this.checks = contents.checks;
    this.tables = contents.tables;
    this.homes = contents.homes;
  }

  /** The state of a workbook as it is saved; what is in it must fit together, as in a loaded one. */
  static of(document: BookDocument): BookState {
    const { sheets: documents, checks, tables, ...head } = document;
    const sheets = documents.map((sheet) => SheetState.of(sheet));
    const homes = new Map<string, NameHome>();
    for (const sheet of sheets) {
      for (const home of namesOf(sheet)) homes.set(nameKey(home.name), home);
    }
    return new BookState({ head, sheets, checks, tables, homes });
  }

  /** The same with some of its contents replaced. */
  with(contents: Partial<Contents>): BookState {
    return new BookState({ ...this, ...contents });
  }

  /** The same with one sheet replaced by what it became. */
  withSheet(sheet: SheetState): BookState {
    return this.with({ sheets: this.sheets.map((one) => (one.id === sheet.id ? sheet : one)) });
  }

  /** A sheet by its id. */
  sheet(id: string): SheetState | undefined {
    return this.sheets.find((sheet) => sheet.id === id);
  }

  /** The id of the sheet that is called so, whatever the case. */
  sheetId(name: string): string | undefined {
    const wanted = nameKey(name);
    return this.sheets.find((sheet) => nameKey(sheet.name) === wanted)?.id;
  }

  /** What a sheet is called. */
  sheetName(id: string): string | undefined {
    return this.sheet(id)?.name;
  }

  /** The id of the column at an index from 0. */
  columnId(sheet: string, index: number): string | undefined {
    return this.sheet(sheet)?.columns[index]?.id;
  }

  /** Where a column stands, from 0. */
  columnIndex(sheet: string, id: string): number | undefined {
    return this.sheet(sheet)?.columnIndex(id);
  }

  /** The id of the row at an index from 0. */
  rowId(sheet: string, index: number): string | undefined {
    return this.sheet(sheet)?.rows[index]?.id;
  }

  /** Where a row stands, from 0. */
  rowIndex(sheet: string, id: string): number | undefined {
    return this.sheet(sheet)?.rowIndex(id);
  }

  /** The cell at a place; nothing where none is. */
  cell(at: At): CellDocument | undefined {
    return this.sheet(at.sheet)?.cell(at.row, at.column);
  }

  /** Where a named cell is now. */
  named(name: string): At | undefined {
    const home = this.homes.get(nameKey(name));
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
    for (const { name } of this.homes.values()) {
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

  /** The workbook as it is saved. */
  document(): BookDocument {
    return { ...this.streamed(), sheets: this.sheets.map((sheet) => sheet.document()) };
  }

  /** The saved form with rows that are made as they are asked for. */
  streamed(): Streamed {
    return {
      ...this.head,
      sheets: this.sheets.map((sheet) => sheet.streamed()),
      checks: [...this.checks],
      tables: [...this.tables],
    };
  }
}

/** The named cells of a sheet. */
export function* namesOf(sheet: SheetState): Generator<NameHome> {
  for (const row of sheet.rows) {
    for (const [column, { name }] of row.cells) {
      if (name !== undefined) yield { name, sheet: sheet.id, row: row.id, column };
    }
  }
}
