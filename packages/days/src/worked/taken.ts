import type { Operation } from '../plan/operation.ts';
import { sameName } from '../read/after.ts';
import type { Worked } from './read-hours.ts';

/** What an operation was thought to take, and what it took so far. */
export interface Taken {
  /** Id of its row in the operations table; undefined where that table has nothing of this name. */
  readonly id: string | undefined;
  /** What it is called. */
  readonly name: string;
  /** Hours of work it was thought to take; undefined where nobody thought of it. */
  readonly estimate: number | undefined;
  /** Hours of work so far. */
  readonly worked: number;
  /** How many rows of hours that are. */
  readonly times: number;
  /** What was paid for it so far. */
  readonly spent: number;
  /** Somebody said that it is done. */
  readonly isDone: boolean;
}

/** All operations of a job, and all of it. */
export interface AllTaken {
  /** In the order of the operations table, then what it has not, in the order in which it was done. */
  readonly operations: readonly Taken[];
  /** Hours that the operations table thinks of. */
  readonly estimate: number;
  /** Hours so far. */
  readonly worked: number;
  /** What was paid so far. */
  readonly spent: number;
  /** The hours thought of for those that are done, and the hours they took: only these can be compared. */
  readonly done: {
    readonly count: number;
    readonly estimate: number;
    readonly worked: number;
  };
}

/** What each operation was thought to take beside what it took, by its name. */
export function takenOf(operations: readonly Operation[], rows: readonly Worked[]): AllTaken {
  const byName = new Map<string, Worked[]>();
  for (const row of rows) {
    const key = sameName(row.operation);
    byName.set(key, [...(byName.get(key) ?? []), row]);
  }
  const planned = operations.map(({ id, name, handsOn }) => {
    const own = byName.get(sameName(name)) ?? [];
    // Of two operations of one name the first has the hours, as it is the first that `after` means.
    byName.delete(sameName(name));
    return summed({ id, name, estimate: handsOn }, own);
  });
  const others = [...byName.values()].map((own) =>
    summed({ id: undefined, name: own[0]?.operation ?? '', estimate: undefined }, own),
  );
  const all = [...planned, ...others];
  const done = planned.filter(({ isDone, times }) => isDone && times > 0);
  return {
    operations: all,
    estimate: sum(planned, ({ estimate }) => estimate ?? 0),
    worked: sum(all, ({ worked }) => worked),
    spent: sum(all, ({ spent }) => spent),
    done: {
      count: done.length,
      estimate: sum(done, ({ estimate }) => estimate ?? 0),
      worked: sum(done, ({ worked }) => worked),
    },
  };
}

const sum = <T>(all: readonly T[], of: (one: T) => number): number =>
  all.reduce((so, one) => so + of(one), 0);

function summed(about: Pick<Taken, 'id' | 'name' | 'estimate'>, own: readonly Worked[]): Taken {
  return {
    ...about,
    worked: sum(own, ({ hours }) => hours ?? 0),
    times: own.filter(({ hours }) => hours !== undefined).length,
    spent: sum(own, ({ spent }) => spent ?? 0),
    isDone: own.some(({ isDone }) => isDone),
  };
}
