import type { Member } from '../changes/list-changes.ts';
import type { Change, ListOf } from '../changes/types.ts';
import { type Doing, doingOf, type Merged, mergedOrder } from './order.ts';
import { ofThreeEach } from './same.ts';
import { mergeComplaint } from './sentences.ts';
import { type Merging, memberPlace, type Side, sayValue, tell, tellEither } from './sides.ts';

/** A list as it was, and as two have made it. */
export interface Lists<T extends Member> {
  readonly was: readonly T[];
  readonly first: readonly T[];
  readonly second: readonly T[];
}

const WORDS = {
  sheets: 'Sheets',
  rows: 'Rows',
  columns: 'Columns',
  checks: 'Checks',
  tables: 'Tables',
} as const;

/** The members of a list in the order of the law, and what of that is to be told. */
export function mergedList<T extends Member>(
  merging: Merging,
  of: ListOf,
  lists: Lists<T>,
): Merged {
  const [first, second] = [doingOf(lists.was, lists.first), doingOf(lists.was, lists.second)];
  const order = mergedOrder(lists.was, first, second);
  if (order.differs) tellOrder(merging, of, first, second);
  const sides = [
    [merging.first, first, merging.second, second],
    [merging.second, second, merging.first, first],
  ] as const;
  for (const [side, { gone }, other, { gone: alsoGone }] of sides) {
    for (const id of gone) if (!alsoGone.has(id)) tellRemoved(merging, of, id, [side, other]);
  }
  return order;
}

function tellOrder(merging: Merging, of: ListOf, first: Doing, second: Doing): void {
  const { first: one, second: other } = merging;
  const inSheet = 'sheet' in of ? ` of ${one.state.sheetName(of.sheet) ?? of.sheet}` : '';
  const what = `${WORDS[of.list]}${inSheet}`;
  const before = merging.conflicts.length;
  for (const { after, ids } of first.comes) {
    const same = second.comes.find((run) => run.after === after);
    if (same === undefined || same.ids.join() === ids.join()) continue;
    const where = behind(merging, of, after);
    tell(merging, mergeComplaint('X4', what, where, one.name, other.name));
  }
  for (const [{ name }, { comes }, { name: remover }, { gone }] of [
    [one, first, other, second],
    [other, second, one, first],
  ] as const) {
    for (const { after } of comes) {
      if (after === null || !gone.has(after)) continue;
      tell(merging, mergeComplaint('X6', what, behind(merging, of, after), name, remover));
    }
  }
  if (merging.conflicts.length > before) return;
  tell(merging, mergeComplaint('X5', what, one.name, other.name));
}

const behind = ({ base }: Merging, of: ListOf, after: string | null): string =>
  after === null ? 'at the front' : `after ${memberPlace([base], of, after)}`;

/** What one removed and the other changed. */
function tellRemoved(
  merging: Merging,
  of: ListOf,
  id: string,
  [remover, other]: readonly [Side, Side],
): void {
  const lost = other.changes.flatMap((change) => within(change, of, id));
  if (lost.length === 0) return;
  const where = memberPlace([other.state], of, id);
  tell(merging, mergeComplaint('X3', where, remover.name, other.name), lost, {
    of: 'gone',
    in: of,
    id,
  });
}

/** What of a change is about one member of a list, or within it. */
function within(change: Change, of: ListOf, id: string): readonly Change[] {
  if (change.change === 'head') return [];
  if (of.list === 'sheets') {
    if ('sheet' in change && change.sheet === id) return [change];
    return change.change === 'set' && change.list === 'sheets' && change.id === id ? [change] : [];
  }
  if (change.change === 'order' || change.change === 'remove') return [];
  if ('sheet' in of && (!('sheet' in change) || change.sheet !== of.sheet)) return [];
  if (change.change === 'cells') {
    if (of.list !== 'rows' && of.list !== 'columns') return [];
    const cells = change.cells.filter((one) => (of.list === 'rows' ? one.row : one.column) === id);
    return cells.length === 0 ? [] : [{ ...change, cells }];
  }
  if (change.change === 'set') {
    if (change.list !== of.list) return [];
    if ('id' in change) return change.id === id ? [change] : [];
    return change.ids.includes(id) ? [{ ...change, ids: [id] }] : [];
  }
  if (of.list !== 'columns' || change.list !== 'rows') return [];
  const cells = change.items.flatMap(({ id: row, cells: inRow = {} }) => {
    const cell = inRow[id];
    return cell === undefined ? [] : [{ row, column: id, cell }];
  });
  return cells.length === 0 ? [] : [{ change: 'cells', sheet: of.sheet, cells }];
}

/** What is said of a member that both have; what both said otherwise is told. */
export function mergedAbout<T extends object>(
  merging: Merging,
  of: ListOf,
  id: string,
  [was, first, second]: readonly [Partial<T>, Partial<T>, Partial<T>],
): Partial<T> {
  const { value, both } = ofThreeEach<T>(was, first, second);
  for (const key of both) {
    const where = `${ABOUT[key] ?? key} of ${memberPlace([merging.second.state], of, id)}`;
    const set = { [key]: first[key] ?? null };
    const which = of.list === 'rows' || of.list === 'columns' ? { ids: [id] } : { id };
    const left = { ...of, change: 'set', ...which, set } as unknown as Change;
    tellEither(merging, `the ${where}`, [sayValue(first[key]), sayValue(second[key])], left, {
      of: 'about',
      in: of,
      id,
      key,
    });
  }
  return value;
}

/** Properties as a sentence has them; the others are words as they are. */
const ABOUT: Readonly<Record<string, string>> = {
  frozenColumns: 'count of columns in view',
  frozenRows: 'count of rows in view',
  hidden: 'hiding',
  says: 'sentence',
  cells: 'marked cells',
  sheet: 'sheet',
  header: 'head row',
  last: 'last row',
  group: 'depth in groups',
};
