import { fillByWorth } from './greedy.ts';
import type { Meter } from './knapsack.ts';
import type { LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';
import { type Relaxation, type Rest, relax } from './relaxation.ts';
import { cheaper, type Solution, shrunk } from './solution.ts';

/**
 * Whole boards from fractional ones: takes what is whole, or else the board nearest to it, solves
 * for the rest anew, and so on; at every stage the rest is also filled by worth.
 * @param wanted stops at a cost of at most this
 */
export function dive(
  problem: LengthsProblem,
  start: Rest,
  first: Relaxation,
  pool: Pattern[],
  meter: Meter,
  wanted: number,
): Solution | undefined {
  let rest = start;
  let relaxation = first;
  let best: Solution | undefined;
  const boards: Pattern[] = [];
  while (meter.left > 0) {
    const filled = fillByWorth(problem, rest, relaxation.worth, meter);
    if (filled !== undefined) best = cheaper(best, shrunk(problem, [...boards, ...filled]));
    if (best !== undefined && best.cost <= wanted) break;
    const whole = wholeBoards(relaxation);
    if (whole.length === 0) break;
    rest = cut(rest, whole, boards);
    if (rest.demand.every((count) => count === 0)) {
      best = cheaper(best, shrunk(problem, boards));
      break;
    }
    relaxation = relax(problem, rest, pool, meter);
  }
  return best;
}

/** The whole part of every fractional board; where there is none, one of the largest. */
function wholeBoards({ boards }: Relaxation): Pattern[] {
  const whole = boards.flatMap(({ pattern, boards: times }) =>
    new Array<Pattern>(Math.floor(times + 1e-6)).fill(pattern),
  );
  if (whole.length > 0) return whole;
  let most: { readonly pattern: Pattern; readonly boards: number } | undefined;
  for (const one of boards) if (most === undefined || one.boards > most.boards + 1e-9) most = one;
  return most === undefined ? [] : [most.pattern];
}

/**
 * What is left when boards have been cut, which are added to a list. Fractional boards may give more
 * than is wanted; what is too much is not cut.
 */
function cut(rest: Rest, whole: readonly Pattern[], boards: Pattern[]): Rest {
  const demand = [...rest.demand];
  const supply = [...rest.supply];
  for (const { kind, counts } of whole) {
    const wanted = counts.map((count, i) => Math.min(count, demand[i] as number));
    if (wanted.every((count) => count === 0)) continue;
    supply[kind] = (supply[kind] as number) - 1;
    wanted.forEach((count, i) => {
      demand[i] = (demand[i] as number) - count;
    });
    boards.push({ kind, counts: wanted });
  }
  return { demand, supply };
}
