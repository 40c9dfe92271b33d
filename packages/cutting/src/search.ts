import { bestFillings } from './knapsack.ts';
import type { Cut, Problem, Solution } from './problem.ts';
import { type Relaxation, relax, type Way } from './relaxation.ts';

export interface Searched {
  readonly solution: Solution | undefined;
  /** Every way was looked at: nothing costs less than the solution. */
  readonly complete: boolean;
}

type Counted = { readonly cut: Cut; readonly times: number };

const costOf = (problem: Problem, cuts: readonly Counted[]): number =>
  cuts.reduce((sum, { cut, times }) => sum + times * (problem.boards[cut.board]?.price ?? 0), 0);

/** The longest piece first into the board that costs least for what it holds. Always finds a plan where boards are unlimited. */
export function greedy(problem: Problem, worth: readonly number[]): Solution | undefined {
  const { weights, boards } = problem;
  const left = [...problem.demands];
  const supply = boards.map((board) => board.supply);
  const capacities = boards.map(({ capacity }) => capacity);
  const cuts: Counted[] = [];
  while (left.some((count) => count > 0)) {
    let best: { cut: Cut; gain: number } | undefined;
    const fillings = bestFillings(capacities, weights, worth, left);
    for (const [board, { counts, value }] of fillings.entries()) {
      if ((supply[board] ?? 0) < 1) continue;
      const price = boards[board]?.price ?? 0;
      if (!counts.some((count) => count > 0)) continue;
      const gain = price === 0 ? Number.POSITIVE_INFINITY : value / price;
      if (best === undefined || gain > best.gain + 1e-12) best = { cut: { board, counts }, gain };
    }
    if (best === undefined) return undefined;
    const { cut } = best;
    const most = Math.min(
      supply[cut.board] ?? 0,
      ...cut.counts.flatMap((count, i) => (count > 0 ? [Math.floor((left[i] ?? 0) / count)] : [])),
    );
    for (const [i, count] of cut.counts.entries()) left[i] = (left[i] ?? 0) - count * most;
    supply[cut.board] = (supply[cut.board] ?? 0) - most;
    cuts.push({ cut, times: most });
  }
  return { cuts, cost: costOf(problem, cuts) };
}

/** Rounds the relaxation down and relaxes what is left again, until all is cut. */
export function dive(problem: Problem, first: Relaxation, way: Way): Solution | undefined {
  const cuts: Counted[] = [];
  let left = [...problem.demands];
  const supply = problem.boards.map((board) => board.supply);
  let relaxed = first;
  while (left.some((count) => count > 0)) {
    const taken = roundedDown(relaxed, left, supply);
    if (taken.length === 0) return undefined;
    for (const { cut, times } of taken) {
      cuts.push({ cut, times });
      left = left.map((count, i) => count - times * (cut.counts[i] ?? 0));
      supply[cut.board] = (supply[cut.board] ?? 0) - times;
    }
    if (!left.some((count) => count > 0)) break;
    relaxed = relax(
      {
        weights: problem.weights,
        demands: left,
        boards: problem.boards.map((board, i) => ({ ...board, supply: supply[i] ?? 0 })),
      },
      way,
    );
    if (!relaxed.feasible) return undefined;
  }
  return { cuts, cost: costOf(problem, cuts) };
}

/** Whole boards of the relaxation; where it has none, one of the cut it uses most. */
function roundedDown(
  { cuts }: Relaxation,
  demands: readonly number[],
  supply: readonly number[],
): Counted[] {
  const left = [...demands];
  const boards = [...supply];
  const fits = ({ counts, board }: Cut): number =>
    Math.min(
      boards[board] ?? 0,
      ...counts.flatMap((count, i) => (count > 0 ? [Math.floor((left[i] ?? 0) / count)] : [])),
    );
  const taken: Counted[] = [];
  const take = (cut: Cut, times: number): void => {
    const most = Math.min(times, fits(cut));
    if (most < 1) return;
    taken.push({ cut, times: most });
    for (const [i, count] of cut.counts.entries()) left[i] = (left[i] ?? 0) - count * most;
    boards[cut.board] = (boards[cut.board] ?? 0) - most;
  };
  const order = [...cuts].sort((a, b) => b.times - a.times);
  for (const { cut, times } of order) take(cut, Math.floor(times + 1e-6));
  if (taken.length > 0) return taken;
  for (const { cut } of order) {
    take(trimmed(cut, left), 1);
    if (taken.length > 0) return taken;
  }
  return taken;
}

/** A cut without the pieces that are not wanted any more. */
const trimmed = ({ board, counts }: Cut, left: readonly number[]): Cut => ({
  board,
  counts: counts.map((count, i) => Math.min(count, left[i] ?? 0)),
});

export interface Goal {
  /** No plan costs less: one that costs this is the best. */
  readonly least: number;
  /** Places of the search, at the most. */
  readonly budget: number;
  /** The next price that boards can add up to. */
  readonly roundUp: (cost: number) => number;
}

/** Cuts looked at in one place of the search, at the most. */
const MOST_CUTS = 400;

/**
 * Depth first over boards: the longest piece left goes into the next board, which is filled in every
 * way that leaves no room for another piece. What is left costs at least what the relaxation's prices
 * say, so a branch that cannot win is not entered.
 */
export function search(
  problem: Problem,
  { duals, boardDuals }: Relaxation,
  start: Solution | undefined,
  { least, budget, roundUp }: Goal,
): Searched {
  const { weights, boards } = problem;
  let best = start;
  let nodes = 0;
  let complete = true;
  const left = [...problem.demands];
  const supply = boards.map((board) => board.supply);
  const used: Cut[] = [];
  const atLeast = (): number => {
    let sum = 0;
    for (let i = 0; i < left.length; i += 1) sum += (left[i] ?? 0) * (duals[i] ?? 0);
    for (let i = 0; i < boards.length; i += 1) {
      const dual = boardDuals[i] ?? 0;
      if (dual !== 0) sum += dual * (supply[i] ?? 0);
    }
    return sum;
  };
  const go = (cost: number): void => {
    const longest = left.findIndex((count) => count > 0);
    if (longest < 0) {
      if (best === undefined || cost < best.cost - 1e-9) {
        best = { cuts: used.map((cut) => ({ cut, times: 1 })), cost };
      }
      return;
    }
    nodes += 1;
    if (nodes > budget) {
      complete = false;
      return;
    }
    for (const cut of fillings(longest)) {
      if (best !== undefined && best.cost <= least + 1e-9) return;
      const price = boards[cut.board]?.price ?? 0;
      for (const [i, count] of cut.counts.entries()) left[i] = (left[i] ?? 0) - count;
      supply[cut.board] = (supply[cut.board] ?? 0) - 1;
      if (best === undefined || roundUp(cost + price + atLeast()) < best.cost - 1e-9) {
        used.push(cut);
        go(cost + price);
        used.pop();
      }
      supply[cut.board] = (supply[cut.board] ?? 0) + 1;
      for (const [i, count] of cut.counts.entries()) left[i] = (left[i] ?? 0) + count;
      if (!complete && nodes > budget) return;
    }
  };
  /** Every full filling of every board that holds the longest piece, most promising first. */
  const fillings = (longest: number): Cut[] => {
    const found: { cut: Cut; reduced: number }[] = [];
    for (const [board, { capacity, price }] of boards.entries()) {
      if ((supply[board] ?? 0) < 1 || (weights[longest] ?? 0) > capacity) continue;
      const counts = left.map(() => 0);
      counts[longest] = 1;
      let tried = 0;
      const fill = (from: number, room: number, worth: number): void => {
        if (tried > MOST_CUTS) {
          complete = false;
          return;
        }
        let next = from;
        while (
          next < left.length &&
          ((weights[next] ?? 0) > room || (counts[next] ?? 0) >= (left[next] ?? 0))
        ) {
          next += 1;
        }
        if (next >= left.length) {
          tried += 1;
          if (isFull(counts, room)) {
            found.push({ cut: { board, counts: [...counts] }, reduced: price - worth });
          }
          return;
        }
        const before = counts[next] ?? 0;
        const weight = weights[next] ?? 1;
        const most = Math.min((left[next] ?? 0) - before, Math.floor(room / weight));
        for (let more = most; more >= 0; more -= 1) {
          counts[next] = before + more;
          fill(next + 1, room - more * weight, worth + more * (duals[next] ?? 0));
        }
        counts[next] = before;
      };
      fill(longest, capacity - (weights[longest] ?? 0), duals[longest] ?? 0);
    }
    return found.sort((a, b) => a.reduced - b.reduced).map(({ cut }) => cut);
  };
  const isFull = (counts: readonly number[], room: number): boolean =>
    !left.some((count, i) => count > (counts[i] ?? 0) && (weights[i] ?? 0) <= room);
  if (best === undefined || best.cost > least + 1e-9) go(0);
  return { solution: best, complete };
}
