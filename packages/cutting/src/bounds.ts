import type { LengthsProblem } from './lengths-problem.ts';
import { taken } from './solution.ts';

/**
 * The costs that boards can come to at all, as far as they have the room for every part: a bound
 * between two of them is as good as the upper one.
 */
export interface CostLadder {
  /** The least possible cost that is not below. */
  up(cost: number): number;
  /** The greatest possible cost that is below. */
  down(cost: number): number;
}

const LARGEST_LADDER = 400_000;
/** A bound carries noise of this share of a price unit. */
const NOISE = 1e-4;

/** @param most the greatest cost that is of interest */
export function costLadder(problem: LengthsProblem, most: number): CostLadder {
  const { sizes, demand, kinds } = problem;
  const whole: CostLadder = {
    up: (cost) => Math.ceil(cost - NOISE),
    down: (cost) => Math.ceil(cost) - 1,
  };
  const bought = kinds.filter(({ price }) => price > 0);
  const steps = most * bought.length;
  if (!(steps <= LARGEST_LADDER) || most < 1) return whole;
  const need = taken(sizes, demand);
  const free = kinds
    .filter(({ price }) => price === 0)
    .reduce((sum, { room, supply }) => sum + room * supply, 0);
  // What the boards of one cost hold at most; a supply that runs out would only make it less.
  const holds = new Float64Array(most + 1).fill(-1);
  holds[0] = free;
  for (let cost = 1; cost <= most; cost += 1) {
    for (const { room, price } of bought) {
      const before = cost >= price ? (holds[cost - price] as number) : -1;
      if (before >= 0 && before + room > (holds[cost] as number)) holds[cost] = before + room;
    }
  }
  const up = (cost: number): number => {
    let at = Math.max(0, Math.ceil(cost - NOISE));
    while (at <= most && (holds[at] as number) < need) at += 1;
    return Math.min(at, Math.max(most, Math.ceil(cost - NOISE)));
  };
  const down = (cost: number): number => {
    let at = Math.min(most, Math.ceil(cost) - 1);
    while (at >= 0 && (holds[at] as number) < need) at -= 1;
    return at;
  };
  return { up, down };
}

/**
 * A bound without a linear program, for lists of many different lengths: the cheapest room for all
 * the sizes, and the bound L2 of Martello and Toth (1990) on the number of boards as if every board
 * were the roomiest at the least price.
 * @returns price units, not rounded up
 */
export function quickBound({ sizes, demand, kinds }: LengthsProblem): number {
  const bought = kinds.filter(({ price }) => price > 0);
  // A free board may take whatever it has room for away from the paid ones.
  const free = kinds.filter(({ price }) => price === 0);
  const freeRoom = free.reduce((sum, { room, supply }) => sum + room * supply, 0);
  const freeBoards = free.reduce((sum, { supply }) => sum + supply, 0);
  if (bought.length === 0) return 0;
  const need = Math.max(0, taken(sizes, demand) - freeRoom);
  const perRoom = Math.min(...bought.map(({ room, price }) => price / room));
  const least = Math.min(...bought.map(({ price }) => price));
  const roomiest = Math.max(...kinds.map(({ room }) => room));
  const boards = Math.max(0, boardsNeeded(sizes, demand, roomiest) - freeBoards);
  return Math.max(need * perRoom * (1 - 1e-12), boards * least);
}

/**
 * L2: sizes over half the room each need a board; those between a threshold and half go beside
 * them or on boards of their own.
 * @param sizes the longest first
 */
function boardsNeeded(sizes: readonly number[], demand: readonly number[], room: number): number {
  let best = Math.ceil(taken(sizes, demand) / room);
  const thresholds = [0, ...sizes.filter((size) => size <= room / 2)];
  // Running sums from the longest: pieces and their room.
  const pieces = [0];
  const sums = [0];
  sizes.forEach((size, i) => {
    pieces.push((pieces[i] as number) + (demand[i] as number));
    sums.push((sums[i] as number) + (demand[i] as number) * size);
  });
  const firstNotOver = (limit: number): number => {
    let low = 0;
    let high = sizes.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((sizes[middle] as number) > limit) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const half = firstNotOver(room / 2);
  for (const threshold of thresholds) {
    const alone = firstNotOver(room - threshold);
    const last = threshold === 0 ? sizes.length : firstNotOver(threshold - 0.5);
    const large = (pieces[half] as number) - (pieces[alone] as number);
    const beside = large * room - ((sums[half] as number) - (sums[alone] as number));
    const small = (sums[last] as number) - (sums[half] as number);
    const extra = Math.max(0, Math.ceil((small - beside) / room));
    best = Math.max(best, (pieces[half] as number) + extra);
  }
  return best;
}
