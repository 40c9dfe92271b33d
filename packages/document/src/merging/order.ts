import { type Member, orders } from '../changes/list-changes.ts';

interface Run {
  readonly ids: readonly string[];
  readonly after: string | null;
}

/** What one of two did to a list: who came, went and was taken elsewhere. */
export interface Doing {
  readonly gone: ReadonlySet<string>;
  readonly moves: readonly Run[];
  readonly comes: readonly Run[];
}

export function doingOf(before: readonly Member[], after: readonly Member[]): Doing {
  const [was, is] = [idsOf(before), idsOf(after)];
  const comes: { ids: string[]; after: string | null }[] = [];
  let run = false;
  for (const [at, { id }] of after.entries()) {
    const fresh = !was.has(id);
    if (fresh && run) comes.at(-1)?.ids.push(id);
    else if (fresh) comes.push({ ids: [id], after: after[at - 1]?.id ?? null });
    run = fresh;
  }
  return {
    gone: new Set(before.flatMap(({ id }) => (is.has(id) ? [] : [id]))),
    moves: orders(
      before.filter(({ id }) => is.has(id)),
      after.filter(({ id }) => was.has(id)),
    ),
    comes,
  };
}

const idsOf = (members: readonly Member[]): ReadonlySet<string> =>
  new Set(members.map(({ id }) => id));

/** The order of two that changed a list. */
export interface Merged {
  /** Who is there in the end, in order. */
  readonly ids: readonly string[];
  /** The same with those that went where they stood: what stands beside them is told by it. */
  readonly full: readonly string[];
  /** Where they stand depends on who of the two comes last. */
  readonly differs: boolean;
}

/**
 * The order of the law (rule H7): what both took elsewhere, the second one last; what came, those of the
 * second one nearer to what they follow; and only then what went, so that what was to follow it stands
 * where it was. Where one after the other gives the same either way, it is that.
 */
export function mergedOrder(before: readonly Member[], first: Doing, second: Doing): Merged {
  const ids = before.map(({ id }) => id);
  const full = come(come(move(move(ids, first), second), first), second);
  const gone = (id: string): boolean => first.gone.has(id) || second.gone.has(id);
  const [one, other] = [after(after(ids, first), second), after(after(ids, second), first)];
  const differs = one.some((id, at) => id !== other[at]);
  return { ids: differs ? full.filter((id) => !gone(id)) : one, full, differs };
}

/** A list as changes leave it that are carried out one after the other (rule H4). */
const after = (all: readonly string[], doing: Doing): readonly string[] =>
  come(
    move(
      all.filter((id) => !doing.gone.has(id)),
      doing,
    ),
    doing,
  );

function move(all: readonly string[], { moves }: Doing): readonly string[] {
  let now = all;
  for (const run of moves) {
    const there = new Set(now);
    now = put(now, { ...run, ids: run.ids.filter((id) => there.has(id)) }) ?? now;
  }
  return now;
}

function come(all: readonly string[], { comes }: Doing): readonly string[] {
  let now = all;
  for (const run of comes) {
    const there = new Set(now);
    const ids = run.ids.filter((id) => !there.has(id));
    now = put(now, { ...run, ids }) ?? [...now, ...ids];
  }
  return now;
}

/** Members put right after one of a list, wherever they were; nothing where that one is not there. */
function put(all: readonly string[], { ids, after: place }: Run): readonly string[] | undefined {
  const moving = new Set(ids);
  const stay = all.filter((id) => !moving.has(id));
  const at = place === null ? 0 : stay.indexOf(place) + 1;
  if (place !== null && at === 0) return undefined;
  return [...stay.slice(0, at), ...ids, ...stay.slice(at)];
}
