import type { Meter } from './knapsack.ts';
import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import type { Relaxation } from './relaxation.ts';

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
  { worth, rent, bound }: Pick<Relaxation, 'worth' | 'rent' | 'bound'>,
  most: number,
  meter: Meter,
): readonly Pattern[] | 'none' | 'unknown' {
  const demand = [...problem.demand];
  const supply = problem.kinds.map((kind) => kind.supply);
  const tolerance = 1e-6 + Math.abs(most) * 1e-8;
  const hopeless = new Map<string, number>();
  const boards: Pattern[] = [];
  const limits = limitedKinds(problem);
  const search = (slack: number, from: number): boolean | 'unknown' => {
    let first = from;
    while (first < demand.length && demand[first] === 0) first += 1;
    if (first === demand.length) return true;
    const key = `${demand.join()};${limits.map((kind) => supply[kind]).join()}`;
    if ((hopeless.get(key) ?? Number.NEGATIVE_INFINITY) >= slack) return false;
    let all: boolean | 'unknown' = false;
    const fillings = candidates(problem, { demand, supply, worth, rent, first, slack, meter });
    for (const { pattern, loss } of fillings) {
      take(pattern, demand, supply, 1);
      boards.push(pattern);
      const found = search(slack - loss, first);
      if (found === true) return true;
      boards.pop();
      take(pattern, demand, supply, -1);
      if (found === 'unknown') all = 'unknown';
      if (meter.left <= 0) return 'unknown';
    }
    if (meter.left <= 0) return 'unknown';
    if (all === false && hopeless.size < MOST_KEPT) hopeless.set(key, slack);
    return all;
  };
  const found = search(most - bound + tolerance, 0);
  if (found === true) return boards;
  return found === false ? 'none' : 'unknown';
}

const MOST_KEPT = 300_000;

const limitedKinds = ({ kinds }: LengthsProblem): number[] =>
  kinds.flatMap(({ supply }, kind) => (Number.isFinite(supply) ? [kind] : []));

function take({ kind, counts }: Pattern, demand: number[], supply: number[], times: 1 | -1): void {
  supply[kind] = (supply[kind] as number) - times;
  for (let i = 0; i < counts.length; i += 1) {
    demand[i] = (demand[i] as number) - times * (counts[i] as number);
  }
}

/** What {@link fillings} looks for. */
export interface Wanted {
  readonly demand: readonly number[];
  readonly supply: readonly number[];
  readonly worth: readonly number[];
  readonly rent: readonly number[];
  /** Every filling holds this size. */
  readonly first: number;
  /** No filling loses more than this. */
  readonly slack: number;
  readonly meter: Meter;
}

export interface Filling {
  readonly pattern: Pattern;
  /** Price and rent of the board less the worth of what it gives. */
  readonly loss: number;
}

function candidates(problem: LengthsProblem, wanted: Wanted): Filling[] {
  const found: Filling[] = [];
  problem.kinds.forEach((_, kind) => {
    if ((wanted.supply[kind] as number) > 0) fillings(problem, kind, wanted, found);
  });
  // Sorting keeps the order of equals, in which longer parts come first.
  return found.sort((a, b) => a.loss - b.loss);
}

/** Adds every filling of one kind of board to which no wanted part can be added. */
export function fillings(
  { sizes, kinds }: LengthsProblem,
  kind: number,
  { demand, worth, rent, first, slack, meter }: Wanted,
  found: Filling[],
): void {
  const { room, price } = kinds[kind] as BoardKind;
  const least = price + (rent[kind] as number) - slack;
  const sizeOf = (i: number) => sizes[i] as number;
  const n = sizes.length;
  // The most worth a step of room can still bring, from each size on.
  const density = new Array<number>(n + 1).fill(0);
  const smallest = new Array<number>(n + 1).fill(Number.POSITIVE_INFINITY);
  for (let i = n - 1; i >= first; i -= 1) {
    const wanted = (demand[i] as number) > 0;
    density[i] = Math.max(density[i + 1] as number, wanted ? (worth[i] as number) / sizeOf(i) : 0);
    smallest[i] = wanted ? sizeOf(i) : (smallest[i + 1] as number);
    if (wanted) smallest[i] = Math.min(sizeOf(i), smallest[i + 1] as number);
  }
  const counts = new Array<number>(n).fill(0);
  const walk = (i: number, left: number, sum: number, roomiest: number): void => {
    meter.left -= 1;
    if (meter.left <= 0) return;
    if (sum + left * (density[i] as number) < least) return;
    if (left < (smallest[i] as number)) {
      // Something that was left out would still fit: another filling holds all this and more.
      if (left >= roomiest) return;
      found.push({
        pattern: { kind, counts: counts.slice() },
        loss: price + (rent[kind] as number) - sum,
      });
      return;
    }
    const size = sizeOf(i);
    const has = demand[i] as number;
    if (has === 0) {
      walk(i + 1, left, sum, roomiest);
      return;
    }
    const fits = Math.min(has, Math.floor(left / size));
    const fewest = i === first ? 1 : 0;
    for (let c = fits; c >= fewest; c -= 1) {
      counts[i] = c;
      const out = c < has ? Math.min(roomiest, size) : roomiest;
      // Sizes shrink, so what is left at the end must be less than every size left out.
      walk(i + 1, left - c * size, sum + c * (worth[i] as number), out);
    }
    counts[i] = 0;
  };
  if (room >= sizeOf(first)) walk(first, room, 0, Number.POSITIVE_INFINITY);
}
