import { carryRead } from '../formula/tree/read.ts';
import { type RowState, rowDocument, type SheetState } from '../state/sheet.ts';
import type { Change, ListOf } from './types.ts';

export interface Member {
  readonly id: string;
}

/**
 * The fewest changes that make one list of members into another, members of the state as it keeps them.
 * Members that stayed as they were are not mentioned, nor is what has changes of its own: rows and
 * columns of a sheet, cells of a row.
 */
export const listChanges = (
  of: ListOf,
  before: readonly Member[],
  after: readonly Member[],
): readonly Change[] => {
  const { gone, rest } = listParts(of, before, after);
  return [...gone, ...rest];
};

/** The same in two parts: what goes away, and what is done once all has gone that goes. */
export function listParts(
  of: ListOf,
  before: readonly Member[],
  after: readonly Member[],
): { readonly gone: readonly Change[]; readonly rest: readonly Change[] } {
  if (before === after) return { gone: [], rest: [] };
  const [was, is] = [byId(before), byId(after)];
  const gone = before.filter(({ id }) => !is.has(id)).map(({ id }) => id);
  const rest = [
    ...sets(of, was, after),
    ...orders(
      before.filter(({ id }) => is.has(id)),
      after.filter(({ id }) => was.has(id)),
    ).map((one) => ({ ...of, change: 'order', ...one })),
    ...arrivals(of, was, after),
  ];
  return {
    gone: gone.length === 0 ? [] : [{ ...of, change: 'remove', ids: gone }],
    rest: rest as unknown as Change[],
  };
}

/** What is said of members that stay; the same of many rows or columns in one change. */
function sets(of: ListOf, was: ReadonlyMap<string, Member>, after: readonly Member[]): object[] {
  const lines = of.list === 'rows' || of.list === 'columns';
  const found: { readonly ids: string[]; readonly set: object }[] = [];
  const bySet = new Map<string, string[]>();
  for (const member of after) {
    const old = was.get(member.id);
    if (old === undefined || old === member) continue;
    const set = differences(about(of, old), about(of, member));
    if (Object.keys(set).length === 0) continue;
    const key = lines ? JSON.stringify(Object.entries(set).sort()) : member.id;
    const ids = bySet.get(key);
    if (ids !== undefined) {
      ids.push(member.id);
      continue;
    }
    const fresh = { ids: [member.id], set };
    bySet.set(key, fresh.ids);
    found.push(fresh);
  }
  return found.map(({ ids, set }) => ({
    ...of,
    change: 'set',
    ...(lines ? { ids } : { id: ids[0] }),
    set,
  }));
}

/** What is said of a member, as `set` changes it. */
function about({ list }: ListOf, member: Member): object {
  if (list === 'sheets') return (member as SheetState).about;
  if (list !== 'rows') return member;
  const { cells: _cells, ...row } = member as RowState;
  return row;
}

/**
 * The fewest members that have to be taken elsewhere to make one order into another of the same ones,
 * each with what it comes to stand after.
 */
export function orders(before: readonly Member[], after: readonly Member[]) {
  const moves: { readonly ids: string[]; readonly after: string | null }[] = [];
  if (before.every(({ id }, at) => id === after[at]?.id)) return moves;
  const at = new Map(before.map(({ id }, index) => [id, index]));
  const stay = longestRise(after.map(({ id }) => at.get(id) ?? 0));
  let run = false;
  for (const [index, { id }] of after.entries()) {
    const moving = !stay.has(index);
    if (moving && run) moves.at(-1)?.ids.push(id);
    else if (moving) moves.push({ ids: [id], after: after[index - 1]?.id ?? null });
    run = moving;
  }
  return moves;
}

/** Which of some different numbers, by where they stand, make one of the longest rising rows of them. */
function longestRise(numbers: readonly number[]): ReadonlySet<number> {
  /** Where the smallest last number of a rise of each length stands, and before it. */
  const ends: number[] = [];
  const before = new Map<number, number | undefined>();
  for (const [at, number] of numbers.entries()) {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((numbers[ends[middle] ?? 0] ?? 0) < number) low = middle + 1;
      else high = middle;
    }
    before.set(at, ends[low - 1]);
    ends[low] = at;
  }
  const found = new Set<number>();
  for (let at = ends.at(-1); at !== undefined; at = before.get(at)) found.add(at);
  return found;
}

/** Properties in which two differ, as `set` takes them: `null` where the second has none. */
export function differences(before: object, after: object): Record<string, unknown> {
  const set: Record<string, unknown> = {};
  const [was, is] = [before as Record<string, unknown>, after as Record<string, unknown>];
  for (const key of new Set([...Object.keys(was), ...Object.keys(is)])) {
    if (JSON.stringify(was[key]) !== JSON.stringify(is[key])) set[key] = is[key] ?? null;
  }
  carryRead(after, set);
  return set;
}

/** New members, those that stand together in one change. */
function arrivals(of: ListOf, was: ReadonlyMap<string, Member>, after: readonly Member[]) {
  const found: { after: string | null; items: Member[] }[] = [];
  let run = false;
  for (const [at, member] of after.entries()) {
    const fresh = !was.has(member.id);
    if (fresh && run) found.at(-1)?.items.push(asDocument(of, member));
    else if (fresh) {
      found.push({ after: after[at - 1]?.id ?? null, items: [asDocument(of, member)] });
    }
    run = fresh;
  }
  return found.map((one) => ({ ...of, change: 'insert', ...one }));
}

/** A member as changes and files hold it. */
export function asDocument({ list }: ListOf, member: Member): Member {
  if (list === 'rows') return rowDocument(member as RowState);
  return list === 'sheets' ? (member as SheetState).document() : member;
}

const byId = <T extends Member>(all: readonly T[]): ReadonlyMap<string, T> =>
  new Map(all.map((one) => [one.id, one]));
