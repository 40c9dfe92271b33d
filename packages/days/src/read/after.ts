/** A row of the operations table, as far as it says what comes before it. */
export interface Named {
  readonly id: string;
  readonly name: string;
  /** What stands under `after`; undefined where nothing does. */
  readonly after: string | undefined;
}

/** What comes before a row. */
export interface Before {
  readonly ids: readonly string[];
  /** Words that no operation is called by. */
  readonly unknown: readonly string[];
}

/** Names are the same in whatever capitals and with however many spaces. */
export const sameName = (name: string): string => name.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/** A word that says that nothing has to be done before it. */
const START = 'start';

/**
 * What comes before each row: what its `after` names, or the row above where it is blank. A name may have commas in it,
 * so that of what stands between commas as much is taken for a name as is one.
 */
export function beforeEach(rows: readonly Named[]): readonly Before[] {
  const ids = new Map<string, string>();
  for (const { id, name } of rows) {
    if (!ids.has(sameName(name))) ids.set(sameName(name), id);
  }
  return rows.map(({ after }, i) => {
    if (after !== undefined) return namedIn(after, ids);
    const above = rows[i - 1];
    return { ids: above === undefined ? [] : [above.id], unknown: [] };
  });
}

function namedIn(after: string, ids: ReadonlyMap<string, string>): Before {
  const words = after.split(',');
  const found = new Set<string>();
  const unknown: string[] = [];
  for (let i = 0; i < words.length; ) {
    const taken = longestName(words.slice(i), ids);
    if (taken !== undefined) {
      found.add(taken.id);
      i += taken.words;
      continue;
    }
    const word = (words[i] ?? '').trim();
    if (word !== '' && sameName(word) !== START) unknown.push(word);
    i += 1;
  }
  return { ids: [...found], unknown };
}

function longestName(words: readonly string[], ids: ReadonlyMap<string, string>) {
  for (let count = words.length; count > 0; count -= 1) {
    const id = ids.get(sameName(words.slice(0, count).join(',')));
    if (id !== undefined) return { id, words: count };
  }
  return undefined;
}

/**
 * Operations that wait for each other, each circle with its members in the order of the table. Whatever only comes
 * after a circle is in none.
 */
export function circlesOf(after: ReadonlyMap<string, readonly string[]>): readonly string[][] {
  const reach = new Map([...after.keys()].map((id) => [id, reachedFrom(id, after)]));
  const told = new Set<string>();
  const circles: string[][] = [];
  for (const [id, reached] of reach) {
    if (!reached.has(id) || told.has(id)) continue;
    const circle = [...after.keys()].filter(
      (other) => reached.has(other) && reach.get(other)?.has(id) === true,
    );
    for (const member of circle) told.add(member);
    circles.push(circle);
  }
  return circles;
}

function reachedFrom(id: string, after: ReadonlyMap<string, readonly string[]>): Set<string> {
  const reached = new Set<string>();
  const open = [...(after.get(id) ?? [])];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (reached.has(next)) continue;
    reached.add(next);
    open.push(...(after.get(next) ?? []));
  }
  return reached;
}
