import { carryRead } from '../formula/tree/read.ts';
import type { Change } from './types.ts';

/** The lists whose members have nothing in them that is changed by itself. */
interface Of {
  readonly list: 'checks' | 'tables';
}

interface Member {
  readonly id: string;
}

/** The changes that make one list of members into another. Members that stayed as they were are not mentioned. */
export function listChanges(
  of: Of,
  before: readonly Member[],
  after: readonly Member[],
): readonly Change[] {
  const [was, is] = [byId(before), byId(after)];
  const changes: object[] = [];
  const gone = before.filter(({ id }) => !is.has(id)).map(({ id }) => id);
  if (gone.length > 0) changes.push({ ...of, change: 'remove', ids: gone });
  for (const member of after) {
    const old = was.get(member.id);
    const set = old === undefined ? {} : differences(old, member);
    if (Object.keys(set).length > 0) changes.push({ ...of, change: 'set', id: member.id, set });
  }
  const kept = before.filter(({ id }) => is.has(id)).map(({ id }) => id);
  const wanted = after.filter(({ id }) => was.has(id)).map(({ id }) => id);
  if (kept.some((id, i) => id !== wanted[i])) {
    changes.push({ ...of, change: 'order', ids: wanted, after: null });
  }
  changes.push(...arrivals(of, was, after));
  return changes as Change[];
}

/** New members, those that stand together in one change. */
function arrivals(of: Of, was: ReadonlyMap<string, Member>, after: readonly Member[]) {
  const found: { after: string | null; items: Member[] }[] = [];
  for (const [at, member] of after.entries()) {
    if (was.has(member.id)) continue;
    const before = after[at - 1];
    const run = found.at(-1);
    if (before !== undefined && run?.items.at(-1) === before) run.items.push(member);
    else found.push({ after: before?.id ?? null, items: [member] });
  }
  return found.map((run) => ({ ...of, change: 'insert', ...run }));
}

/** Properties that differ, as `set` takes them. */
function differences(before: object, after: object): Record<string, unknown> {
  const set: Record<string, unknown> = {};
  const [was, is] = [before as Record<string, unknown>, after as Record<string, unknown>];
  for (const key of new Set([...Object.keys(was), ...Object.keys(is)])) {
    if (JSON.stringify(was[key]) !== JSON.stringify(is[key])) set[key] = is[key] ?? null;
  }
  carryRead(after, set);
  return set;
}

const byId = <T extends Member>(all: readonly T[]): ReadonlyMap<string, T> =>
  new Map(all.map((one) => [one.id, one]));
