import { type Filling, fillingsOf } from './fillings.ts';
import type { Meter } from './knapsack.ts';
import { type BoardKind, type LengthsProblem, lengthsProblem } from './lengths-problem.ts';
import type { LengthsJob, LengthsPlan } from './lengths-types.ts';
import type { Pattern } from './master.ts';
import { presented } from './plan-lengths.ts';
import type { Relaxation } from './relaxation.ts';
import { cheaper, type Solution, shrunk } from './solution.ts';
import { type Solved, solveLengths } from './solve.ts';

/** More fillings than this make a program that takes minutes. */
const MOST_FILLINGS = 8_000;
/** Steps spent on listing fillings. */
const LISTING = 40_000_000;
/** Branches the integer program may open: a count, so that the same job ends the same way. */
const NODES = 300;

/**
 * The plan of `planLengths` with the effort `proof`, and, where that leaves a gap, an integer program
 * over every filling of a board that a cheaper plan could use (HiGHS, loaded when it is needed). It
 * may take seconds to minutes; run it where it can be stopped. A failure of the program leaves the
 * plan as it was: right, with a bound that holds.
 * @throws CuttingFault as `planLengths` does
 * Source: fillings that lose more than the gap between bound and cost are in no cheaper plan
 * (reduced-cost fixing, a common method); HiGHS proves to its tolerances of 1e-6.
 */
export async function provePlan(job: LengthsJob): Promise<LengthsPlan> {
  const problem = lengthsProblem(job);
  const solved = solveLengths(problem, 'proof');
  return presented(job, problem, await improved(problem, solved));
}

async function improved(
  problem: LengthsProblem,
  solved: Solved,
): Promise<Pick<Solved, 'solution' | 'bound'>> {
  let { solution, bound } = solved;
  const { relaxation, ladder } = solved;
  while (relaxation !== undefined && solution.cost > bound) {
    const most = ladder.down(solution.cost);
    const fillings = allFillings(problem, relaxation, most);
    if (fillings === undefined) break;
    const found = await solveProgram(problem, fillings, most);
    if (found === 'unknown') break;
    if (found === 'none') bound = solution.cost;
    else {
      const better = cheaper(solution, found);
      if (better === undefined || better.cost >= solution.cost) break;
      // The program was solved to its optimum: nothing is cheaper than what it found.
      solution = better;
      bound = better.cost;
    }
  }
  return { solution, bound };
}

/** Every filling that a plan of at most this cost can use; undefined where there are too many. */
function allFillings(
  problem: LengthsProblem,
  relaxation: Relaxation,
  most: number,
): Pattern[] | undefined {
  const { sizes, kinds, demand } = problem;
  const meter: Meter = { left: LISTING };
  const list = fillingsOf(problem, relaxation, demand, meter);
  const slack = most - relaxation.bound + 1e-6 + Math.abs(most) * 1e-8;
  const found: Filling[] = [];
  for (let first = 0; first < sizes.length; first += 1) {
    for (let kind = 0; kind < kinds.length; kind += 1) list(kind, first, slack, found);
    if (meter.left <= 0 || found.length > MOST_FILLINGS) return undefined;
  }
  return found.map(({ pattern }) => pattern);
}

interface ProgramResult {
  readonly Status: string;
  readonly Columns: Readonly<Record<string, { readonly Primal?: number }>>;
}

type Loader = () => Promise<{
  solve(text: string, options: Readonly<Record<string, number | string>>): ProgramResult;
}>;

async function solveProgram(
  problem: LengthsProblem,
  patterns: readonly Pattern[],
  most: number,
): Promise<Solution | 'none' | 'unknown'> {
  if (patterns.length === 0) return 'none';
  // Its types are declared for the other kind of module and do not see the default export.
  const { default: load } = (await import('highs')) as unknown as { readonly default: Loader };
  let columns: ProgramResult['Columns'];
  try {
    const highs = await load();
    const result = highs.solve(programText(problem, patterns, most), {
      mip_rel_gap: 0,
      mip_abs_gap: 0.5,
      mip_max_nodes: NODES,
      parallel: 'off',
    });
    if (result.Status === 'Infeasible') return 'none';
    if (result.Status !== 'Optimal') return 'unknown';
    columns = result.Columns;
  } catch {
    // Its memory has a limit of its own; what was planned without it still stands.
    return 'unknown';
  }
  const boards = patterns.flatMap((pattern, i) =>
    new Array<Pattern>(Math.round(columns[`x${i}`]?.Primal ?? 0)).fill(pattern),
  );
  return checked(problem, boards) ?? 'unknown';
}

/** The boards without what is too much; undefined where they do not give every part. */
function checked(problem: LengthsProblem, boards: readonly Pattern[]): Solution | undefined {
  const left = [...problem.demand];
  const supply = problem.kinds.map((kind) => kind.supply);
  const cut = boards.map(({ kind, counts }) => {
    supply[kind] = (supply[kind] as number) - 1;
    const wanted = counts.map((count, i) => Math.min(count, left[i] as number));
    wanted.forEach((count, i) => {
      left[i] = (left[i] as number) - count;
    });
    return { kind, counts: wanted };
  });
  if (left.some((count) => count > 0) || supply.some((count) => count < 0)) return undefined;
  return shrunk(problem, cut);
}

/** The integer program in the CPLEX LP format: least cost, every part, no board more than there is. */
function programText(
  { kinds, demand }: LengthsProblem,
  patterns: readonly Pattern[],
  most: number,
): string {
  const price = ({ kind }: Pattern) => (kinds[kind] as BoardKind).price;
  const cost = sumText(patterns.map((pattern, i) => [price(pattern), i]));
  const rows = demand.map(
    (count, size) =>
      ` d${size}: ${sumText(patterns.map(({ counts }, i) => [counts[size] as number, i]))} >= ${count}`,
  );
  const limits = kinds.flatMap(({ supply }, kind) => {
    if (!Number.isFinite(supply)) return [];
    const sum = sumText(patterns.map((pattern, i) => [pattern.kind === kind ? 1 : 0, i]));
    return sum === '' ? [] : [` s${kind}: ${sum} <= ${supply}`];
  });
  const names = patterns.map((_, i) => ` x${i}`);
  return [
    'Minimize',
    ` cost: ${cost === '' ? '0 x0' : cost}`,
    'Subject To',
    ...rows,
    ...limits,
    ...(cost === '' ? [] : [` most: ${cost} <= ${most}`]),
    'General',
    ...names,
    'End',
    '',
  ].join('\n');
}

/** Terms a line: readers of the format limit the length of a line. */
const TERMS = 16;

function sumText(terms: readonly (readonly [factor: number, column: number])[]): string {
  return terms
    .filter(([factor]) => factor !== 0)
    .map(([factor, column], n) => `${n > 0 && n % TERMS === 0 ? '\n  ' : ''}+ ${factor} x${column}`)
    .join(' ');
}
