import type { At } from '@kerfbook/document';

const MOST = 10_000;

/** The shortest chain from a cell through what it uses back to itself; empty where there is none. */
export function pathOfCycle(start: At, uses: (at: At) => readonly At[]): readonly At[] {
  const key = (at: At): string => `${at.sheet} ${at.row} ${at.column}`;
  const cameFrom = new Map<string, At>();
  let edge: At[] = [start];
  while (edge.length > 0 && cameFrom.size < MOST) {
    const next: At[] = [];
    for (const at of edge) {
      for (const used of uses(at)) {
        if (key(used) === key(start)) return [...backTo(start, at, cameFrom, key), start];
        if (cameFrom.has(key(used))) continue;
        cameFrom.set(key(used), at);
        next.push(used);
      }
    }
    edge = next;
  }
  return [];
}

function backTo(
  start: At,
  end: At,
  cameFrom: ReadonlyMap<string, At>,
  key: (at: At) => string,
): At[] {
  const path = [end];
  while (path[0] !== undefined && key(path[0]) !== key(start)) {
    const before = cameFrom.get(key(path[0]));
    if (before === undefined) break;
    path.unshift(before);
  }
  return path;
}
