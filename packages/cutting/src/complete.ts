import { type Filling, fillingsOf } from './fillings.ts';
import type { Meter } from './knapsack.ts';
import type { LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import type { Relaxation } from './relaxation.ts';

const MOST_KEPT = 300_000;
/** Tells apart that no plan exists from not having looked everywhere. */
type Outcome = 'found' | 'none' | 'unknown';

/**
 * Whether any plan costs at most a given amount: boards are filled one by one, each with the longest
 * part still wanted. Duals of the relaxation say what every filling loses against the bound, and
 * all losses together must stay within what there is between bound and amount; a rest that was
 * found hopeless is not tried again.
 * @returns the boards; `none` where it is certain that there are none; `unknown` where the meter
 * ran out
 */
export function complete(
  problem: LengthsProblem,
  duals: Pick<Relaxation, 'worth' | 'rent' | 'bound'>,
  most: number,
  meter: Meter,
): readonly Pattern[] | 'none' | 'unknown' {
  const { kinds } = problem;
  const demand = [...problem.demand];
  const supply = kinds.map((kind) => kind.supply);
  const list = fillingsOf(problem, duals, demand, meter);
  const keyOf = restKeys(problem, demand, supply);
  const limited = limitedKinds(problem);
  // The bound counts on every board that there are only some of; one that stays whole is a loss.
  const idle = (): number =>
    limited.reduce((sum, k) => sum + (duals.rent[k] as number) * (supply[k] as number), 0);
  const hopeless = new Map<number | string, number>();
  const boards: Pattern[] = [];
  const search = (slack: number, from: number): Outcome => {
    let first = from;
    while (first < demand.length && demand[first] === 0) first += 1;
    if (first === demand.length) return slack >= idle() ? 'found' : 'none';
    const key = keyOf();
    if ((hopeless.get(key) ?? Number.NEGATIVE_INFINITY) >= slack) return 'none';
    const fillings: Filling[] = [];
    kinds.forEach((_, kind) => {
      if ((supply[kind] as number) > 0) list(kind, first, slack, fillings);
    });
    // Sorting keeps the order of equals, in which longer parts come first.
    fillings.sort((a, b) => a.loss - b.loss);
    for (const { pattern, loss } of fillings) {
      if (meter.left <= 0) return 'unknown';
      take(pattern, demand, supply, first, 1);
      boards.push(pattern);
      const outcome = search(slack - loss, first);
      if (outcome !== 'none') return outcome;
      boards.pop();
      take(pattern, demand, supply, first, -1);
    }
    if (meter.left <= 0) return 'unknown';
    if (hopeless.size < MOST_KEPT) hopeless.set(key, slack);
    return 'none';
  };
  const outcome = search(most - duals.bound + 1e-6 + Math.abs(most) * 1e-8, 0);
  return outcome === 'found' ? boards : outcome;
}

function take(
  { kind, counts }: Pattern,
  demand: number[],
  supply: number[],
  first: number,
  times: 1 | -1,
): void {
  supply[kind] = (supply[kind] as number) - times;
  for (let i = first; i < counts.length; i += 1) {
    demand[i] = (demand[i] as number) - times * (counts[i] as number);
  }
}

const limitedKinds = ({ kinds }: LengthsProblem): number[] =>
  kinds.flatMap((kind, k) => (Number.isFinite(kind.supply) ? [k] : []));

/** One key for each state of what is wanted and left: a number as long as it stays exact. */
function restKeys(
  problem: LengthsProblem,
  demand: readonly number[],
  supply: readonly number[],
): () => number | string {
  const limited = limitedKinds(problem);
  const bases = [...demand, ...limited.map((k) => supply[k] as number)].map((most) => most + 1);
  const states = bases.reduce((product, base) => product * base, 1);
  if (states >= Number.MAX_SAFE_INTEGER) {
    return () => `${demand.join()};${limited.map((k) => supply[k]).join()}`;
  }
  return () => {
    let key = 0;
    for (let i = 0; i < demand.length; i += 1) {
      key = key * (bases[i] as number) + (demand[i] as number);
    }
    for (let i = 0; i < limited.length; i += 1) {
      const base = bases[demand.length + i] as number;
      key = key * base + (supply[limited[i] as number] as number);
    }
    return key;
  };
}
