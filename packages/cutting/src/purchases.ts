import { complete } from './complete.ts';
import { dive } from './dive.ts';
import { wholeRest } from './greedy.ts';
import { bestFills, type Meter } from './knapsack.ts';
import type { LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import { relax, type Witness } from './relaxation.ts';
import { cheaper, type Solution } from './solution.ts';

/** How many of each kind of board, free ones all of them, and what that costs. */
interface Purchase {
  readonly counts: readonly number[];
  readonly cost: number;
}

const MOST_PURCHASES = 20_000;
const NOISE = 1e-6;

/** What is known of a problem and is to be improved. */
export interface Known {
  readonly solution: Solution;
  readonly bound: number;
  /** Worths of parts with the most that a board of each kind can be worth. */
  readonly witnesses: readonly Witness[];
  readonly pool: Pattern[];
}

/**
 * Every purchase that costs no less than the bound and less than the plan, the cheapest first, until
 * one gives every part. Few purchases lie in between, and with the boards fixed the relaxation says
 * far more than with only their price: a purchase is refuted where the parts are worth more than
 * its boards can hold, by worths found for another one, by its own, or by a search of its own.
 * @param linear steps for relaxations and dives
 * @param work steps of search for each purchase
 */
export function narrowed(
  problem: LengthsProblem,
  { solution, bound, witnesses, pool }: Known,
  linear: Meter,
  work: number,
): { readonly solution: Solution; readonly bound: number } {
  const listed = purchases(problem.kinds, bound, solution.cost);
  if (listed === undefined) return { solution, bound };
  let open = listed.filter(({ counts }) => !witnesses.some((one) => refutes(one, counts)));
  while (linear.left > 0) {
    const next = open[0];
    if (next === undefined) return { solution, bound: solution.cost };
    const outcome = tried(problem, next, pool, linear, work);
    if (outcome === 'unknown') break;
    if ('boards' in outcome) {
      const best = cheaper(solution, outcome) ?? solution;
      return { solution: best, bound: next.cost };
    }
    open = open.slice(1).filter(({ counts }) => !refutes(outcome, counts));
  }
  return {
    solution,
    bound: Math.max(bound, Math.min(open[0]?.cost ?? solution.cost, solution.cost)),
  };
}

/** Whether the parts are worth more than these boards can be. */
function refutes({ need, most }: Witness, counts: readonly number[]): boolean {
  let sum = 0;
  for (let kind = 0; kind < counts.length; kind += 1) {
    if (counts[kind] === 0) continue;
    sum += (counts[kind] as number) * (most[kind] as number);
  }
  return sum < need * (1 - 1e-9);
}

/**
 * Every purchase of at least one cost and below another, the cheapest first; undefined where there
 * are too many of them, or free boards without end.
 */
export function purchases(
  kinds: readonly { readonly price: number; readonly supply: number }[],
  least: number,
  below: number,
): Purchase[] | undefined {
  if (kinds.some(({ price, supply }) => price === 0 && !Number.isFinite(supply))) return undefined;
  const counts = kinds.map(({ price, supply }) => (price === 0 ? supply : 0));
  const paid = kinds
    .flatMap(({ price }, kind) => (price > 0 ? [{ kind, price }] : []))
    .sort((a, b) => b.price - a.price);
  const found: Purchase[] = [];
  let steps = 0;
  const walk = (at: number, cost: number): void => {
    steps += 1;
    const next = paid[at];
    if (steps > MOST_PURCHASES * 10 || found.length > MOST_PURCHASES) return;
    if (next === undefined) {
      if (cost >= least && cost < below) found.push({ counts: counts.slice(), cost });
      return;
    }
    const { kind, price } = next;
    const most = Math.min(kinds[kind]?.supply ?? 0, Math.ceil((below - cost) / price) - 1);
    // The last kind has to make up what is missing.
    const fewest = at === paid.length - 1 ? Math.max(0, Math.ceil((least - cost) / price)) : 0;
    for (let count = fewest; count <= most; count += 1) {
      counts[kind] = count;
      walk(at + 1, cost + count * price);
    }
    counts[kind] = 0;
  };
  walk(0, 0);
  if (steps > MOST_PURCHASES * 10 || found.length > MOST_PURCHASES) return undefined;
  const boards = ({ counts: of }: Purchase): number => of.reduce((sum, count) => sum + count, 0);
  // Of the same cost, fewer boards are less work.
  return found.sort((a, b) => a.cost - b.cost || boards(a) - boards(b));
}

/** A plan from these boards, or a witness that there is none, or neither. */
function tried(
  problem: LengthsProblem,
  { counts, cost }: Purchase,
  pool: Pattern[],
  linear: Meter,
  work: number,
): Solution | Witness | 'unknown' {
  const fixed: LengthsProblem = {
    ...problem,
    kinds: problem.kinds.map((kind, k) => ({ ...kind, supply: counts[k] as number })),
  };
  const rest = wholeRest(fixed);
  const relaxation = relax(fixed, rest, pool, linear, (bound) => bound > cost + NOISE);
  const witness = witnessOf(problem, relaxation.worth, linear);
  if (relaxation.bound > cost + NOISE) return witness;
  const dived = dive(fixed, rest, relaxation, pool, linear, cost);
  if (dived !== undefined && dived.cost <= cost) return dived;
  const found = complete(fixed, relaxation, cost, { left: work });
  if (found === 'none') return witness;
  if (found === 'unknown') return 'unknown';
  const price = found.reduce((sum, { kind }) => sum + (problem.kinds[kind]?.price ?? 0), 0);
  return { boards: found, cost: price, bought: found.length };
}

function witnessOf(problem: LengthsProblem, worth: readonly number[], meter: Meter): Witness {
  const { sizes, demand, kinds } = problem;
  const rooms = kinds.map(({ room }) => room);
  const most = bestFills(sizes, worth, demand, rooms, meter).map((fill) => fill.most);
  const need = worth.reduce((sum, one, i) => sum + one * (demand[i] as number), 0);
  return { most, need };
}
