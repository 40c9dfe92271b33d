import {
  checkSchema,
  documentProblem,
  type Edit,
  type HeadKey,
  headSchema,
  LIMITS,
  misfit,
  type RefusedResult,
  refuse,
  type SheetDocument,
  type SheetState,
  sheetNameProblem,
  sheetSchema,
  tableSchema,
} from '@kerfbook/document';
import { contentOf } from '../book/content.ts';
import type { Content } from '../engine/calculator.ts';
import { newNameProblem } from './cells.ts';
import type { Desk, Outcome } from './desk.ts';
import { retell, retellOwn, tellChecks, tellNames } from './formulas.ts';
import { together } from './structure.ts';

/** The cells of a sheet as the engine takes them. */
export function sheetContents(sheet: SheetState, desk: Pick<Desk, 'state'>): Content[][] {
  return sheet.rows.map((row) => {
    const line: Content[] = [];
    for (const [id, cell] of row.cells) {
      line[sheet.columnIndex(id) ?? 0] = contentOf(cell, sheet.id, desk.state);
    }
    return Array.from(line, (content) => content ?? null);
  });
}

export function addSheet(desk: Desk, edit: Edit & { do: 'addSheet' }): Outcome {
  const { state, calculator, changes } = desk;
  const trouble = newSheetProblem(desk, edit);
  if (trouble !== undefined) return trouble;
  const sheet = state.addSheet(edit.at, edit.sheet);
  changes.structure = true;
  // The engine has a sheet of its own behind the makers', so that no sheet comes last there.
  calculator.reorder();
  changes.add(calculator.addSheet({ id: sheet.id, name: sheet.name, cells: [] }));
  tellNames(desk, sheet, 0, sheet.rows.length);
  const contents = sheetContents(sheet, desk).flatMap((line, row) =>
    line.map((content, column) => ({ sheet: sheet.id, row, column, content })),
  );
  const filled = contents.filter(({ content }) => content !== null);
  if (filled.length > 0) changes.add(calculator.setCells(filled));
  retell(desk, new Set([sheet.id]));
  return { ok: true, edit, inverse: { do: 'removeSheet', sheet: sheet.id } };
}

function newSheetProblem(
  desk: Desk,
  { at, sheet }: { at: number; sheet: SheetDocument },
): RefusedResult | undefined {
  const { state } = desk;
  const checked = sheetSchema.safeParse(sheet);
  if (!checked.success) return misfit(`sheet ${String(sheet.name)}`, checked.error);
  if (state.sheets.length >= LIMITS.sheets) return refuse('W2', 'One more sheet');
  if (!Number.isInteger(at) || at < 0 || at > state.sheets.length) {
    return refuse('W9', `sheet ${at + 1}`);
  }
  if (state.sheet(sheet.id) !== undefined) return refuse('W8', sheet.id);
  const name = nameTaken(desk, sheet.name);
  if (name !== undefined) return name;
  const alone = documentProblem({ ...state.document(), sheets: [sheet], checks: [], tables: [] });
  if (alone !== undefined) return { ok: false, ...alone };
  for (const row of sheet.rows) {
    for (const cell of Object.values(row.cells ?? {})) {
      const wrong = cell.name === undefined ? undefined : newNameProblem(desk, cell.name);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

function nameTaken(desk: Desk, name: string, except?: string): RefusedResult | undefined {
  const wrong = sheetNameProblem(name);
  if (wrong !== undefined) return refuse('W6', name, wrong);
  const other = desk.state.sheetId(name);
  if (other === undefined || other === except) return undefined;
  return refuse('W6', name, 'another sheet has this name');
}

export function removeSheet(desk: Desk, edit: Edit & { do: 'removeSheet' }): Outcome {
  const { state, calculator, changes } = desk;
  const at = state.sheets.findIndex((sheet) => sheet.id === edit.sheet);
  const sheet = state.sheets[at];
  if (sheet === undefined) return refuse('W1', edit.sheet);
  if (state.sheets.length === 1) return refuse('W7');
  const restore: Edit[] = [{ do: 'addSheet', at, sheet: sheet.document() }];
  if (state.checks.some((check) => check.sheet === sheet.id)) {
    restore.push({ do: 'setChecks', checks: state.checks });
    state.checks = state.checks.map((check) => {
      if (check.sheet !== sheet.id) return check;
      const { sheet: _gone, ...kept } = check;
      return kept;
    });
  }
  const { tables } = state;
  if (tables.some((table) => table.sheet === sheet.id)) {
    restore.push({ do: 'setTables', tables });
    state.tables = tables.filter((table) => table.sheet !== sheet.id);
  }
  state.removeSheet(at);
  changes.structure = true;
  changes.add(calculator.removeSheet(sheet.id));
  for (const row of sheet.rows) {
    for (const { name } of row.cells.values()) {
      if (name === undefined) continue;
      state.dropName(name);
      changes.add(calculator.setName(name, null));
    }
  }
  // Told as #REF!: a sheet that takes the name later is another sheet.
  retell(desk, new Set([sheet.id]));
  retellOwn(desk, tables);
  return { ok: true, edit, inverse: together(restore) };
}

export function renameSheet(desk: Desk, edit: Edit & { do: 'renameSheet' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const taken = nameTaken(desk, edit.name, sheet.id);
  if (taken !== undefined) return taken;
  const before = sheet.name;
  sheet.rename(edit.name);
  desk.calculator.renameSheet(sheet.id, edit.name);
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { do: 'renameSheet', sheet: sheet.id, name: before } };
}

export function moveSheet(desk: Desk, edit: Edit & { do: 'moveSheet' }): Outcome {
  const { sheets } = desk.state;
  const from = sheets.findIndex((sheet) => sheet.id === edit.sheet);
  const sheet = sheets[from];
  if (sheet === undefined) return refuse('W1', edit.sheet);
  if (!Number.isInteger(edit.to) || edit.to < 0 || edit.to >= sheets.length) {
    return refuse('W9', `sheet ${edit.to + 1}`);
  }
  desk.state.moveSheet(from, edit.to);
  desk.calculator.reorder();
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { do: 'moveSheet', sheet: sheet.id, to: from } };
}

export function setColumn(desk: Desk, edit: Edit & { do: 'setColumn' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const old = sheet.columns[edit.column];
  if (old === undefined) return refuse('W9', `column ${edit.column + 1}`);
  const width = edit.width;
  if (width !== null && !(Number.isInteger(width) && width >= 16 && width <= 2000)) {
    return refuse('W12', `column ${edit.column + 1}`, 'a width is 16 to 2000 whole pixels');
  }
  const { width: _width, ...kept } = old;
  sheet.setColumn(edit.column, width === null ? kept : { ...kept, width });
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { ...edit, width: old.width ?? null } };
}

/** `freeze`: so many columns and rows stay in view; what is not said stays as it is. */
export function freeze(desk: Desk, edit: Edit & { do: 'freeze' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const before = { columns: sheet.frozenColumns ?? 0, rows: sheet.frozenRows ?? 0 };
  const { columns = before.columns, rows = before.rows } = edit;
  for (const count of [columns, rows]) {
    if (!Number.isInteger(count) || count < 0 || count > LIMITS.frozen) {
      return refuse('W12', sheet.name, `0 to ${LIMITS.frozen} rows or columns may stay in view`);
    }
  }
  sheet.freeze(columns === 0 ? undefined : columns, rows === 0 ? undefined : rows);
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { do: 'freeze', sheet: sheet.id, ...before } };
}

/** `hideColumns`: takes columns out of sight or brings them back; they go on calculating. */
export function hideColumns(desk: Desk, edit: Edit & { do: 'hideColumns' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const changed = toTurn('column', sheet.columns, edit.columns, edit.hidden);
  if (!('at' in changed)) return changed;
  for (const at of changed.at) {
    const column = sheet.columns[at];
    if (column !== undefined) sheet.setColumn(at, turned(column, edit.hidden));
  }
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { ...edit, columns: changed.at, hidden: !edit.hidden } };
}

/** `hideRows`: the same of rows. */
export function hideRows(desk: Desk, edit: Edit & { do: 'hideRows' }): Outcome {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const changed = toTurn('row', sheet.rows, edit.rows, edit.hidden);
  if (!('at' in changed)) return changed;
  for (const at of changed.at) {
    const row = sheet.rows[at];
    if (row !== undefined) sheet.setRow(at, turned(row, edit.hidden));
  }
  desk.changes.structure = true;
  return { ok: true, edit, inverse: { ...edit, rows: changed.at, hidden: !edit.hidden } };
}

interface Hideable {
  readonly hidden?: true;
}

/** Which of the lines change: what is as it is to be already is not brought back by undoing. */
function toTurn(
  what: string,
  lines: readonly Hideable[],
  wanted: readonly number[],
  hidden: boolean,
): { readonly at: readonly number[] } | RefusedResult {
  for (const at of wanted) {
    if (lines[at] === undefined) return refuse('W9', `${what} ${at + 1}`);
  }
  const at = [...new Set(wanted)].filter((one) => (lines[one]?.hidden === true) !== hidden);
  return { at };
}

function turned<T extends Hideable>(line: T, hidden: boolean): T {
  const { hidden: _hidden, ...kept } = line;
  return (hidden ? { ...kept, hidden: true } : kept) as T;
}

export function setChecks(desk: Desk, edit: Edit & { do: 'setChecks' }): Outcome {
  const before = desk.state.checks;
  if (edit.checks.length > LIMITS.checks) return refuse('W24', 'checks', LIMITS.checks);
  for (const check of edit.checks) {
    const checked = checkSchema.safeParse(check);
    if (!checked.success) return misfit(`check ${String(check.name)}`, checked.error);
  }
  const whole = { ...desk.state.document(), checks: [...edit.checks] };
  const problem = documentProblem(whole);
  if (problem !== undefined) return { ok: false, ...problem };
  desk.state.checks = edit.checks;
  desk.changes.structure = true;
  tellChecks(desk, before.length);
  return { ok: true, edit, inverse: { do: 'setChecks', checks: before } };
}

export function setTables(desk: Desk, edit: Edit & { do: 'setTables' }): Outcome {
  const before = desk.state.tables;
  if (edit.tables.length > LIMITS.tables) return refuse('W24', 'tables', LIMITS.tables);
  for (const table of edit.tables) {
    const checked = tableSchema.safeParse(table);
    if (!checked.success) return misfit(`table ${String(table.id)}`, checked.error);
  }
  const problem = documentProblem({ ...desk.state.document(), tables: [...edit.tables] });
  if (problem !== undefined) return { ok: false, ...problem };
  desk.state.tables = edit.tables;
  desk.changes.structure = true;
  retellOwn(desk, before);
  return { ok: true, edit, inverse: { do: 'setTables', tables: before } };
}

const HEAD_KEYS = [
  'title',
  'about',
  'currency',
  'licence',
  'author',
  'locked',
  'promises',
  'lineage',
] as const;

export function setBook(desk: Desk, edit: Edit & { do: 'setBook' }): Outcome {
  const before: Record<string, unknown> = {};
  const next: Record<string, unknown> = { ...desk.state.head };
  for (const key of HEAD_KEYS satisfies readonly HeadKey[]) {
    const value = edit.set[key];
    if (value === undefined) continue;
    before[key] = desk.state.head[key] ?? null;
    if (value === null) delete next[key];
    else next[key] = value;
  }
  const checked = headSchema.safeParse(next);
  if (!checked.success) return misfit('', checked.error);
  const { currency: money, locked } = desk.state.head;
  const shown = money !== checked.data.currency || locked !== checked.data.locked;
  desk.state.head = checked.data;
  if (shown) desk.changes.structure = true;
  return { ok: true, edit, inverse: { do: 'setBook', set: before } };
}
