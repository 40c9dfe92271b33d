import { bestFills, type Meter } from './knapsack.ts';
import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import type { Rest } from './relaxation.ts';
import { cheapestKinds, type Solution, solutionOf } from './solution.ts';

export const wholeRest = ({ demand, kinds }: LengthsProblem): Rest => ({
  demand,
  supply: kinds.map(({ supply }) => supply),
});

/**
 * First-fit and best-fit decreasing for each kind of board as the usual one, each board shrunk
 * to the cheapest that holds it. Undefined where limited supplies stop all of them.
 */
export function fitDecreasing(problem: LengthsProblem, meter: Meter): Solution | undefined {
  let best: Fitted | undefined;
  const usual = problem.kinds.flatMap(({ from }, kind) => (from === 'stock' ? [kind] : []));
  for (const kind of usual.length === 0 ? [-1] : usual) {
    for (const tight of [false, true]) {
      const fitted = fit(problem, kind, tight, meter);
      if (fitted === undefined) continue;
      if (best === undefined || fitted.cost < best.cost) best = fitted;
    }
  }
  return best === undefined ? undefined : solutionOf(problem, patternsOf(problem, best));
}

interface Open {
  readonly kind: number;
  /** Indexes of the sizes on it: a long list has too many sizes for counts of each on each board. */
  readonly pieces: number[];
  left: number;
}

interface Fitted {
  readonly boards: readonly Open[];
  readonly kinds: readonly (number | undefined)[];
  readonly cost: number;
}

function patternsOf({ sizes }: LengthsProblem, { boards, kinds }: Fitted): Pattern[] {
  return boards.flatMap(({ pieces }, i) => {
    const kind = kinds[i];
    if (kind === undefined) return [];
    const counts = new Array<number>(sizes.length).fill(0);
    for (const size of pieces) counts[size] = (counts[size] as number) + 1;
    return [{ kind, counts }];
  });
}

function fit(
  problem: LengthsProblem,
  usual: number,
  tight: boolean,
  meter: Meter,
): Fitted | undefined {
  const { sizes, demand, kinds } = problem;
  const supply = kinds.map((kind) => kind.supply);
  const open: Open[] = [];
  const begin = (kind: number): Open => {
    supply[kind] = (supply[kind] as number) - 1;
    const board: Open = { kind, pieces: [], left: (kinds[kind] as BoardKind).room };
    open.push(board);
    return board;
  };
  // The rack is free: its pieces, the shortest first, are filled before any board is bought.
  kinds.forEach(({ from }, kind) => {
    if (from === 'rack') while ((supply[kind] as number) > 0) begin(kind);
  });
  let nothing = 0;
  for (let i = 0; i < sizes.length; i += 1) {
    const size = sizes[i] as number;
    // Boards fill up from the front; those without room for the smallest size are passed for good.
    while (nothing < open.length && (open[nothing] as Open).left < (sizes.at(-1) as number))
      nothing += 1;
    let from = nothing;
    for (let piece = 0; piece < (demand[i] as number); piece += 1) {
      let board: Open | undefined;
      for (let at = from; at < open.length; at += 1) {
        meter.left -= 1;
        const one = open[at] as Open;
        if (one.left < size || (board !== undefined && one.left >= board.left)) continue;
        board = one;
        if (tight) continue;
        from = at;
        break;
      }
      if (board === undefined) {
        const kind = nextKind(problem, supply, usual, size);
        if (kind < 0) return undefined;
        board = begin(kind);
        if (!tight) from = open.length - 1;
      }
      board.left -= size;
      board.pieces.push(i);
    }
  }
  const loads = open.map(({ kind, left }) => ({
    kind,
    load: (kinds[kind] as BoardKind).room - left,
  }));
  const fitted = cheapestKinds(problem, loads);
  const cost = fitted.reduce<number>(
    (sum, kind) => sum + (kind === undefined ? 0 : (kinds[kind] as BoardKind).price),
    0,
  );
  return { boards: open, kinds: fitted, cost };
}

/** The usual kind where the size fits and there is one, else the smallest that has the room. */
function nextKind(
  { kinds }: LengthsProblem,
  supply: readonly number[],
  usual: number,
  size: number,
): number {
  const fits = (kind: number) => (supply[kind] ?? 0) > 0 && (kinds[kind] as BoardKind).room >= size;
  if (usual >= 0 && fits(usual)) return usual;
  return kinds.findIndex((_, kind) => fits(kind));
}

/**
 * One board after another, each the filling that gives most worth for its price, the free ones
 * first. The last boards are shrunk where a cheaper one holds what is left.
 * @param worth of one piece of each size
 */
export function fillByWorth(
  problem: LengthsProblem,
  rest: Rest,
  worth: readonly number[],
  meter: Meter,
): Pattern[] | undefined {
  const { sizes, kinds } = problem;
  const demand = [...rest.demand];
  const supply = [...rest.supply];
  const boards: Pattern[] = [];
  const total = () => demand.reduce((sum, count) => sum + count, 0);
  const smallest = () => sizes[demand.findLastIndex((count) => count > 0)] ?? 0;
  while (total() > 0) {
    if (meter.left <= 0) return undefined;
    const open = kinds.flatMap(({ room }, kind) =>
      (supply[kind] as number) > 0 && room >= smallest() ? [kind] : [],
    );
    const rooms = open.map((kind) => (kinds[kind] as BoardKind).room);
    const fills = bestFills(sizes, worth, demand, rooms, meter);
    let most = -1;
    let chosen: Pattern | undefined;
    open.forEach((kind, k) => {
      const { value, counts } = fills[k] as { value: number; counts: readonly number[] };
      const { price } = kinds[kind] as BoardKind;
      const each = price === 0 ? Number.MAX_VALUE : value / price;
      if (value <= 0 || each <= most) return;
      most = each;
      chosen = { kind, counts };
    });
    if (chosen === undefined) return undefined;
    // The same filling as often as it goes.
    let times = supply[chosen.kind] as number;
    chosen.counts.forEach((count, i) => {
      if (count > 0) times = Math.min(times, Math.floor((demand[i] as number) / count));
    });
    for (let n = 0; n < times; n += 1) boards.push(chosen);
    supply[chosen.kind] = (supply[chosen.kind] as number) - times;
    for (const [i, count] of chosen.counts.entries()) {
      demand[i] = (demand[i] as number) - count * times;
    }
  }
  return boards;
}
