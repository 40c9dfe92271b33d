import { type CostLadder, costLadder, quickBound } from './bounds.ts';
import { complete } from './complete.ts';
import { dive } from './dive.ts';
import { CuttingFault } from './fault.ts';
import { fillByWorth, fitDecreasing, wholeRest } from './greedy.ts';
import type { Meter } from './knapsack.ts';
import type { LengthsProblem } from './lengths-problem.ts';
import type { Effort } from './lengths-types.ts';
import type { Pattern } from './master.ts';
import { narrowed } from './purchases.ts';
import { type Relaxation, relax, type Witness } from './relaxation.ts';
import { cheaper, type Solution, shrunk, taken } from './solution.ts';

/** A plan in whole numbers and what is proven about it. */
export interface Solved {
  readonly solution: Solution;
  /** No plan costs less: price units, one of the costs that boards can come to. */
  readonly bound: number;
  readonly relaxation: Relaxation | undefined;
  readonly ladder: CostLadder;
}

/** Steps of work: about 100 to 300 of them in a microsecond. */
const WORK: Record<Effort, { linear: number; narrow: number; search: number }> = {
  cell: { linear: 1_500_000, narrow: 300_000, search: 160_000 },
  proof: { linear: 800_000_000, narrow: 400_000_000, search: 12_000_000 },
};
/** Lists of more different sizes than this get no linear program. */
const MOST_SIZES: Record<Effort, number> = { cell: 60, proof: 400 };

/** @throws CuttingFault `supply-short` where no plan within the supplies is found */
export function solveLengths(problem: LengthsProblem, effort: Effort): Solved {
  const { sizes, demand } = problem;
  const whole = wholeRest(problem);
  const meter: Meter = { left: WORK[effort].linear };
  let best = fitDecreasing(problem, { left: 0 });
  const quick = quickBound(problem);
  // The fullest boards first: where parts fill boards to the last kerf, that finds most of them.
  if (sizes.length <= MOST_SIZES.proof || best === undefined) {
    best = cheaper(best, worthwhile(problem, fillByWorth(problem, whole, sizes, meter)));
  }
  if (best !== undefined && sizes.length > MOST_SIZES[effort]) {
    const ladder = costLadder(problem, best.cost);
    return { solution: best, bound: ladder.up(quick), relaxation: undefined, ladder };
  }
  if (best !== undefined && taken(sizes, demand) === 0) {
    const ladder = costLadder(problem, 0);
    return { solution: best, bound: 0, relaxation: undefined, ladder };
  }
  const pool: Pattern[] = best === undefined ? [] : [...best.boards];
  let ladder = costLadder(problem, best?.cost ?? -1);
  let bound = ladder.up(quick);
  if (best !== undefined && best.cost <= bound) {
    return { solution: best, bound, relaxation: undefined, ladder };
  }
  const known = best;
  const witnesses: Witness[] = [];
  const relaxation = relax(
    problem,
    whole,
    pool,
    meter,
    (now) => known !== undefined && ladder.up(now) >= known.cost,
    witnesses,
  );
  bound = Math.max(bound, ladder.up(relaxation.bound));
  if (best === undefined || best.cost > bound) {
    best = cheaper(best, dive(problem, whole, relaxation, pool, meter, bound));
  }
  best ??= anyPlan(problem, relaxation, WORK[effort].search);
  if (known === undefined) {
    ladder = costLadder(problem, best.cost);
    bound = Math.max(bound, ladder.up(relaxation.bound));
  }
  if (problem.kinds.length > 1 && best.cost > bound) {
    const had = { solution: best, bound, witnesses, pool };
    const narrow: Meter = { left: WORK[effort].narrow };
    ({ solution: best, bound } = narrowed(problem, had, narrow, WORK[effort].search / 4));
  }
  return searched(problem, { solution: best, bound, relaxation, ladder }, WORK[effort].search);
}

const worthwhile = (problem: LengthsProblem, boards: readonly Pattern[] | undefined) =>
  boards === undefined ? undefined : shrunk(problem, boards);

/**
 * Closes the gap from both ends: asks for plans close to the bound first, whose search is short; a
 * refusal raises the bound, a find lowers the cost.
 */
function searched(problem: LengthsProblem, solved: Solved, work: number): Solved {
  let { solution, bound } = solved;
  const { relaxation, ladder } = solved;
  if (relaxation === undefined) return solved;
  const meter: Meter = { left: work };
  let reach = bound;
  while (solution.cost > bound && meter.left > 0) {
    const most = Math.min(Math.max(reach, bound), ladder.down(solution.cost));
    const spell: Meter = { left: Math.min(meter.left, Math.max(1000, Math.floor(work / 4))) };
    const before = spell.left;
    const found = complete(problem, relaxation, most, spell);
    meter.left -= before - spell.left;
    if (found === 'none') {
      bound = Math.max(bound, Math.min(solution.cost, ladder.up(most + 1)));
    } else if (found === 'unknown') {
      // A wider search would take longer still, but may stumble on something.
      if (most >= ladder.down(solution.cost)) break;
    } else {
      solution = cheaper(solution, shrunk(problem, found)) ?? solution;
    }
    reach = bound + Math.max(most - bound, (solution.cost - bound) / 8) * 2;
    reach = Math.floor(reach);
  }
  return { ...solved, solution, bound };
}

/**
 * Where supplies are so tight that no quick method gets through: any plan at all, by search.
 * @throws CuttingFault saying whether there is none or none was found
 */
function anyPlan(problem: LengthsProblem, relaxation: Relaxation, work: number): Solution {
  const { sizes, demand, kinds } = problem;
  const need = taken(sizes, demand);
  const has = kinds.reduce((sum, { room, supply }) => sum + room * supply, 0);
  if (need > has) {
    throw new CuttingFault(
      'supply-short',
      'The boards listed are together shorter than the parts. Raise a supply, or add a length.',
    );
  }
  const pieces = demand.reduce((sum, count) => sum + count, 0);
  const most = kinds.reduce((sum, { price, supply }) => sum + price * Math.min(supply, pieces), 0);
  const found = complete(problem, relaxation, most, { left: work * 10 });
  if (found === 'none') {
    throw new CuttingFault(
      'supply-short',
      'The boards listed cannot give every part, however they are cut. Raise a supply, or add a length.',
    );
  }
  if (found === 'unknown') {
    throw new CuttingFault(
      'supply-short',
      'No plan was found that gets every part out of the boards listed; there may be one. Raise a supply, or add a length.',
    );
  }
  return shrunk(problem, found);
}
