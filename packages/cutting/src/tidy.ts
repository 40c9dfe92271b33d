import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import { type Solution, shrunk, solutionOf, taken } from './solution.ts';

/**
 * The same boards made useful: what is on the emptiest bought board moves onto pieces of the rack and
 * other boards where it fits, so that what is left over is left in one long piece. Then the boards in
 * a fixed order: bought before rack, long before short, full before empty.
 */
export function tidied(problem: LengthsProblem, solution: Solution): Solution {
  const { sizes } = problem;
  const kept = solution.boards.length > MOST_MOVED ? solution : gathered(problem, solution);
  const loads = new Map(kept.boards.map((board) => [board, taken(sizes, board.counts)]));
  const load = (board: Pattern): number => loads.get(board) ?? 0;
  const sorted = [...kept.boards].sort((a, b) => order(problem, a, b, load));
  return solutionOf(problem, sorted);
}

/** Beyond this the moves would take longer than the plan. */
const MOST_MOVED = 400;

function gathered(problem: LengthsProblem, solution: Solution): Solution {
  const { kinds, sizes } = problem;
  const boards = solution.boards.map(({ kind, counts }) => ({ kind, counts: [...counts] }));
  const unused = kinds.flatMap(({ from, supply }, kind) => {
    if (from !== 'rack') return [];
    const used = boards.filter((board) => board.kind === kind).length;
    return Array.from({ length: supply - used }, () => ({ kind, counts: sizes.map(() => 0) }));
  });
  const all = [...unused, ...boards];
  gather(problem, all);
  const tidy = shrunk(problem, all);
  return tidy.cost <= solution.cost && tidy.bought <= solution.bought ? tidy : solution;
}

function gather(
  { sizes, kinds }: LengthsProblem,
  boards: { readonly kind: number; readonly counts: number[] }[],
): void {
  const room = ({ kind }: Pattern) => (kinds[kind] as BoardKind).room;
  const left = boards.map((board) => room(board) - taken(sizes, board.counts));
  const isBought = (at: number) => kinds[boards[at]?.kind ?? 0]?.from === 'stock';
  let giver = -1;
  boards.forEach((_, at) => {
    const most = giver < 0 ? -1 : (left[giver] as number);
    if (isBought(at) && (left[at] as number) > most) giver = at;
  });
  const giving = boards[giver];
  if (giving === undefined) return;
  sizes.forEach((size, i) => {
    while ((giving.counts[i] as number) > 0) {
      let to = -1;
      boards.forEach((_, at) => {
        if (at === giver || (left[at] as number) < size) return;
        if (to < 0 || (left[at] as number) < (left[to] as number)) to = at;
      });
      const taker = boards[to];
      if (taker === undefined) return;
      giving.counts[i] = (giving.counts[i] as number) - 1;
      taker.counts[i] = (taker.counts[i] as number) + 1;
      left[to] = (left[to] as number) - size;
      left[giver] = (left[giver] as number) + size;
    }
  });
}

function order(
  { kinds, sizes }: LengthsProblem,
  a: Pattern,
  b: Pattern,
  load: (board: Pattern) => number,
): number {
  const [one, other] = [kinds[a.kind] as BoardKind, kinds[b.kind] as BoardKind];
  if (one.from !== other.from) return one.from === 'stock' ? -1 : 1;
  const byRoom = other.room - one.room || b.kind - a.kind;
  if (byRoom !== 0) return byRoom;
  const byLoad = load(b) - load(a);
  if (byLoad !== 0) return byLoad;
  for (let i = 0; i < sizes.length; i += 1) {
    const difference = (b.counts[i] as number) - (a.counts[i] as number);
    if (difference !== 0) return difference;
  }
  return 0;
}
