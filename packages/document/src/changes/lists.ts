import { complaint } from '../faults/catalogue.ts';
import {
  type CellDocument,
  type CheckDocument,
  type ColumnDocument,
  LIMITS,
  type RowDocument,
  type SheetDocument,
  type TableDocument,
} from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { carryRead } from '../formula/tree/read.ts';
import { freeSheetName } from '../state/ids.ts';
import { type RowState, rowState, SheetState } from '../state/sheet.ts';
import { type BookState, type Head, namesOf } from '../state/state.ts';
import type { Conflict, Outcome } from './apply.ts';
import { Names, nameTaken } from './cells.ts';
import { asDocument, type Member } from './list-changes.ts';
import type { CellChange, Change, ListOf } from './types.ts';

type Kind<C extends Change['change']> = Change & { readonly change: C };

const nothing = (state: BookState, ...conflicts: Conflict[]): Outcome => ({
  state,
  changes: [],
  inverse: [],
  conflicts,
});

/** The members of a list; undefined where its sheet is not there. */
function membersOf(state: BookState, of: ListOf): readonly Member[] | undefined {
  switch (of.list) {
    case 'sheets':
      return state.sheets;
    case 'checks':
      return state.checks;
    case 'tables':
      return state.tables;
    default:
      return state.sheet(of.sheet)?.[of.list];
  }
}

function withMembers(state: BookState, of: ListOf, members: readonly Member[]): BookState {
  switch (of.list) {
    case 'sheets':
      return state.with({ sheets: members as readonly SheetState[] });
    case 'checks':
      return state.with({ checks: members as readonly CheckDocument[] });
    case 'tables':
      return state.with({ tables: members as readonly TableDocument[] });
    default: {
      const sheet = state.sheet(of.sheet);
      if (sheet === undefined) return state;
      return state.withSheet(
        of.list === 'rows'
          ? sheet.withRows(members as readonly RowState[])
          : sheet.withColumns(members as readonly ColumnDocument[]),
      );
    }
  }
}

const MOST = {
  sheets: LIMITS.sheets,
  rows: LIMITS.rows,
  columns: LIMITS.columns,
  checks: LIMITS.checks,
  tables: LIMITS.tables,
} as const;

const WORDS = {
  sheets: 'the sheets',
  rows: 'the rows',
  columns: 'the columns',
  checks: 'the checks',
  tables: 'the tables',
} as const;

/** Only what says which list it is. */
const listOf = (of: ListOf): ListOf =>
  of.list === 'rows' || of.list === 'columns'
    ? { list: of.list, sheet: of.sheet }
    : { list: of.list };

/**
 * Puts new members in right after one that is there. What comes later to the same place stands nearer to
 * it; where the one they were to follow is gone, they come last (rule H4).
 */
export function insert(state: BookState, change: Kind<'insert'>): Outcome {
  const members = membersOf(state, change);
  if (members === undefined) return nothing(state, lost(change));
  const conflicts: Conflict[] = [];
  const known = new Set(members.map(({ id }) => id));
  const coming: Member[] = [];
  for (const item of change.items as readonly Member[]) {
    if (!known.has(item.id) && members.length + coming.length < MOST[change.list]) {
      known.add(item.id);
      coming.push(item);
      continue;
    }
    const one = { ...change, items: [item] } as unknown as Change;
    const why = known.has(item.id)
      ? complaint('W8', item.id)
      : complaint('W24', change.list, MOST[change.list]);
    conflicts.push({ ...why, change: one });
  }
  if (coming.length === 0) return nothing(state, ...conflicts);
  const at = placeAfter(members, change.after);
  if (at === undefined) {
    conflicts.push({ ...complaint('W28', WORDS[change.list]), change });
  }
  const place = at ?? members.length;
  const after = members[place - 1]?.id ?? null;
  const names = new Names(state);
  const titles = new Set(state.sheets.map(({ name }) => nameKey(name)));
  const items = coming.map((item) => arriving(state, change, item, { names, titles, conflicts }));
  const done = { ...change, after, items } as unknown as Change;
  const next = [...members];
  next.splice(place, 0, ...items.map((item) => kept(change, item)));
  return {
    state: withMembers(state, change, next).with({ homes: names.homes }),
    changes: [done],
    inverse: [{ ...listOf(change), change: 'remove', ids: items.map(({ id }) => id) }],
    conflicts,
  };
}

/** Where what follows a member goes; undefined where that is not there. */
function placeAfter(members: readonly Member[], after: string | null): number | undefined {
  if (after === null) return 0;
  const at =
    members.at(-1)?.id === after ? members.length - 1 : members.findIndex(({ id }) => id === after);
  return at < 0 ? undefined : at + 1;
}

/** A member as its list keeps it. */
function kept({ list }: ListOf, item: Member): Member {
  if (list === 'rows') return rowState(item as RowDocument);
  return list === 'sheets' ? SheetState.of(item as SheetDocument) : item;
}

interface Arriving {
  readonly names: Names;
  /** Keys of the names that sheets have. */
  readonly titles: Set<string>;
  readonly conflicts: Conflict[];
}

/** A new member that fits: names and a sheet's name once, cells in columns that are there. */
function arriving(
  state: BookState,
  change: Kind<'insert'>,
  item: Member,
  { names, titles, conflicts }: Arriving,
): Member {
  if (change.list === 'rows') {
    const sheet = state.sheet(change.sheet);
    return fittingRow(
      item as RowDocument,
      change.sheet,
      (column) => sheet?.columnIndex(column) !== undefined,
      {
        names,
        conflicts,
      },
    );
  }
  if (change.list !== 'sheets') return item;
  const sheet = item as SheetDocument;
  const columns = new Set(sheet.columns.map(({ id }) => id));
  const rows = sheet.rows.map((row) =>
    fittingRow(row, sheet.id, (column) => columns.has(column), { names, conflicts }),
  );
  const name = freeSheetName(titles, sheet.name);
  titles.add(nameKey(name));
  if (name !== sheet.name) {
    conflicts.push({ ...complaint('W27', sheet.name, name), change });
  }
  const same = name === sheet.name && rows.every((row, i) => row === sheet.rows[i]);
  return same ? sheet : ({ ...sheet, name, rows } as SheetDocument);
}

function fittingRow(
  row: RowDocument,
  sheet: string,
  has: (column: string) => boolean,
  { names, conflicts }: { readonly names: Names; readonly conflicts: Conflict[] },
): RowDocument {
  const cells: [string, CellDocument][] = [];
  let same = true;
  for (const [column, cell] of Object.entries(row.cells ?? {})) {
    const place = { sheet, row: row.id, column };
    const lostCell = (): Change => ({
      change: 'cells',
      sheet,
      cells: [{ row: row.id, column, cell }],
    });
    if (!has(column)) {
      conflicts.push({ ...complaint('W26', 'a cell'), change: lostCell() });
      same = false;
      continue;
    }
    const arrived = names.arrive(cell, place);
    if (arrived !== cell) {
      conflicts.push(nameTaken(cell.name ?? '', lostCell()));
      same = false;
    }
    cells.push([column, arrived]);
  }
  return same ? row : { ...row, cells: Object.fromEntries(cells) };
}

/** Takes members away with all that is in them. What is not there is gone already. */
export function remove(state: BookState, change: Kind<'remove'>, sheetComes: boolean): Outcome {
  const members = membersOf(state, change);
  if (members === undefined) return nothing(state);
  const gone = new Set(change.ids);
  const stay = members.filter(({ id }) => !gone.has(id));
  if (stay.length === members.length) return nothing(state);
  if (change.list === 'sheets' && stay.length === 0 && !sheetComes) {
    return nothing(state, { ...complaint('W7'), change });
  }
  const names = new Names(state);
  const inverse: Change[] = [];
  for (const { after, items } of runs(members, gone)) {
    const back = items.map((item) => asDocument(change, item));
    inverse.push({ ...listOf(change), change: 'insert', after, items: back } as unknown as Change);
  }
  if (change.list === 'sheets') {
    for (const sheet of state.sheets) {
      if (gone.has(sheet.id)) for (const { name } of namesOf(sheet)) names.leave(name);
    }
  }
  if (change.list === 'rows') {
    for (const row of members as readonly RowState[]) {
      if (!gone.has(row.id)) continue;
      for (const { name } of row.cells.values()) names.leave(name);
    }
  }
  let next = withMembers(state, change, stay);
  if (change.list === 'columns') {
    const cells = cellsInColumns(state.sheet(change.sheet), gone);
    if (cells.length > 0) {
      for (const { cell } of cells) names.leave(cell?.name);
      inverse.push({ change: 'cells', sheet: change.sheet, cells });
      next = withoutColumns(next, change.sheet, cells);
    }
  }
  const ids = members.filter(({ id }) => gone.has(id)).map(({ id }) => id);
  return {
    state: next.with({ homes: names.homes }),
    changes: [{ ...change, ids }],
    inverse,
    conflicts: [],
  };
}

function withoutColumns(state: BookState, id: string, cells: readonly CellChange[]): BookState {
  const sheet = state.sheet(id);
  if (sheet === undefined) return state;
  const puts = cells.map(({ row, column }) => ({
    row: sheet.rowIndex(row) ?? 0,
    column,
    cell: undefined,
  }));
  return state.withSheet(sheet.withCells(puts));
}

function cellsInColumns(sheet: SheetState | undefined, gone: ReadonlySet<string>): CellChange[] {
  return (sheet?.rows ?? []).flatMap(({ id, cells }) =>
    [...gone].flatMap((column) => {
      const cell = cells.get(column);
      return cell === undefined ? [] : [{ row: id, column, cell }];
    }),
  );
}

/** Members that go, those that stand together as one, each with what it stands behind. */
function runs(members: readonly Member[], gone: ReadonlySet<string>) {
  const found: { after: string | null; items: Member[] }[] = [];
  let last: Member | undefined;
  let open = false;
  for (const member of members) {
    if (gone.has(member.id)) {
      if (!open) found.push({ after: last?.id ?? null, items: [] });
      found.at(-1)?.items.push(member);
    }
    open = gone.has(member.id);
    last = member;
  }
  return found;
}

/** Takes members to another place in their list. */
export function order(state: BookState, change: Kind<'order'>): Outcome {
  const members = membersOf(state, change);
  if (members === undefined) return nothing(state, lost(change));
  const byId = new Map(members.map((member) => [member.id, member]));
  const ids = [...new Set(change.ids)].filter((id) => byId.has(id) && id !== change.after);
  const moving = new Set(ids);
  const stay = members.filter(({ id }) => !moving.has(id));
  const at = placeAfter(stay, change.after);
  if (ids.length === 0) return nothing(state);
  if (at === undefined) return nothing(state, lost(change));
  const next = [...stay];
  next.splice(at, 0, ...ids.flatMap((id) => byId.get(id) ?? []));
  return {
    state: withMembers(state, change, next),
    changes: [{ ...change, ids }],
    inverse: runs(members, moving).map(({ after, items }) => ({
      ...listOf(change),
      change: 'order',
      ids: items.map(({ id }) => id),
      after,
    })),
    conflicts: [],
  };
}

/** Changes what is said of one member. */
export function set(state: BookState, change: Kind<'set'>): Outcome {
  return change.list === 'rows' || change.list === 'columns'
    ? setLines(state, change)
    : setOne(state, change);
}

type OfLines = Kind<'set'> & { readonly list: 'rows' | 'columns' };
type OfOne = Exclude<Kind<'set'>, OfLines>;

function setLines(state: BookState, change: OfLines): Outcome {
  const wanted = new Set(change.ids);
  const found: string[] = [];
  /** What puts lines back, by what it is: most were alike. */
  const back = new Map<string, { readonly ids: string[]; readonly set: object }>();
  const next = membersOf(state, change)?.map((member) => {
    if (!wanted.delete(member.id)) return member;
    found.push(member.id);
    const turn = turned(member, change.set);
    const key = JSON.stringify(turn.before);
    const alike = back.get(key);
    if (alike === undefined) back.set(key, { ids: [member.id], set: turn.before });
    else alike.ids.push(member.id);
    return turn.next as unknown as Member;
  });
  const gone = [...wanted];
  const conflicts = gone.length === 0 ? [] : [lost({ ...change, ids: gone } as OfLines)];
  if (next === undefined || found.length === 0) return nothing(state, ...conflicts);
  return {
    state: withMembers(state, change, next),
    changes: [{ ...change, ids: found } as OfLines],
    inverse: [...back.values()].map(
      (one) => ({ ...listOf(change), change: 'set', ...one }) as unknown as Change,
    ),
    conflicts,
  };
}

function setOne(state: BookState, change: OfOne): Outcome {
  const members = membersOf(state, change);
  const at = members?.findIndex(({ id }) => id === change.id) ?? -1;
  const member = members?.[at];
  if (members === undefined || member === undefined) return nothing(state, lost(change));
  const conflicts: Conflict[] = [];
  const props: Record<string, unknown> = { ...change.set };
  if (change.list === 'sheets' && typeof change.set.name === 'string') {
    const others = state.sheets.filter(({ id }) => id !== change.id);
    const taken = new Set(others.map((sheet) => nameKey(sheet.name)));
    const name = freeSheetName(taken, change.set.name);
    if (name !== change.set.name) {
      conflicts.push({ ...complaint('W27', change.set.name, name), change });
    }
    props.name = name;
  }
  const about = (change.list === 'sheets' ? (member as SheetState).about : member) as object;
  const { next, before } = turned(about, props);
  if (change.list === 'checks') {
    carryRead(change.set, props);
    carryRead(change.set, next);
    carryRead(about, next);
    carryRead(about, before);
  }
  const replaced =
    change.list === 'sheets'
      ? (member as SheetState).withAbout(next as SheetState['about'])
      : (next as unknown as Member);
  const all = [...members];
  all[at] = replaced;
  return {
    state: withMembers(state, change, all),
    changes: [{ ...change, set: props } as unknown as Change],
    inverse: [
      { ...listOf(change), change: 'set', id: change.id, set: before } as unknown as Change,
    ],
    conflicts,
  };
}

/** Changes what is said of the workbook as a whole. */
export function applyHead(state: BookState, change: Kind<'head'>): Outcome {
  const { next, before } = turned(state.head, change.set);
  return {
    state: state.with({ head: next as unknown as Head }),
    changes: [change],
    inverse: [{ change: 'head', set: before as typeof change.set }],
    conflicts: [],
  };
}

/** Something with properties replaced or, by `null`, taken away; and what puts them back. */
function turned(about: object, set: object) {
  const next: Record<string, unknown> = { ...about };
  const before: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(set)) {
    before[key] = next[key] ?? null;
    if (value === null) delete next[key];
    else next[key] = value;
  }
  return { next, before };
}

const lost = (change: Kind<'insert' | 'order' | 'set'>): Conflict => ({
  ...complaint('W26', WORDS[change.list]),
  change,
});
