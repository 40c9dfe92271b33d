import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';

/** Boards that together give every part. */
export interface Solution {
  readonly boards: readonly Pattern[];
  /** In price units. */
  readonly cost: number;
  /** Boards that are paid for or would be; pieces of the rack do not count. */
  readonly bought: number;
}

export function solutionOf({ kinds }: LengthsProblem, boards: readonly Pattern[]): Solution {
  let cost = 0;
  let bought = 0;
  for (const { kind } of boards) {
    const { price, from } = kinds[kind] as BoardKind;
    cost += price;
    if (from === 'stock') bought += 1;
  }
  return { boards, cost, bought };
}

/** The one that costs less, of equals the one with fewer bought boards, of equals the first. */
export function cheaper(a: Solution | undefined, b: Solution | undefined): Solution | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  if (a.cost !== b.cost) return a.cost < b.cost ? a : b;
  return b.bought < a.bought ? b : a;
}

/** Room that sizes take. */
export function taken(sizes: readonly number[], counts: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < sizes.length; i += 1) {
    const count = counts[i] as number;
    if (count > 0) sum += count * (sizes[i] as number);
  }
  return sum;
}

/**
 * Puts what each board holds on the cheapest kind that has the room, the fullest boards first, and
 * drops empty boards.
 */
export function shrunk(problem: LengthsProblem, boards: readonly Pattern[]): Solution {
  const loads = boards.map(({ kind, counts }) => ({ kind, load: taken(problem.sizes, counts) }));
  const fitted = cheapestKinds(problem, loads);
  const kept = boards.flatMap((board, i) => {
    const kind = fitted[i];
    if (kind === undefined) return [];
    return [kind === board.kind ? board : { kind, counts: board.counts }];
  });
  return solutionOf(problem, kept);
}

/** For each board the cheapest kind that has the room, undefined for an empty one. */
export function cheapestKinds(
  { kinds }: LengthsProblem,
  boards: readonly { readonly kind: number; readonly load: number }[],
): (number | undefined)[] {
  const supply = kinds.map((kind) => kind.supply);
  const fitted = new Array<number | undefined>(boards.length).fill(undefined);
  const order = boards.map((_, i) => i).filter((i) => boards[i]?.load !== 0);
  order.sort((a, b) => (boards[b]?.load ?? 0) - (boards[a]?.load ?? 0) || a - b);
  for (const i of order) {
    const kind = boards[i]?.kind ?? 0;
    supply[kind] = (supply[kind] as number) - 1;
  }
  for (const i of order) {
    const { kind: from, load } = boards[i] as { kind: number; load: number };
    let to = from;
    kinds.forEach(({ room, price }, kind) => {
      const now = (kinds[to] as BoardKind).price;
      if (room >= load && (supply[kind] as number) > 0 && price < now) to = kind;
    });
    supply[from] = (supply[from] as number) + 1;
    supply[to] = (supply[to] as number) - 1;
    fitted[i] = to;
  }
  return fitted;
}
