import { bestFillings } from './knapsack.ts';
import type { Cut, Problem } from './problem.ts';

/** The cutting problem with fractions of boards allowed: its price is a bound on any plan's. */
export interface Relaxation {
  /** No plan costs less. */
  readonly bound: number;
  /** What one more of each piece is worth at the optimum, >= 0. */
  readonly duals: readonly number[];
  /** What one more of each limited kind of board would save, <= 0; 0 for unlimited ones. */
  readonly boardDuals: readonly number[];
  /** Cuts in use with how often, fractions included. */
  readonly cuts: readonly { readonly cut: Cut; readonly times: number }[];
  /** Every demand is met: false where there are too few boards. */
  readonly feasible: boolean;
}

/** One of several ways to the same optimum: they differ in which of its many cuts they end with. */
export interface Way {
  readonly seed?: number;
  /** Steps of the simplex, at the most. */
  readonly steps?: number;
}

const EPSILON = 1e-9;
const MOST_STEPS = 20_000;

type Column =
  | { readonly kind: 'cut'; readonly cut: Cut; readonly cost: number }
  | { readonly kind: 'artificial'; readonly row: number; readonly cost: number }
  | { readonly kind: 'shorter'; readonly row: number; readonly cost: 0 }
  | { readonly kind: 'slack'; readonly row: number; readonly cost: 0 };

/**
 * Column generation: a revised simplex whose columns are priced by a knapsack, one for each kind of
 * board. The bound is the dual value after scaling the prices until no cut is worth more than its
 * board (Farley's bound), so it holds also when the search was cut short.
 * Source: Gilmore and Gomory, Operations Research 9 (1961) and 11 (1963); Farley, Operations Research
 * 38 (1990); value from memory.
 */
export function relax(problem: Problem, { seed = 0, steps = MOST_STEPS }: Way = {}): Relaxation {
  const master = new Master(problem, seed);
  for (let step = 0; step < steps; step += 1) {
    if (!master.improve()) break;
  }
  return master.result();
}

/**
 * A trifle added to each demand, another for each: without it many columns are used up at once, and the
 * simplex goes round in circles. The bound is worked out with the demands themselves.
 */
const nudge = (row: number, seed: number): number =>
  (1 + (((row + 1) * (7919 + 104_729 * seed)) % 1013) / 1013) * 1e-6;

class Master {
  readonly #problem: Problem;
  readonly #rows: number;
  /** Row of each limited kind of board. */
  readonly #supplyRow: readonly (number | undefined)[];
  readonly #basis: Column[] = [];
  /** The inverse of the basis, row by row. */
  readonly #inverse: Float64Array[];
  readonly #values: Float64Array;
  readonly #big: number;
  readonly #capacities: readonly number[];
  #duals: Float64Array;

  constructor(problem: Problem, seed: number) {
    const { demands, boards } = problem;
    this.#problem = problem;
    this.#capacities = boards.map(({ capacity }) => capacity);
    let rows = demands.length;
    this.#supplyRow = boards.map(({ supply }) => (Number.isFinite(supply) ? rows++ : undefined));
    this.#rows = rows;
    // Dearer than any way of cutting a piece, so that none is left out while a board is there.
    this.#big = 10 * Math.max(1, ...boards.map(({ price }) => price)) * Math.max(1, demands.length);
    this.#values = new Float64Array(rows);
    this.#inverse = Array.from({ length: rows }, (_, row) => {
      const line = new Float64Array(rows);
      line[row] = 1;
      return line;
    });
    for (const [row, demand] of demands.entries()) {
      const cut = this.#alone(row);
      const line = this.#inverse[row] as Float64Array;
      if (cut === undefined) {
        this.#basis.push({ kind: 'artificial', row, cost: this.#big });
        this.#values[row] = demand + nudge(row, seed);
        continue;
      }
      const count = cut.counts[row] ?? 1;
      this.#basis.push({ kind: 'cut', cut, cost: boards[cut.board]?.price ?? 0 });
      line[row] = 1 / count;
      this.#values[row] = (demand + nudge(row, seed)) / count;
    }
    for (const [board, row] of this.#supplyRow.entries()) {
      if (row === undefined) continue;
      this.#basis.push({ kind: 'slack', row, cost: 0 });
      this.#values[row] = boards[board]?.supply ?? 0;
    }
    this.#duals = this.#dualsNow();
  }

  /** Boards of one piece alone, as many to a board as go: where the simplex begins. */
  #alone(row: number): Cut | undefined {
    const { weights, demands, boards } = this.#problem;
    let found: { board: number; count: number; each: number } | undefined;
    for (const [board, { capacity, price, supply }] of boards.entries()) {
      if (Number.isFinite(supply)) continue;
      const count = Math.min(demands[row] ?? 0, Math.floor(capacity / (weights[row] ?? 1)));
      if (count > 0 && price / count < (found?.each ?? Number.POSITIVE_INFINITY)) {
        found = { board, count, each: price / count };
      }
    }
    if (found === undefined) return undefined;
    const { board, count } = found;
    return { board, counts: weights.map((_, i) => (i === row ? count : 0)) };
  }

  /** One step of the simplex; false when nothing can be gained any more. */
  improve(): boolean {
    const duals = this.#dualsNow();
    this.#duals = duals;
    const column = this.#entering(duals);
    return column !== undefined && this.#pivot(column);
  }

  #dualsNow(): Float64Array {
    const duals = new Float64Array(this.#rows);
    for (const [row, { cost }] of this.#basis.entries()) {
      if (cost === 0) continue;
      const line = this.#inverse[row] as Float64Array;
      for (let i = 0; i < this.#rows; i += 1) duals[i] = (duals[i] ?? 0) + cost * (line[i] ?? 0);
    }
    return duals;
  }

  #entering(duals: Float64Array): Column | undefined {
    const { demands, boards } = this.#problem;
    let best = -EPSILON * this.#big;
    let found: Column | undefined;
    const offer = (reduced: number, column: () => Column): void => {
      if (reduced >= best) return;
      best = reduced;
      found = column();
    };
    // A piece may give way to the next shorter one, so a longer piece is never worth less than it.
    for (let row = 0; row < demands.length; row += 1) {
      const next = row + 1 < demands.length ? (duals[row + 1] ?? 0) : 0;
      offer((duals[row] ?? 0) - next, () => ({ kind: 'shorter', row, cost: 0 }));
    }
    for (const row of this.#supplyRow) {
      if (row !== undefined) offer(-(duals[row] ?? 0), () => ({ kind: 'slack', row, cost: 0 }));
    }
    const worth = demands.map((_, i) => Math.max(0, duals[i] ?? 0));
    const fillings = bestFillings(this.#capacities, this.#problem.weights, worth, demands);
    for (const [board, { counts, value }] of fillings.entries()) {
      const price = boards[board]?.price ?? 0;
      const supply = this.#supplyRow[board];
      const own = supply === undefined ? 0 : (duals[supply] ?? 0);
      offer(price - value - own, () => ({ kind: 'cut', cut: { board, counts }, cost: price }));
    }
    return found;
  }

  /** Takes a column into the basis for the one that is used up first. */
  #pivot(column: Column): boolean {
    const direction = this.#direction(column);
    let leaving = -1;
    let ratio = Number.POSITIVE_INFINITY;
    for (let row = 0; row < this.#rows; row += 1) {
      const step = direction[row] ?? 0;
      if (step <= EPSILON) continue;
      const at = (this.#values[row] ?? 0) / step;
      // Artificial columns leave first where several are used up at once.
      const better =
        at < ratio - 1e-12 ||
        (at < ratio + 1e-12 &&
          this.#basis[row]?.kind === 'artificial' &&
          this.#basis[leaving]?.kind !== 'artificial');
      if (better) {
        ratio = at;
        leaving = row;
      }
    }
    if (leaving < 0) return false;
    const pivot = direction[leaving] ?? 1;
    const line = this.#inverse[leaving] as Float64Array;
    for (let i = 0; i < this.#rows; i += 1) line[i] = (line[i] ?? 0) / pivot;
    this.#values[leaving] = ratio;
    for (let row = 0; row < this.#rows; row += 1) {
      const step = direction[row] ?? 0;
      if (row === leaving || Math.abs(step) < 1e-13) continue;
      const other = this.#inverse[row] as Float64Array;
      for (let i = 0; i < this.#rows; i += 1) other[i] = (other[i] ?? 0) - step * (line[i] ?? 0);
      this.#values[row] = Math.max(0, (this.#values[row] ?? 0) - step * ratio);
    }
    this.#basis[leaving] = column;
    return true;
  }

  #direction(column: Column): Float64Array {
    const entries = this.#entries(column);
    const direction = new Float64Array(this.#rows);
    for (let row = 0; row < this.#rows; row += 1) {
      const line = this.#inverse[row] as Float64Array;
      let sum = 0;
      for (const [i, value] of entries) sum += (line[i] ?? 0) * value;
      direction[row] = sum;
    }
    return direction;
  }

  #entries(column: Column): (readonly [row: number, value: number])[] {
    if (column.kind === 'shorter') {
      const { row } = column;
      const last = row + 1 >= this.#problem.demands.length;
      return last
        ? [[row, -1]]
        : [
            [row, -1],
            [row + 1, 1],
          ];
    }
    if (column.kind !== 'cut') return [[column.row, 1]];
    const { counts, board } = column.cut;
    const entries: [number, number][] = [];
    for (const [i, count] of counts.entries()) if (count > 0) entries.push([i, count]);
    const supply = this.#supplyRow[board];
    if (supply !== undefined) entries.push([supply, 1]);
    return entries;
  }

  result(): Relaxation {
    const { demands, boards, weights } = this.#problem;
    const worth = demands.map((_, i) => Math.max(0, this.#duals[i] ?? 0));
    const boardDuals = boards.map((_, board) => {
      const row = this.#supplyRow[board];
      return row === undefined ? 0 : Math.min(0, this.#duals[row] ?? 0);
    });
    let share = 1;
    for (const [board, { most }] of bestFillings(
      this.#capacities,
      weights,
      worth,
      demands,
    ).entries()) {
      const price = boards[board]?.price ?? 0;
      const may = price - (boardDuals[board] ?? 0);
      if (most > may + 1e-9 * Math.max(1, may)) share = Math.min(share, may / most);
    }
    const duals = worth.map((one) => one * share);
    const bound =
      duals.reduce((sum, one, i) => sum + one * (demands[i] ?? 0), 0) +
      boardDuals.reduce(
        (sum, one, i) => (one === 0 ? sum : sum + one * (boards[i]?.supply ?? 0)),
        0,
      );
    const cuts = this.#basis.flatMap((column, row) =>
      column.kind === 'cut' && (this.#values[row] ?? 0) > 1e-4
        ? [{ cut: column.cut, times: this.#values[row] ?? 0 }]
        : [],
    );
    const feasible = this.#basis.every(
      (column, row) => column.kind !== 'artificial' || (this.#values[row] ?? 0) < 1e-4,
    );
    return { bound: Math.max(0, bound), duals, boardDuals, cuts, feasible };
  }
}
