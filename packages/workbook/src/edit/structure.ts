import {
  type BookState,
  type CellChange,
  type CellDocument,
  type ColumnDocument,
  columnSchema,
  type Edit,
  formulaCells,
  formulaOf,
  freshId,
  LIMITS,
  listChanges,
  mentions,
  misfit,
  nameKey,
  type RefusedResult,
  type RowDocument,
  refuse,
  rowSchema,
  type SheetState,
  shrinkAfterDelete,
  type TableDocument,
  turnedCheck,
  withFormula,
} from '@kerfbook/document';
import { newNameProblem } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';

/** Adds empty rows and columns at the end until the sheet is at least this large. */
export function grow(desk: Desk, id: string, rows: number, columns: number): Refusal {
  const sheet = desk.state.sheet(id);
  if (sheet === undefined) return refuse('W1', id);
  if (rows > LIMITS.rows || columns > LIMITS.columns) {
    return refuse('W2', `Row ${rows}, column ${columns}`);
  }
  const missing = columns - sheet.columns.length;
  if (missing > 0)
    putColumns(desk, sheet, sheet.columns.length, fresh(desk, 'c', missing, sheet.columns));
  const short = rows - sheet.rows.length;
  if (short > 0) putRows(desk, sheet, sheet.rows.length, fresh(desk, 'r', short, sheet.rows));
  return undefined;
}

function fresh(desk: Desk, kind: 'r' | 'c', count: number, taken: readonly { id: string }[]) {
  const used = new Set(taken.map(({ id }) => id));
  return Array.from({ length: count }, () => {
    const id = freshId(desk.makeId, kind, (one) => used.has(one));
    used.add(id);
    return { id };
  });
}

export function insertRows(desk: Desk, edit: Edit & { do: 'insertRows' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble =
    slotProblem('rows', edit.at, edit.rows.length, sheet.rows.length, LIMITS.rows) ??
    rowsProblem(desk, sheet, edit.rows);
  if (trouble === undefined) putRows(desk, sheet, edit.at, withinGroup(sheet, edit));
  return trouble;
}

/** A new row between two rows of a group belongs to it. */
function withinGroup(
  sheet: SheetState,
  { at, rows }: Edit & { do: 'insertRows' },
): readonly RowDocument[] {
  const group = Math.min(sheet.rows[at - 1]?.group ?? 0, sheet.rows[at]?.group ?? 0);
  if (group === 0) return rows;
  return rows.map((row) => (Object.keys(row).length === 1 ? { ...row, group } : row));
}

function putRows(
  desk: Desk,
  { id: sheet, rows }: SheetState,
  at: number,
  items: readonly RowDocument[],
) {
  const after = rows[at - 1]?.id ?? null;
  if (items.length > 0) desk.change({ change: 'insert', list: 'rows', sheet, after, items });
}

export function deleteRows(desk: Desk, edit: Edit & { do: 'deleteRows' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble = spanProblem('rows', edit.at, edit.count, sheet.rows.length);
  if (trouble !== undefined) return trouble;
  const ids = sheet.rows.slice(edit.at, edit.at + edit.count).map((row) => row.id);
  settle(desk, { sheet: sheet.id, rows: ids });
  desk.change({ change: 'remove', list: 'rows', sheet: sheet.id, ids });
  return undefined;
}

export function insertColumns(desk: Desk, edit: Edit & { do: 'insertColumns' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const count = edit.columns.length;
  const trouble =
    slotProblem('columns', edit.at, count, sheet.columns.length, LIMITS.columns) ??
    columnsProblem(desk, sheet, edit);
  if (trouble !== undefined) return trouble;
  putColumns(desk, sheet, edit.at, edit.columns);
  const cells = Object.entries(edit.cells ?? {}).flatMap(([row, line]) =>
    Object.entries(line).map(([column, cell]) => ({ row, column, cell })),
  );
  if (cells.length > 0) desk.change({ change: 'cells', sheet: sheet.id, cells });
  return undefined;
}

function putColumns(
  desk: Desk,
  { id: sheet, columns }: SheetState,
  at: number,
  items: readonly ColumnDocument[],
) {
  const after = columns[at - 1]?.id ?? null;
  if (items.length > 0) desk.change({ change: 'insert', list: 'columns', sheet, after, items });
}

export function deleteColumns(desk: Desk, edit: Edit & { do: 'deleteColumns' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble = spanProblem('columns', edit.at, edit.count, sheet.columns.length);
  if (trouble !== undefined) return trouble;
  const ids = sheet.columns.slice(edit.at, edit.at + edit.count).map((column) => column.id);
  settle(desk, { sheet: sheet.id, columns: ids });
  desk.change({ change: 'remove', list: 'columns', sheet: sheet.id, ids });
  return undefined;
}

interface Gone {
  readonly sheet: string;
  readonly rows?: readonly string[];
  readonly columns?: readonly string[];
}

/** Moves the ends of ranges and of tables off rows or columns that are about to go (rule S3). */
function settle(desk: Desk, gone: Gone): void {
  const { state } = desk;
  const ids = new Set([...(gone.rows ?? []), ...(gone.columns ?? [])]);
  const bySheet = new Map<string, CellChange[]>();
  for (const { at, cell } of formulaCells(state)) {
    const before = formulaOf(cell);
    if (!mentions(before, ids)) continue;
    const row = state.rowId(at.sheet, at.row) ?? '';
    const column = state.columnId(at.sheet, at.column) ?? '';
    if (at.sheet === gone.sheet && (ids.has(row) || ids.has(column))) continue;
    const formula = shrinkAfterDelete(before, at.sheet, gone, state);
    if (formula === before) continue;
    const cells = bySheet.get(at.sheet) ?? [];
    bySheet.set(at.sheet, cells);
    cells.push({ row, column, cell: withFormula(cell, formula) });
  }
  for (const [sheet, cells] of bySheet) desk.change({ change: 'cells', sheet, cells });
  const checks = state.checks.map((check) =>
    turnedCheck(check, (formula, home) => shrinkAfterDelete(formula, home, gone, state)),
  );
  desk.change(...listChanges({ list: 'checks' }, state.checks, checks));
  const tables = state.tables.flatMap((table) => settledTable(state, table, gone));
  desk.change(...listChanges({ list: 'tables' }, state.tables, tables));
}

/** A table whose header goes is none any more; one whose last row goes ends higher. */
function settledTable(
  state: BookState,
  table: TableDocument,
  { sheet, rows }: Gone,
): readonly TableDocument[] {
  if (table.sheet !== sheet || rows === undefined) return [table];
  if (rows.includes(table.header)) return [];
  if (!rows.includes(table.last)) return [table];
  const home = state.sheet(sheet);
  const header = home?.rowIndex(table.header) ?? 0;
  let last = home?.rowIndex(table.last) ?? header;
  while (last > header && rows.includes(home?.rows[last]?.id ?? '')) last -= 1;
  return [{ ...table, last: home?.rows[last]?.id ?? table.header }];
}

function slotProblem(
  what: string,
  at: number,
  count: number,
  length: number,
  most: number,
): RefusedResult | undefined {
  if (!Number.isInteger(at) || at < 0 || at > length) return refuse('W9', `${what} at ${at + 1}`);
  return length + count > most ? refuse('W2', `${length + count} ${what}`) : undefined;
}

function spanProblem(
  what: string,
  at: number,
  count: number,
  length: number,
): RefusedResult | undefined {
  const whole = Number.isInteger(at) && Number.isInteger(count);
  if (whole && at >= 0 && count > 0 && at + count <= length) return undefined;
  return refuse('W9', `${what} ${at + 1} to ${at + count}`);
}

function rowsProblem(
  desk: Desk,
  sheet: SheetState,
  rows: readonly RowDocument[],
): RefusedResult | undefined {
  const ids = new Set<string>();
  const names = new Set<string>();
  for (const row of rows) {
    const checked = rowSchema.safeParse(row);
    if (!checked.success) return misfit('a row', checked.error);
    if (ids.has(row.id) || sheet.rowIndex(row.id) !== undefined) return refuse('W8', row.id);
    ids.add(row.id);
    for (const [column, cell] of Object.entries(row.cells ?? {})) {
      if (sheet.columnIndex(column) === undefined) return refuse('W9', `column ${column}`);
      const wrong = arrivingName(desk, cell, names);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

function columnsProblem(
  desk: Desk,
  sheet: SheetState,
  edit: Edit & { do: 'insertColumns' },
): RefusedResult | undefined {
  const ids = new Set<string>();
  for (const column of edit.columns as readonly ColumnDocument[]) {
    const checked = columnSchema.safeParse(column);
    if (!checked.success) return misfit('a column', checked.error);
    if (ids.has(column.id) || sheet.columnIndex(column.id) !== undefined) {
      return refuse('W8', column.id);
    }
    ids.add(column.id);
  }
  const names = new Set<string>();
  for (const [id, cells] of Object.entries(edit.cells ?? {})) {
    const checked = rowSchema.safeParse({ id, cells });
    if (!checked.success) return misfit('a cell', checked.error);
    if (sheet.rowIndex(id) === undefined) return refuse('W9', `row ${id}`);
    for (const [column, cell] of Object.entries(cells)) {
      if (!ids.has(column)) return refuse('W9', `column ${column}`);
      const wrong = arrivingName(desk, cell, names);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

function arrivingName(
  desk: Desk,
  cell: CellDocument,
  names: Set<string>,
): RefusedResult | undefined {
  if (cell.name === undefined) return undefined;
  const wrong = newNameProblem(desk, cell.name, new Set(), names);
  names.add(nameKey(cell.name));
  return wrong;
}
