import { bestFills, type Fill, type Meter } from './knapsack.ts';
import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import { Master, type Pattern } from './master.ts';

/** What fractional boards say about a problem. */
export interface Relaxation {
  /** No plan costs less, in price units; not rounded up. */
  readonly bound: number;
  /** What one piece of each size is worth in that bound, 0 or more. */
  readonly worth: readonly number[];
  /** What one board of each kind is worth in it: above 0 only where there are only some. */
  readonly rent: readonly number[];
  /** Fractional boards. */
  readonly boards: readonly { readonly pattern: Pattern; readonly boards: number }[];
}

/** What all parts are worth together, and at most what fits on a board of each kind. */
export interface Witness {
  readonly need: number;
  readonly most: readonly number[];
}

/** What is still wanted and what there still is. */
export interface Rest {
  readonly demand: readonly number[];
  readonly supply: readonly number[];
}

/** Share of a bound that is given up, so that noise never lifts it above the truth. */
const MARGIN = 1e-9;
const SAVING = 1e-9;
/** Simplex steps that change nothing may follow each other; past this many it is a circle. */
const MOST_STEPS = 20_000;

/**
 * Column generation (Gilmore and Gomory 1961, 1963) with Farley's bound (1990) for boards of
 * several kinds: duals that no filling of any board can beat prove a cost, whatever state the
 * simplex is in, so stopping early leaves a weaker bound and never a wrong one.
 * @param pool patterns seen before; new ones are added
 * @param enough stops as soon as the bound passes this
 * @param witnesses those met on the way are added; only of use where every kind is at hand
 */
export function relax(
  problem: LengthsProblem,
  rest: Rest,
  pool: Pattern[],
  meter: Meter,
  enough: (bound: number) => boolean = () => false,
  witnesses: Witness[] = [],
): Relaxation {
  const wanted = rest.demand.flatMap((count, i) => (count > 0 ? [i] : []));
  const limited = problem.kinds.flatMap(({ supply }, k) =>
    Number.isFinite(supply) && (rest.supply[k] as number) > 0 ? [k] : [],
  );
  const open = problem.kinds.flatMap((_, k) => ((rest.supply[k] as number) > 0 ? [k] : []));
  const scale = Math.max(1, ...problem.kinds.map(({ price }) => price));
  const master = new Master(
    wanted,
    limited,
    rest.demand,
    rest.supply,
    wanted.map((size) => startOf(problem, rest, size, scale)),
  );
  let best: Omit<Relaxation, 'boards'> = {
    bound: 0,
    worth: problem.sizes.map(() => 0),
    rent: problem.kinds.map(() => 0),
  };
  for (let steps = 0; steps < MOST_STEPS && meter.left > 0; steps += 1) {
    const rows = wanted.length + limited.length;
    meter.left -= (rows * rows) / 2;
    const duals = master.duals();
    if (master.enterSlack(duals)) continue;
    if (enterKnown(master, problem, rest, pool, duals, scale, meter)) continue;
    const fills = fillsAt(problem, rest, wanted, open, duals, meter);
    const proof = farley(problem, rest, wanted, open, duals, fills);
    if (proof.bound > best.bound) best = proof;
    if (open.length === problem.kinds.length) witnesses.push(witnessOf(rest, wanted, duals, fills));
    if (enough(best.bound)) break;
    if (!enterNew(master, problem, open, fills, pool, duals, scale)) break;
  }
  return { ...best, boards: master.solution() };
}

function witnessOf(
  rest: Rest,
  wanted: readonly number[],
  duals: Float64Array,
  fills: readonly Fill[],
): Witness {
  let need = 0;
  wanted.forEach((size, row) => {
    need += Math.max(0, duals[row] as number) * (rest.demand[size] as number);
  });
  return { need, most: fills.map(({ most }) => most) };
}

/** A column for one size alone: the least price a piece, or a made-up one that costs too much. */
function startOf({ sizes, kinds }: LengthsProblem, rest: Rest, size: number, scale: number) {
  let start: { cost: number; pattern?: Pattern } = { cost: scale * 1000 };
  let least = start.cost;
  kinds.forEach(({ room, price, supply }, kind) => {
    const fits = Math.floor(room / (sizes[size] as number));
    const count = Math.min(fits, rest.demand[size] as number);
    if (count === 0 || Number.isFinite(supply) || price / count >= least) return;
    least = price / count;
    const counts = sizes.map((_, i) => (i === size ? count : 0));
    start = { cost: price, pattern: { kind, counts } };
  });
  return start;
}

function enterKnown(
  master: Master,
  { kinds }: LengthsProblem,
  rest: Rest,
  pool: readonly Pattern[],
  duals: Float64Array,
  scale: number,
  meter: Meter,
): boolean {
  let most = SAVING * scale;
  let chosen: Pattern | undefined;
  meter.left -= (pool.length * duals.length) / 2;
  for (const pattern of pool) {
    const { supply } = rest;
    if ((supply[pattern.kind] as number) <= 0) continue;
    const saving = master.saving(pattern, (kinds[pattern.kind] as BoardKind).price, duals);
    if (saving <= most || !within(pattern.counts, rest.demand)) continue;
    most = saving;
    chosen = pattern;
  }
  if (chosen === undefined) return false;
  return master.enterPattern(chosen, (kinds[chosen.kind] as BoardKind).price);
}

/** Whether a pattern gives no more of anything than is wanted. */
export function within(counts: readonly number[], demand: readonly number[]): boolean {
  for (let i = 0; i < counts.length; i += 1) {
    if ((counts[i] as number) > (demand[i] as number)) return false;
  }
  return true;
}

function fillsAt(
  { sizes, kinds }: LengthsProblem,
  rest: Rest,
  wanted: readonly number[],
  open: readonly number[],
  duals: Float64Array,
  meter: Meter,
): Fill[] {
  const values = new Float64Array(sizes.length);
  wanted.forEach((size, row) => {
    values[size] = Math.max(0, duals[row] as number);
  });
  const rooms = open.map((kind) => (kinds[kind] as BoardKind).room);
  return bestFills(sizes, values, rest.demand, rooms, meter);
}

/** Duals made feasible: shrunk for what can be bought at will, a rent for what cannot. */
function farley(
  { sizes, kinds }: LengthsProblem,
  rest: Rest,
  wanted: readonly number[],
  open: readonly number[],
  duals: Float64Array,
  fills: readonly Fill[],
): Omit<Relaxation, 'boards'> {
  let shrink = 1;
  open.forEach((kind, k) => {
    const { price, supply } = kinds[kind] as BoardKind;
    const most = (fills[k] as Fill).most;
    if (!Number.isFinite(supply) && most > price) shrink = Math.min(shrink, price / most);
  });
  const worth = sizes.map(() => 0);
  let bound = 0;
  wanted.forEach((size, row) => {
    worth[size] = Math.max(0, duals[row] as number) * shrink;
    bound += (worth[size] as number) * (rest.demand[size] as number);
  });
  const rent = kinds.map(() => 0);
  open.forEach((kind, k) => {
    const { price, supply } = kinds[kind] as BoardKind;
    if (!Number.isFinite(supply)) return;
    rent[kind] = Math.max(0, (fills[k] as Fill).most * shrink - price);
    bound -= (rent[kind] as number) * (rest.supply[kind] as number);
  });
  return { bound: bound - Math.abs(bound) * MARGIN, worth, rent };
}

/** Keeps every filling that saves, and lets the one that saves most in. */
function enterNew(
  master: Master,
  { kinds }: LengthsProblem,
  open: readonly number[],
  fills: readonly Fill[],
  pool: Pattern[],
  duals: Float64Array,
  scale: number,
): boolean {
  let most = SAVING * scale;
  let chosen: Pattern | undefined;
  open.forEach((kind, k) => {
    const pattern = { kind, counts: (fills[k] as Fill).counts };
    const saving = master.saving(pattern, (kinds[kind] as BoardKind).price, duals);
    if (saving <= SAVING * scale) return;
    pool.push(pattern);
    if (saving <= most) return;
    most = saving;
    chosen = pattern;
  });
  if (chosen === undefined) return false;
  return master.enterPattern(chosen, (kinds[chosen.kind] as BoardKind).price);
}
