import { CuttingFault } from './fault.ts';
import { gcd } from './knapsack.ts';
import type { BoardKind, Problem, Solution } from './problem.ts';
import { relax } from './relaxation.ts';
import { dive, greedy, search } from './search.ts';

/** Pieces of one length; any unit, the same throughout a problem. */
export interface LengthPart {
  readonly length: number;
  readonly count: number;
  /** What the plan calls them. */
  readonly name?: string;
}

/** Boards of one length and price. */
export interface LengthStock {
  readonly length: number;
  readonly price: number;
  /** How many there are; left out: as many as are needed. */
  readonly supply?: number;
  readonly name?: string;
}

export interface LengthRequest {
  readonly parts: readonly LengthPart[];
  readonly stock: readonly LengthStock[];
  /** Width of a saw cut: between pieces, and after the last where an offcut remains. */
  readonly kerf?: number;
  /** Cut off the end of each board before the first piece, its own saw cut included. */
  readonly endTrim?: number;
  /** How far the search goes: `cell` for a plan that is made at every keystroke. */
  readonly effort?: 'cell' | 'bench';
}

/** One board with what is cut from it, in cutting order. */
export interface CutBoard {
  /** Which of the stock, from 0. */
  readonly stock: number;
  readonly length: number;
  readonly price: number;
  readonly pieces: readonly {
    /** Which of the parts, from 0. */
    readonly part: number;
    readonly length: number;
    /** From the board's end. */
    readonly at: number;
  }[];
  /** What remains after the last saw cut. */
  readonly offcut: number;
}

export interface LengthPlan {
  readonly boards: readonly CutBoard[];
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  /** The cost is the bound: nothing cheaper is possible. */
  readonly proven: boolean;
  /** How many of each stock. */
  readonly bought: readonly number[];
  readonly lengthBought: number;
  /** Of the length bought, what is in no piece: saw cuts, trim and offcuts. */
  readonly waste: number;
}

/** Pieces of a plan, at the most. */
export const MOST_PIECES = 10_000;
/** More lengths than this are planned by the greedy way alone, with a bound by length. */
const MOST_LENGTHS = 220;
/** Lengths are compared to this share of a unit: no saw cuts finer, and binary digits decide nothing. */
const TICKS = 10_000;

/** So few pieces are searched further at every effort: it still costs next to nothing. */
const FEW_PIECES = 24;
const FEW_PLACES = 2_000;
/** Distinct lengths over all dives: a dive takes time with the square of them. */
const MOST_ROWS = 400;

/** How far each effort goes; counted in steps, never in time, so that the same request ends the same. */
const EFFORT = {
  cell: { steps: 1_500, dives: 1, diveSteps: 400, places: 60 },
  bench: { steps: 20_000, dives: 12, diveSteps: 1_500, places: 4_000 },
} as const;

/**
 * What to buy and how to cut it, so that it costs least. Same request, same plan.
 * @throws CuttingFault for sizes that cannot be, a part that no board is long enough for, too few boards
 */
export function planLengths(request: LengthRequest): LengthPlan {
  const { parts, stock, kerf = 0, endTrim = 0, effort = 'bench' } = request;
  checkRequest(parts, stock, kerf, endTrim);
  const ticks = (length: number): number => Math.round(length * TICKS);
  const cut = ticks(kerf);
  const trim = ticks(endTrim);
  const kinds = distinct(parts, (length) => ticks(length) + cut);
  const boards: BoardKind[] = stock.map(({ length, price, supply = Number.POSITIVE_INFINITY }) => ({
    capacity: ticks(length) - trim + cut,
    price,
    supply: Math.floor(supply),
  }));
  const problem: Problem = {
    weights: kinds.map(({ weight }) => weight),
    demands: kinds.map(({ parts: of }) => of.length),
    boards,
  };
  if (kinds.length === 0) return emptyPlan(stock);
  const { solution, bound, proven } = solve(problem, effort);
  if (solution === undefined) {
    throw new CuttingFault(
      'stock',
      'There are too few boards for all pieces. Add boards to the stock, or let one of them be bought without limit.',
    );
  }
  return laidOut(request, kinds, solution, bound, proven);
}

interface Kind {
  readonly weight: number;
  /** The part of each piece, in order. */
  readonly parts: readonly number[];
}

/** Pieces by what they weigh, longest first. */
function distinct(parts: readonly LengthPart[], weigh: (length: number) => number): Kind[] {
  const kinds = new Map<number, number[]>();
  for (const [i, { length, count }] of parts.entries()) {
    const weight = weigh(length);
    const of = kinds.get(weight) ?? [];
    for (let k = 0; k < count; k += 1) of.push(i);
    if (count > 0) kinds.set(weight, of);
  }
  return [...kinds]
    .map(([weight, of]) => ({ weight, parts: of }))
    .sort((a, b) => b.weight - a.weight);
}

interface Solved {
  readonly solution: Solution | undefined;
  readonly bound: number;
  readonly proven: boolean;
}

function solve(problem: Problem, effort: 'cell' | 'bench'): Solved {
  const { weights, demands } = problem;
  if (weights.length > MOST_LENGTHS) return solveGreedily(problem);
  const { steps, dives, diveSteps, places } = EFFORT[effort];
  const relaxed = relax(problem, { steps });
  if (!relaxed.feasible) return { solution: undefined, bound: 0, proven: false };
  const roundUp = rounding(problem.boards);
  const least = roundUp(Math.max(relaxed.bound, boundByLength(problem)));
  let best: Solution | undefined;
  const isBest = (): boolean => best !== undefined && best.cost <= least + 1e-9;
  const consider = (found: Solution | undefined): void => {
    if (found !== undefined && (best === undefined || found.cost < best.cost - 1e-9)) best = found;
  };
  consider(greedy(problem, relaxed.duals));
  if (!isBest()) consider(greedy(problem, weights));
  const most = Math.min(dives, Math.ceil(MOST_ROWS / weights.length));
  for (let seed = 0; seed < most && !isBest(); seed += 1) {
    const from = seed === 0 ? relaxed : relax(problem, { seed, steps: diveSteps });
    if (from.feasible) consider(dive(problem, from, { seed, steps: diveSteps }));
  }
  const pieces = demands.reduce((sum, count) => sum + count, 0);
  const searched = search(problem, relaxed, best, {
    least,
    budget: pieces > 400 ? 0 : pieces <= FEW_PIECES ? Math.max(places, FEW_PLACES) : places,
    roundUp,
  });
  const { solution, complete } = searched;
  const bound =
    complete && solution !== undefined ? solution.cost : Math.min(least, solution?.cost ?? least);
  const proven = solution !== undefined && solution.cost <= bound + 1e-9;
  return { solution, bound, proven };
}

/** For thousands of lengths: longest first, and a bound by the cheapest price of a length. */
function solveGreedily(problem: Problem): Solved {
  const solution = firstFit(problem);
  const bound = boundByLength(problem);
  return { solution, bound, proven: solution !== undefined && solution.cost <= bound + 1e-9 };
}

/** What all pieces together cost at the cheapest price of a length, as far as each goes. */
function boundByLength({ weights, demands, boards }: Problem): number {
  let left = weights.reduce((sum, weight, i) => sum + weight * (demands[i] ?? 0), 0);
  let bound = 0;
  for (const { capacity, price, supply } of [...boards].sort((a, b) => rate(a) - rate(b))) {
    if (left <= 0) break;
    const used = Math.min(left, capacity * supply);
    bound += (used / capacity) * price;
    left -= used;
  }
  return bound;
}

/** First fit, longest piece first, into boards of the cheapest length by length. */
function firstFit({ weights, demands, boards }: Problem): Solution | undefined {
  const order = boards
    .map((_, board) => board)
    .sort((a, b) => rate(boards[a]) - rate(boards[b]) || a - b);
  const supply = boards.map((board) => board.supply);
  const open: { board: number; room: number; counts: Map<number, number> }[] = [];
  // Where to look first: boards before it have less room than the shortest piece so far.
  let from = 0;
  for (const [i, weight] of weights.entries()) {
    let at = from;
    for (let k = 0; k < (demands[i] ?? 0); k += 1) {
      while (at < open.length && (open[at]?.room ?? 0) < weight) at += 1;
      let place = open[at];
      if (place === undefined) {
        const board = order.find(
          (one) => (supply[one] ?? 0) >= 1 && (boards[one]?.capacity ?? 0) >= weight,
        );
        if (board === undefined) return undefined;
        supply[board] = (supply[board] ?? 0) - 1;
        place = { board, room: boards[board]?.capacity ?? 0, counts: new Map() };
        open.push(place);
      }
      place.room -= weight;
      place.counts.set(i, (place.counts.get(i) ?? 0) + 1);
    }
    const shortest = weights.at(-1) ?? 0;
    while (from < open.length && (open[from]?.room ?? 0) < shortest) from += 1;
  }
  return {
    cuts: open.map(({ board, counts }) => ({
      cut: { board, counts: weights.map((_, i) => counts.get(i) ?? 0) },
      times: 1,
    })),
    cost: open.reduce((sum, { board }) => sum + (boards[board]?.price ?? 0), 0),
  };
}

const rate = (board: BoardKind | undefined): number =>
  board === undefined ? 0 : board.price / board.capacity;

/** Prices add up to multiples of what divides all of them: a bound may be raised to the next. */
function rounding(boards: readonly BoardKind[]): (cost: number) => number {
  const cents = boards.map(({ price }) => price * 100);
  const whole = cents.every((one) => Math.abs(one - Math.round(one)) < 1e-6);
  const step = whole ? cents.reduce((sum, one) => gcd(sum, Math.round(one)), 0) / 100 : 0;
  if (step <= 0) return (cost) => cost;
  return (cost) => Math.ceil(cost / step - 1e-6) * step;
}

function checkRequest(
  parts: readonly LengthPart[],
  stock: readonly LengthStock[],
  kerf: number,
  endTrim: number,
): void {
  const bad = (says: string): never => {
    throw new CuttingFault('range', says);
  };
  if (!(kerf >= 0 && Number.isFinite(kerf))) bad(`The saw kerf is ${kerf}; it takes 0 or more.`);
  if (!(endTrim >= 0 && Number.isFinite(endTrim)))
    bad(`The end trim is ${endTrim}; it takes 0 or more.`);
  if (stock.length === 0)
    throw new CuttingFault('stock', 'There is no stock to cut from. Add a board.');
  for (const { length, price, supply = 0 } of stock) {
    if (!(length > 0 && Number.isFinite(length)))
      bad(`A board is ${length} long; it takes a length above 0.`);
    if (!(price >= 0 && Number.isFinite(price))) bad(`A board costs ${price}; it takes 0 or more.`);
    if (!(supply >= 0)) bad(`There are ${supply} of a board; it takes 0 or more.`);
  }
  const longest = Math.max(...stock.map(({ length }) => length)) - endTrim;
  let pieces = 0;
  for (const { length, count, name } of parts) {
    const what = name === undefined || name === '' ? 'A part' : name;
    if (!(length > 0 && Number.isFinite(length)))
      bad(`${what} is ${length} long; it takes a length above 0.`);
    if (!(Number.isSafeInteger(count) && count >= 0))
      bad(`${what} is wanted ${count} times; it takes a whole number.`);
    pieces += count;
    if (count > 0 && length > longest + 1 / TICKS) {
      throw new CuttingFault(
        'part',
        `${what} is ${plain(length)} long; the longest board gives ${plain(longest)}. Add a longer board to the stock.`,
      );
    }
  }
  if (pieces > MOST_PIECES) bad(`That is ${pieces} pieces; a plan takes up to ${MOST_PIECES}.`);
}

const plain = (length: number): string => String(Number(length.toPrecision(7)));

function emptyPlan(stock: readonly LengthStock[]): LengthPlan {
  return {
    boards: [],
    cost: 0,
    bound: 0,
    proven: true,
    bought: stock.map(() => 0),
    lengthBought: 0,
    waste: 0,
  };
}

/** The boards of a solution with every piece in its place: longest board first, longest piece first. */
function laidOut(
  { parts, stock, kerf = 0, endTrim = 0 }: LengthRequest,
  kinds: readonly Kind[],
  solution: Solution,
  bound: number,
  proven: boolean,
): LengthPlan {
  const next = kinds.map(() => 0);
  const boards: CutBoard[] = [];
  for (const { cut, times } of solution.cuts) {
    const { length = 0, price = 0 } = stock[cut.board] ?? {};
    for (let k = 0; k < times; k += 1) {
      const pieces: CutBoard['pieces'][number][] = [];
      let at = endTrim;
      for (const [i, count] of cut.counts.entries()) {
        for (let c = 0; c < count; c += 1) {
          const part = kinds[i]?.parts[next[i] ?? 0];
          // A plan may hold more than is wanted where a piece more costs nothing: it is offcut.
          if (part === undefined) continue;
          next[i] = (next[i] ?? 0) + 1;
          const own = parts[part]?.length ?? 0;
          pieces.push({ part, length: own, at });
          at += own + kerf;
        }
      }
      if (pieces.length === 0) continue;
      const offcut = Math.max(0, length - at);
      boards.push({
        stock: cut.board,
        length,
        price,
        pieces,
        offcut: offcut < 1 / TICKS ? 0 : offcut,
      });
    }
  }
  boards.sort(
    (a, b) =>
      b.length - a.length ||
      a.stock - b.stock ||
      firstDifference(b.pieces, a.pieces) ||
      a.offcut - b.offcut,
  );
  const lengthBought = boards.reduce((sum, { length }) => sum + length, 0);
  const used = parts.reduce((sum, { length, count }) => sum + length * count, 0);
  return {
    boards,
    cost: boards.reduce((sum, { price }) => sum + price, 0),
    bound,
    proven,
    bought: stock.map((_, i) => boards.filter((board) => board.stock === i).length),
    lengthBought,
    waste: lengthBought === 0 ? 0 : 1 - used / lengthBought,
  };
}

function firstDifference(a: CutBoard['pieces'], b: CutBoard['pieces']): number {
  for (let i = 0; i < Math.max(a.length, b.length); i += 1) {
    const difference = (a[i]?.length ?? 0) - (b[i]?.length ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
