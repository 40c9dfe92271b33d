import { cellText } from '../format/save.ts';
import type { BookDocument, CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { freeName } from '../state/ids.ts';
import type { SheetState } from '../state/sheet.ts';
import { BookState, type NameHome } from '../state/state.ts';
import { applyChanges } from './apply.ts';
import { differences, listParts } from './list-changes.ts';
import type { CellChange, Change } from './types.ts';

/**
 * The smallest changes that make one workbook into another (rule H6): what is alike is not mentioned,
 * and nothing of them is in conflict. Carried out together they give the other one to the byte.
 */
export function changesBetween(before: BookState, after: BookState): readonly Change[] {
  const ahead = [...namesAhead(before, after), ...titlesAhead(before, after)];
  const from = ahead.length === 0 ? before : applyChanges(before, ahead).state;
  return [...ahead, ...changesFrom(from, after)];
}

/** The same of two documents. */
export const documentChanges = (before: BookDocument, after: BookDocument): readonly Change[] =>
  changesBetween(BookState.of(before), BookState.of(after));

function changesFrom(before: BookState, after: BookState): readonly Change[] {
  const stay = before.sheets.flatMap((was) => {
    const is = after.sheet(was.id);
    return is === undefined || is === was ? [] : [{ was, is }];
  });
  const lines = stay.flatMap(({ was, is }) => [
    listParts({ list: 'rows', sheet: was.id }, was.rows, is.rows),
    listParts({ list: 'columns', sheet: was.id }, was.columns, is.columns),
  ]);
  const [sheets, checks, tables] = [
    listParts({ list: 'sheets' }, before.sheets, after.sheets),
    listParts({ list: 'checks' }, before.checks, after.checks),
    listParts({ list: 'tables' }, before.tables, after.tables),
  ];
  const set = differences(before.head, after.head);
  const head: Change[] = Object.keys(set).length === 0 ? [] : [{ change: 'head', set }];
  return [
    ...head,
    ...[tables, checks, sheets, ...lines].flatMap(({ gone }) => gone),
    ...[sheets, ...lines.reverse()].flatMap(({ rest }) => rest),
    ...stay.flatMap(({ was, is }) => cellChanges(was, is)),
    ...[checks, tables].flatMap(({ rest }) => rest),
  ];
}

/** Cells that differ in rows that stay; those in columns that went went with them. */
function cellChanges(was: SheetState, is: SheetState): Change[] {
  const cells: CellChange[] = [];
  for (const row of is.rows) {
    const old = was.rows[was.rowIndex(row.id) ?? -1];
    if (old === undefined || old.cells === row.cells) continue;
    for (const column of new Set([...old.cells.keys(), ...row.cells.keys()])) {
      const [from, to] = [old.cells.get(column), row.cells.get(column)];
      if (from === to || is.columnIndex(column) === undefined) continue;
      if (from && to && cellText(from) === cellText(to)) continue;
      cells.push({ row: row.id, column, cell: to ?? null });
    }
  }
  return cells.length === 0 ? [] : [{ change: 'cells', sheet: was.id, cells }];
}

/**
 * Cells that lose their name ahead of everything else: another one is to have it that comes to its place
 * earlier than they change, with a row or on another sheet.
 */
function namesAhead(before: BookState, after: BookState): Change[] {
  const bySheet = new Map<string, CellChange[]>();
  for (const [key, was] of before.homes) {
    const is = after.homes.get(key);
    if (is === undefined || !stays(was, after) || isChangedWith(was, is, before)) continue;
    const cells = bySheet.get(was.sheet) ?? [];
    bySheet.set(was.sheet, cells);
    const cell = cellOf(after, was);
    cells.push({ row: was.row, column: was.column, cell: cell ? nameless(cell) : null });
  }
  return [...bySheet].map(([sheet, cells]) => ({ change: 'cells', sheet, cells }));
}

const stays = ({ sheet, row, column }: NameHome, after: BookState): boolean =>
  after.rowIndex(sheet, row) !== undefined && after.columnIndex(sheet, column) !== undefined;

/** Both cells are changed at once: names pass from one to another then. */
const isChangedWith = (was: NameHome, is: NameHome, before: BookState): boolean =>
  was.sheet === is.sheet && before.rowIndex(is.sheet, is.row) !== undefined;

const cellOf = (state: BookState, { sheet, row, column }: NameHome): CellDocument | undefined => {
  const found = state.sheet(sheet);
  return found?.rows[found.rowIndex(row) ?? -1]?.cells.get(column);
};

function nameless({ name: _name, ...cell }: CellDocument): CellDocument {
  return cell;
}

/** Sheets that take a name of the moment first, where another one that stays is to have theirs. */
function titlesAhead(before: BookState, after: BookState): Change[] {
  const wanted = new Map(after.sheets.map(({ id, name }) => [nameKey(name), id]));
  const taken = new Set([...before.sheets, ...after.sheets].map(({ name }) => nameKey(name)));
  return before.sheets.flatMap(({ id, name }): Change[] => {
    const other = wanted.get(nameKey(name));
    if (other === undefined || other === id || after.sheet(id) === undefined) return [];
    if (before.sheet(other) === undefined) return [];
    const moment = freeName('Sheet', taken);
    taken.add(nameKey(moment));
    return [{ change: 'set', list: 'sheets', id, set: { name: moment } }];
  });
}
