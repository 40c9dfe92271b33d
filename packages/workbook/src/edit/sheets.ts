import {
  checkSchema,
  documentProblem,
  type Edit,
  type HeadKey,
  headSchema,
  LIMITS,
  listChanges,
  misfit,
  type RefusedResult,
  refuse,
  type SheetDocument,
  sheetNameProblem,
  sheetSchema,
  tableSchema,
} from '@kerfbook/document';
import { newNameProblem } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';

export function addSheet(desk: Desk, edit: Edit & { do: 'addSheet' }): Refusal {
  const trouble = newSheetProblem(desk, edit);
  if (trouble !== undefined) return trouble;
  const after = desk.state.sheets[edit.at - 1]?.id ?? null;
  desk.change({ change: 'insert', list: 'sheets', after, items: [edit.sheet] });
  return undefined;
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

export function removeSheet(desk: Desk, edit: Edit & { do: 'removeSheet' }): Refusal {
  const { state } = desk;
  const { sheet: id } = edit;
  if (state.sheet(id) === undefined) return refuse('W1', id);
  if (state.sheets.length === 1) return refuse('W7');
  for (const check of state.checks) {
    if (check.sheet !== id) continue;
    desk.change({ change: 'set', list: 'checks', id: check.id, set: { sheet: null } });
  }
  const tables = state.tables.filter((table) => table.sheet === id).map((table) => table.id);
  if (tables.length > 0) desk.change({ change: 'remove', list: 'tables', ids: tables });
  desk.change({ change: 'remove', list: 'sheets', ids: [id] });
  showFirst(desk);
  return undefined;
}

/** Where the last sheet in the list goes, the first hidden one comes into it. */
function showFirst(desk: Desk): void {
  const { sheets } = desk.state;
  const [first] = sheets;
  if (first === undefined || sheets.some(({ isHidden }) => !isHidden)) return;
  desk.change({ change: 'set', list: 'sheets', id: first.id, set: { hidden: null } });
}

export function renameSheet(desk: Desk, edit: Edit & { do: 'renameSheet' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const taken = nameTaken(desk, edit.name, sheet.id);
  if (taken !== undefined) return taken;
  desk.change({ change: 'set', list: 'sheets', id: sheet.id, set: { name: edit.name } });
  return undefined;
}

export function moveSheet(desk: Desk, edit: Edit & { do: 'moveSheet' }): Refusal {
  const { sheets } = desk.state;
  if (desk.state.sheet(edit.sheet) === undefined) return refuse('W1', edit.sheet);
  if (!Number.isInteger(edit.to) || edit.to < 0 || edit.to >= sheets.length) {
    return refuse('W9', `sheet ${edit.to + 1}`);
  }
  const others = sheets.filter(({ id }) => id !== edit.sheet);
  const after = others[edit.to - 1]?.id ?? null;
  desk.change({ change: 'order', list: 'sheets', ids: [edit.sheet], after });
  return undefined;
}

/** `hideSheet`: takes a sheet out of the list or brings it back; it goes on calculating (rule E7). */
export function hideSheet(desk: Desk, edit: Edit & { do: 'hideSheet' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  if (sheet.isHidden === edit.hidden) return undefined;
  const others = desk.state.sheets.filter((one) => one !== sheet && !one.isHidden);
  if (edit.hidden && others.length === 0) return refuse('W30', sheet.name);
  const set = { hidden: edit.hidden ? (true as const) : null };
  desk.change({ change: 'set', list: 'sheets', id: sheet.id, set });
  return undefined;
}

export function setColumn(desk: Desk, edit: Edit & { do: 'setColumn' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const old = sheet.columns[edit.column];
  if (old === undefined) return refuse('W9', `column ${edit.column + 1}`);
  const width = edit.width;
  if (width !== null && !(Number.isInteger(width) && width >= 16 && width <= 2000)) {
    return refuse('W12', `column ${edit.column + 1}`, 'a width is 16 to 2000 whole pixels');
  }
  desk.change({ change: 'set', list: 'columns', sheet: sheet.id, ids: [old.id], set: { width } });
  return undefined;
}

/** `freeze`: so many columns and rows stay in view; what is not said stays as it is. */
export function freeze(desk: Desk, edit: Edit & { do: 'freeze' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  const before = { columns: sheet.frozenColumns ?? 0, rows: sheet.frozenRows ?? 0 };
  const { columns = before.columns, rows = before.rows } = edit;
  for (const count of [columns, rows]) {
    if (!Number.isInteger(count) || count < 0 || count > LIMITS.frozen) {
      return refuse('W12', sheet.name, `0 to ${LIMITS.frozen} rows or columns may stay in view`);
    }
  }
  const set = {
    frozenColumns: columns === 0 ? null : columns,
    frozenRows: rows === 0 ? null : rows,
  };
  desk.change({ change: 'set', list: 'sheets', id: sheet.id, set });
  return undefined;
}

/** `hideColumns`: takes columns out of sight or brings them back; they go on calculating. */
export function hideColumns(desk: Desk, edit: Edit & { do: 'hideColumns' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  return turn(desk, { list: 'columns', sheet: sheet.id }, edit.columns, edit.hidden);
}

/** `hideRows`: the same of rows. */
export function hideRows(desk: Desk, edit: Edit & { do: 'hideRows' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  return turn(desk, { list: 'rows', sheet: sheet.id }, edit.rows, edit.hidden);
}

/** Takes lines out of sight or brings them back; what is as it is to be already is not changed. */
function turn(
  desk: Desk,
  of: { readonly list: 'rows' | 'columns'; readonly sheet: string },
  wanted: readonly number[],
  hidden: boolean,
): Refusal {
  const lines = desk.state.sheet(of.sheet)?.[of.list] ?? [];
  for (const at of wanted) {
    const what = of.list === 'rows' ? 'row' : 'column';
    if (lines[at] === undefined) return refuse('W9', `${what} ${at + 1}`);
  }
  const ids = [...new Set(wanted)].flatMap((at) => {
    const line = lines[at];
    return line === undefined || (line.hidden === true) === hidden ? [] : [line.id];
  });
  const set = { hidden: hidden ? (true as const) : null };
  if (ids.length > 0) desk.change({ ...of, change: 'set', ids, set });
  return undefined;
}

export function setChecks(desk: Desk, edit: Edit & { do: 'setChecks' }): Refusal {
  if (edit.checks.length > LIMITS.checks) return refuse('W24', 'checks', LIMITS.checks);
  for (const check of edit.checks) {
    const checked = checkSchema.safeParse(check);
    if (!checked.success) return misfit(`check ${String(check.name)}`, checked.error);
  }
  const whole = { ...desk.state.document(), checks: [...edit.checks] };
  const problem = documentProblem(whole);
  if (problem !== undefined) return { ok: false, ...problem };
  desk.change(...listChanges({ list: 'checks' }, desk.state.checks, edit.checks));
  return undefined;
}

export function setTables(desk: Desk, edit: Edit & { do: 'setTables' }): Refusal {
  if (edit.tables.length > LIMITS.tables) return refuse('W24', 'tables', LIMITS.tables);
  for (const table of edit.tables) {
    const checked = tableSchema.safeParse(table);
    if (!checked.success) return misfit(`table ${String(table.id)}`, checked.error);
  }
  const problem = documentProblem({ ...desk.state.document(), tables: [...edit.tables] });
  if (problem !== undefined) return { ok: false, ...problem };
  desk.change(...listChanges({ list: 'tables' }, desk.state.tables, edit.tables));
  return undefined;
}

const HEAD_KEYS = [
  'title',
  'about',
  'customer',
  'job',
  'due',
  'agreed',
  'revision',
  'terms',
  'letterhead',
  'guide',
  'photos',
  'currency',
  'licence',
  'author',
  'locked',
  'promises',
  'results',
  'tags',
  'lineage',
] as const;

export function setBook(desk: Desk, edit: Edit & { do: 'setBook' }): Refusal {
  const set: Record<string, unknown> = {};
  const next: Record<string, unknown> = { ...desk.state.head };
  for (const key of HEAD_KEYS satisfies readonly HeadKey[]) {
    const value = edit.set[key];
    if (value === undefined) continue;
    set[key] = value;
    if (value === null) delete next[key];
    else next[key] = value;
  }
  const checked = headSchema.safeParse(next);
  if (!checked.success) return misfit('', checked.error);
  desk.change({ change: 'head', set });
  return undefined;
}
