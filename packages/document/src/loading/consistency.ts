import { type Complaint, complaint } from '../faults/catalogue.ts';
import type { BookDocument, SheetDocument } from '../format/schema.ts';
import { sheetNameProblem } from '../format/sheet-name.ts';
import { keptNameProblem, nameKey } from '../formula/names.ts';

/**
 * What the schema cannot say: ids are unique, cells stand in columns that exist, names are names
 * and belong to one cell. `undefined` when the document holds together.
 */
export function documentProblem(book: BookDocument): Complaint | undefined {
  const sheets = new Map<string, SheetDocument>();
  const titles = new Set<string>();
  const names = new Set<string>();
  for (const sheet of book.sheets) {
    if (sheets.has(sheet.id)) return damage(sheet, `the id ${sheet.id} is there twice`);
    sheets.set(sheet.id, sheet);
    const wrongName = sheetNameProblem(sheet.name);
    if (wrongName !== undefined) return damage(sheet, `its name will not do: ${wrongName}`);
    if (titles.has(nameKey(sheet.name))) return damage(sheet, 'two sheets have this name');
    titles.add(nameKey(sheet.name));
    const problem = sheetProblem(sheet, names);
    if (problem !== undefined) return damage(sheet, problem);
  }
  return partsProblem(book, sheets);
}

function damage(sheet: SheetDocument, why: string): Complaint {
  return complaint('D4', `sheet ${sheet.name}`, why);
}

function sheetProblem(sheet: SheetDocument, names: Set<string>): string | undefined {
  const columns = new Set<string>();
  for (const column of sheet.columns) {
    if (columns.has(column.id)) return `the column id ${column.id} is there twice`;
    columns.add(column.id);
  }
  const rows = new Set<string>();
  for (const row of sheet.rows) {
    if (rows.has(row.id)) return `the row id ${row.id} is there twice`;
    rows.add(row.id);
    for (const [id, cell] of Object.entries(row.cells ?? {})) {
      if (!columns.has(id)) return `row ${row.id} has a cell in a column ${id} that is not there`;
      if (cell.name === undefined) continue;
      const problem = keptNameProblem(cell.name);
      if (problem !== undefined) return `the name "${cell.name}" will not do: ${problem.says}`;
      if (names.has(nameKey(cell.name))) return `two cells are named ${cell.name}`;
      names.add(nameKey(cell.name));
    }
  }
  return undefined;
}

function partsProblem(
  book: BookDocument,
  sheets: ReadonlyMap<string, SheetDocument>,
): Complaint | undefined {
  const ids = new Set<string>();
  for (const check of book.checks) {
    if (ids.has(check.id)) return complaint('D4', 'checks', `the id ${check.id} is there twice`);
    ids.add(check.id);
    if (check.sheet !== undefined && !sheets.has(check.sheet)) {
      return complaint('D4', `check ${check.name}`, `there is no sheet ${check.sheet}`);
    }
  }
  for (const table of book.tables) {
    const rows = sheets.get(table.sheet)?.rows.map((row) => row.id) ?? [];
    const [header, last] = [rows.indexOf(table.header), rows.indexOf(table.last)];
    if (header < 0 || last < header) {
      return complaint('D4', `table ${table.id}`, 'its first or last row is not there');
    }
  }
  return undefined;
}
