import {
  type CellDocument,
  CHECKS_SHEET,
  type CheckDocument,
  type ColumnDocument,
  columnSchema,
  type Edit,
  formulaCells,
  freshId,
  LIMITS,
  mentions,
  misfit,
  nameKey,
  type Place,
  type RefusedResult,
  type RowDocument,
  refuse,
  rowSchema,
  type SheetState,
  shrinkAfterDelete,
  type TableDocument,
} from '@kerfbook/document';
import { contentOf } from '../book/content.ts';
import { newNameProblem } from './cells.ts';
import type { Desk, Done, Outcome } from './desk.ts';
import { retell, retellOwn, tellChecks, tellNames } from './formulas.ts';

/** Adds empty rows and columns at the end until the sheet is at least this large. */
export function grow(
  desk: Desk,
  sheetId: string,
  rows: number,
  columns: number,
): { ok: true; done: Done[] } | RefusedResult {
  const sheet = desk.state.sheet(sheetId);
  if (sheet === undefined) return refuse('W1', sheetId);
  if (rows > LIMITS.rows || columns > LIMITS.columns) {
    return refuse('W2', `Row ${rows}, column ${columns}`);
  }
  const done: Done[] = [];
  if (columns > sheet.columns.length) {
    const taken = new Set(sheet.columns.map((column) => column.id));
    const added = freshIds(desk, 'c', columns - sheet.columns.length, taken);
    done.push(
      putColumns(desk, sheet, {
        do: 'insertColumns',
        sheet: sheetId,
        at: taken.size,
        columns: added,
      }),
    );
  }
  if (rows > sheet.rows.length) {
    const taken = new Set(sheet.rows.map((row) => row.id));
    const added = freshIds(desk, 'r', rows - sheet.rows.length, taken);
    done.push(
      putRows(desk, sheet, { do: 'insertRows', sheet: sheetId, at: taken.size, rows: added }),
    );
  }
  return { ok: true, done };
}

function freshIds(desk: Desk, kind: 'r' | 'c', count: number, taken: ReadonlySet<string>) {
  const used = new Set(taken);
  return Array.from({ length: count }, () => {
    const id = freshId(desk.makeId, kind, (one) => used.has(one));
    used.add(id);
    return { id };
  });
}

export function insertRows(desk: Desk, edit: Edit & { do: 'insertRows' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble =
    slotProblem('rows', edit.at, edit.rows.length, sheet.rows.length, LIMITS.rows) ??
    rowsProblem(desk, sheet, edit.rows);
  return trouble ?? putRows(desk, sheet, { ...edit, rows: withinGroup(sheet, edit) });
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

function putRows(desk: Desk, sheet: SheetState, edit: Edit & { do: 'insertRows' }): Done {
  const { state, calculator, changes } = desk;
  const atEnd = edit.at === sheet.rows.length;
  const ids = new Set(edit.rows.map((row) => row.id));
  const awaited = whoAwaits(desk, ids);
  sheet.insertRows(edit.at, edit.rows);
  changes.structure = true;
  // Nothing refers to rows past the end, so the engine has nothing to move for them.
  if (!atEnd) changes.add(calculator.insertRows(sheet.id, edit.at, edit.rows.length));
  const contents = edit.rows.flatMap((row, offset) =>
    Object.entries(row.cells ?? {}).map(([id, cell]) => ({
      sheet: sheet.id,
      row: edit.at + offset,
      column: sheet.columnIndex(id) ?? 0,
      content: contentOf(cell, sheet.id, state),
    })),
  );
  tellNames(desk, sheet, edit.at, edit.rows.length);
  if (contents.length > 0) changes.add(calculator.setCells(contents));
  retell(desk, ids);
  const gone: Edit = {
    do: 'deleteRows',
    sheet: sheet.id,
    at: edit.at,
    count: edit.rows.length,
  };
  return { ok: true, edit, inverse: together([gone, ...awaited]) };
}

export function deleteRows(desk: Desk, edit: Edit & { do: 'deleteRows' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble = spanProblem('rows', edit.at, edit.count, sheet.rows.length);
  if (trouble !== undefined) return trouble;
  const ids = sheet.rows.slice(edit.at, edit.at + edit.count).map((row) => row.id);
  const rest = settle(desk, sheet.id, { rows: ids });
  const names = namesInRows(sheet, edit.at, edit.count);
  const rows = sheet.removeRows(edit.at, edit.count);
  desk.changes.structure = true;
  desk.changes.add(desk.calculator.deleteRows(sheet.id, edit.at, edit.count));
  forget(desk, names);
  rest.tell();
  return {
    ok: true,
    edit,
    inverse: together([{ do: 'insertRows', sheet: sheet.id, at: edit.at, rows }, ...rest.restore]),
  };
}

export function insertColumns(desk: Desk, edit: Edit & { do: 'insertColumns' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const count = edit.columns.length;
  const trouble =
    slotProblem('columns', edit.at, count, sheet.columns.length, LIMITS.columns) ??
    columnsProblem(desk, sheet, edit);
  return trouble ?? putColumns(desk, sheet, edit);
}

function putColumns(desk: Desk, sheet: SheetState, edit: Edit & { do: 'insertColumns' }): Done {
  const { state, calculator, changes } = desk;
  const atEnd = edit.at === sheet.columns.length;
  const ids = new Set(edit.columns.map((column) => column.id));
  const awaited = whoAwaits(desk, ids);
  sheet.insertColumns(edit.at, edit.columns);
  changes.structure = true;
  if (!atEnd) changes.add(calculator.insertColumns(sheet.id, edit.at, edit.columns.length));
  columnsOfOwn(desk, sheet.id);
  const contents = [];
  for (const [rowId, cells] of Object.entries(edit.cells ?? {})) {
    const row = sheet.rowIndex(rowId) ?? 0;
    for (const [id, cell] of Object.entries(cells)) {
      const column = sheet.columnIndex(id) ?? 0;
      sheet.setCell(row, column, cell);
      contents.push({ sheet: sheet.id, row, column, content: contentOf(cell, sheet.id, state) });
      if (cell.name === undefined) continue;
      state.noteName({ sheet: sheet.id, row, column }, cell.name);
      changes.add(calculator.setName(cell.name, { sheet: sheet.id, row, column }));
    }
  }
  if (contents.length > 0) changes.add(calculator.setCells(contents));
  retell(desk, ids);
  const gone: Edit = {
    do: 'deleteColumns',
    sheet: sheet.id,
    at: edit.at,
    count: edit.columns.length,
  };
  return { ok: true, edit, inverse: together([gone, ...awaited]) };
}

export function deleteColumns(desk: Desk, edit: Edit & { do: 'deleteColumns' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const trouble = spanProblem('columns', edit.at, edit.count, sheet.columns.length);
  if (trouble !== undefined) return trouble;
  const ids = sheet.columns.slice(edit.at, edit.at + edit.count).map((column) => column.id);
  const rest = settle(desk, sheet.id, { columns: ids });
  const { cells, names } = takeCells(sheet, ids);
  const columns = sheet.removeColumns(edit.at, edit.count);
  desk.changes.structure = true;
  desk.changes.add(desk.calculator.deleteColumns(sheet.id, edit.at, edit.count));
  forget(desk, names);
  rest.tell();
  columnsOfOwn(desk, sheet.id);
  return {
    ok: true,
    edit,
    inverse: together([
      { do: 'insertColumns', sheet: sheet.id, at: edit.at, columns, cells },
      ...rest.restore,
    ]),
  };
}

/**
 * What refers to rows or columns that are not there, and will be: as they go again, ranges that found
 * their end would end nearer (rule S3) instead of waiting for it. This puts them back.
 */
function whoAwaits(desk: Desk, ids: ReadonlySet<string>): Edit[] {
  const { state } = desk;
  const edits: Edit[] = [];
  for (const { at, cell } of formulaCells(state)) {
    if (!mentions(cell.formula, ids)) continue;
    const { sheet, row, column } = at;
    edits.push({ do: 'setCells', sheet, cells: [{ row, column, cell }] });
  }
  const { checks, tables } = state;
  const inChecks = checks.some(
    ({ formula, cells = '' }) => mentions(formula, ids) || mentions(cells, ids),
  );
  if (inChecks) edits.push({ do: 'setChecks', checks });
  return tables.some(({ header, last }) => ids.has(header) || ids.has(last))
    ? [...edits, { do: 'setTables', tables }]
    : edits;
}

function takeCells(sheet: SheetState, ids: readonly string[]) {
  const cells: Record<string, Record<string, CellDocument>> = {};
  const names: string[] = [];
  for (const [at, row] of sheet.rows.entries()) {
    for (const id of ids) {
      const cell = row.cells.get(id);
      if (cell === undefined) continue;
      cells[row.id] = { ...cells[row.id], [id]: cell };
      if (cell.name !== undefined) names.push(cell.name);
      sheet.setCell(at, sheet.columnIndex(id) ?? 0, undefined);
    }
  }
  return { cells, names };
}

function namesInRows(sheet: SheetState, at: number, count: number): string[] {
  return sheet.rows
    .slice(at, at + count)
    .flatMap((row) => [...row.cells.values()].flatMap((cell) => cell.name ?? []));
}

function forget(desk: Desk, names: readonly string[]): void {
  for (const name of names) {
    desk.state.dropName(name);
    desk.changes.add(desk.calculator.setName(name, null));
  }
}

export function together(edits: readonly Edit[]): Edit {
  const [only] = edits;
  return edits.length === 1 && only !== undefined ? only : { do: 'several', edits };
}

/** The engine's range of an own table moves with columns; it is to be A to Z whatever comes. */
function columnsOfOwn(desk: Desk, sheet: string): void {
  const { tables } = desk.state;
  if (tables.some((table) => table.sheet === sheet)) retellOwn(desk, tables);
}

interface Gone {
  readonly rows?: readonly string[];
  readonly columns?: readonly string[];
}

/**
 * Moves the ends of ranges and of tables off rows or columns that are about to go (rule S3), and
 * returns what puts them back and what tells the engine once the rows or columns are gone.
 */
function settle(desk: Desk, sheet: string, gone: Gone): { restore: Edit[]; tell: () => void } {
  const { state } = desk;
  const ids = new Set([...(gone.rows ?? []), ...(gone.columns ?? [])]);
  const changed: { sheet: string; row: string; column: string; old: CellDocument }[] = [];
  for (const { at, cell } of [...formulaCells(state)]) {
    if (!mentions(cell.formula, ids) || isGone(desk, at, sheet, gone)) continue;
    const formula = shrunk(desk, cell.formula, at.sheet, sheet, gone);
    if (formula === cell.formula) continue;
    const home = state.sheet(at.sheet);
    const row = state.rowId(at.sheet, at.row);
    const column = state.columnId(at.sheet, at.column);
    if (home === undefined || row === undefined || column === undefined) continue;
    home.setCell(at.row, at.column, { ...cell, formula });
    changed.push({ sheet: at.sheet, row, column, old: cell });
  }
  const checks = settleChecks(desk, sheet, gone);
  const tables = settleTables(desk, sheet, gone);
  const restore: Edit[] = [];
  // Places are those before the deletion: the restored rows are back when these are carried out.
  for (const { sheet: home, row, column, old } of changed) {
    const place: Place = {
      row: state.rowIndex(home, row) ?? 0,
      column: state.columnIndex(home, column) ?? 0,
    };
    restore.push({ do: 'setCells', sheet: home, cells: [{ ...place, cell: old }] });
  }
  if (checks !== undefined) restore.push({ do: 'setChecks', checks });
  if (tables !== undefined) restore.push({ do: 'setTables', tables });
  return {
    restore,
    tell: () => {
      tellShrunk(desk, changed);
      if (checks !== undefined) tellChecks(desk, checks.length);
      if (tables !== undefined) retellOwn(desk, tables);
    },
  };
}

function tellShrunk(
  desk: Desk,
  changed: readonly { sheet: string; row: string; column: string }[],
): void {
  const contents = changed.map(({ sheet, row, column }) => {
    const at = {
      sheet,
      row: desk.state.rowIndex(sheet, row) ?? 0,
      column: desk.state.columnIndex(sheet, column) ?? 0,
    };
    return { ...at, content: contentOf(desk.state.cell(at), sheet, desk.state) };
  });
  if (contents.length === 0) return;
  desk.changes.add(desk.calculator.setCells(contents));
  desk.changes.add(contents.map(({ sheet, row, column }) => ({ sheet, row, column })));
}

function isGone(
  desk: Desk,
  at: { sheet: string; row: number; column: number },
  sheet: string,
  gone: Gone,
): boolean {
  if (at.sheet !== sheet) return false;
  const row = desk.state.rowId(sheet, at.row) ?? '';
  const column = desk.state.columnId(sheet, at.column) ?? '';
  return (gone.rows?.includes(row) ?? false) || (gone.columns?.includes(column) ?? false);
}

function shrunk(desk: Desk, formula: string, home: string, sheet: string, gone: Gone): string {
  return shrinkAfterDelete(formula, home, { sheet, ...gone }, desk.state);
}

/** The checks as they were, when a formula of theirs had to change. */
function settleChecks(desk: Desk, sheet: string, gone: Gone): readonly CheckDocument[] | undefined {
  const before = desk.state.checks;
  const after = before.map((check) => {
    const formula = shrunk(desk, check.formula, CHECKS_SHEET, sheet, gone);
    const cells = check.cells && shrunk(desk, check.cells, check.sheet ?? '', sheet, gone);
    const same = formula === check.formula && cells === check.cells;
    return same ? check : { ...check, formula, ...(cells === undefined ? {} : { cells }) };
  });
  if (after.every((check, index) => check === before[index])) return undefined;
  desk.state.checks = after;
  return before;
}

/** The tables as they were, when one lost its header (and is dropped) or its last row. */
function settleTables(desk: Desk, sheet: string, gone: Gone): readonly TableDocument[] | undefined {
  const before = desk.state.tables;
  const after = before.flatMap((table) => settledTable(desk, table, sheet, gone));
  if (after.length === before.length && after.every((table, i) => table === before[i])) {
    return undefined;
  }
  desk.state.tables = after;
  return before;
}

function settledTable(
  desk: Desk,
  table: TableDocument,
  sheet: string,
  gone: Gone,
): TableDocument[] {
  const rows = gone.rows;
  if (table.sheet !== sheet || rows === undefined) return [table];
  if (rows.includes(table.header)) return [];
  if (!rows.includes(table.last)) return [table];
  const state = desk.state.sheet(sheet);
  const header = state?.rowIndex(table.header) ?? 0;
  let last = state?.rowIndex(table.last) ?? header;
  while (last > header && rows.includes(state?.rows[last]?.id ?? '')) last -= 1;
  return [{ ...table, last: state?.rows[last]?.id ?? table.header }];
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
