import { answered } from './further.ts';
import { type LengthsProblem, lengthSteps, lengthsProblem } from './lengths-problem.ts';
import type {
  LengthsJob,
  LengthsPlan,
  LengthTotals,
  PlacedPart,
  PlannedBoard,
} from './lengths-types.ts';
import type { Pattern } from './master.ts';
import { remembered } from './remember.ts';
import { type Solved, solveLengths } from './solve.ts';
import { tidied } from './tidy.ts';
import { LENGTH_STEP } from './units.ts';

/** Plans that are kept: a workbook asks for the same one from several cells. */
const KEPT = 500;

/**
 * The least expensive boards that give every part, and how each is cut.
 *
 * A board of n parts and n − 1 kerfs is used up exactly; a kerf after the last part is needed only
 * where something remains, and where less than a kerf remains, the cut turns it to sawdust. The end
 * trim comes once off each end of a bought board, its own cut included. Of plans that cost the same,
 * the one with fewer bought boards is taken, then the one that takes more from the rack, then the one
 * with the longer offcut, as far as the search meets them. The same job gives the same plan, and the
 * order of parts and stock has no influence on the cost. A cell's job that was looked for further
 * (`keepFurther`) gives what was found.
 * @param job lengths in any one unit, prices in any one currency
 * @returns the plan, in the same unit; kept, so asking again costs nothing
 * @throws CuttingFault with a sentence that names the part or board
 * Source: kerf and trim are common practice, no source; methods are named where they stand.
 */
export function planLengths(job: LengthsJob): LengthsPlan {
  return job.effort === 'proof' ? planned(job) : answered(job, planned);
}

const planned = remembered((job: LengthsJob): LengthsPlan => {
  const problem = lengthsProblem(job);
  return presented(job, problem, solveLengths(problem, job.effort ?? 'cell'));
}, KEPT);

/** Puts a solution in the job's own words and unit. */
export function presented(
  job: LengthsJob,
  problem: LengthsProblem,
  { solution, bound: units }: Pick<Solved, 'solution' | 'bound'>,
): LengthsPlan {
  const waiting = waitingParts(job, problem);
  const counts = job.stock.map(() => 0);
  const rack = problem.kinds.map((kind) => [...kind.indexes].reverse());
  const boards = tidied(problem, solution).boards.map((pattern) => {
    const kind = problem.kinds[pattern.kind];
    const index = (kind?.from === 'rack' ? rack[pattern.kind]?.pop() : kind?.indexes[0]) ?? 0;
    const board = boardOf(job, kind?.from ?? 'stock', index, pattern, waiting);
    if (board.from === 'stock') counts[index] = (counts[index] ?? 0) + 1;
    return board;
  });
  const cost = counts.reduce((sum, count, i) => sum + count * (job.stock[i]?.price ?? 0), 0);
  const proven = solution.cost <= units;
  const exact = job.stock.every(({ price }) => Number.isInteger(steps(price)));
  // Prices that are no whole ten-thousandths were rounded down for the bound; it stays below.
  const bound = proven && exact ? cost : Math.min(cost, units * problem.priceUnit);
  const totals = totalsOf(boards);
  return { boards, cost, bound, gap: cost - bound, proven, counts, bought: sumOf(counts), totals };
}

const steps = (price: number): number => Number((price * 10_000).toPrecision(12));
const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0);

type Waiting = { readonly key: string; readonly length: number; left: number }[];

/** The parts of each size, in the job's order. */
function waitingParts(job: LengthsJob, problem: LengthsProblem): Waiting[] {
  const lengths = [...new Set(job.parts.filter(({ count }) => count > 0).map(stepsOf))];
  lengths.sort((a, b) => b - a);
  const rank = new Map(lengths.map((length, i) => [length, i]));
  const waiting: Waiting[] = problem.sizes.map(() => []);
  for (const part of job.parts) {
    if (part.count === 0) continue;
    const { key, length, count } = part;
    waiting[rank.get(stepsOf(part)) ?? 0]?.push({ key, length, left: count });
  }
  return waiting;
}

const stepsOf = ({ length }: { readonly length: number }): number => lengthSteps(length);

/** Less than this is noise of adding lengths. */
const NOTHING = LENGTH_STEP * 10;

function boardOf(
  job: LengthsJob,
  from: 'stock' | 'rack',
  index: number,
  pattern: Pattern,
  waiting: readonly Waiting[],
): PlannedBoard {
  const kerf = job.kerf ?? 0;
  const ends = from === 'stock' ? (job.endTrim ?? 0) : 0;
  const length = (from === 'stock' ? job.stock[index]?.length : job.rack?.[index]?.length) ?? 0;
  const price = from === 'stock' ? (job.stock[index]?.price ?? 0) : 0;
  const parts: PlacedPart[] = [];
  let end = ends;
  pattern.counts.forEach((count, size) => {
    for (let n = 0; n < count; n += 1) {
      const part = next(waiting[size] ?? []);
      const start = parts.length === 0 ? end : end + kerf;
      parts.push({ key: part.key, length: part.length, start });
      end = start + part.length;
    }
  });
  const rest = length - ends - end;
  const remains = rest > NOTHING;
  const sawdust = (parts.length - 1) * kerf + (remains ? Math.min(kerf, rest) : 0);
  const offcut = remains && rest - kerf > NOTHING ? rest - kerf : 0;
  const cuts = parts.length - 1 + (remains && kerf > 0 ? 1 : 0);
  return { from, index, length, price, parts, cuts, sawdust, trim: 2 * ends, offcut };
}

function next(waiting: Waiting): { readonly key: string; readonly length: number } {
  const part = waiting.find(({ left }) => left > 0);
  if (part === undefined) throw new Error('A plan gives a part more often than it is wanted.');
  part.left -= 1;
  return part;
}

function totalsOf(boards: readonly PlannedBoard[]): LengthTotals {
  const totals = { bought: 0, parts: 0, sawdust: 0, trim: 0, offcuts: 0 };
  for (const board of boards) {
    if (board.from === 'rack') continue;
    totals.bought += board.length;
    totals.parts += sumOf(board.parts.map(({ length }) => length));
    totals.sawdust += board.sawdust;
    totals.trim += board.trim;
    totals.offcuts += board.offcut;
  }
  const share = (part: number): number => (totals.bought === 0 ? 0 : part / totals.bought);
  return {
    ...totals,
    waste: share(totals.bought - totals.parts),
    offcutShare: share(totals.offcuts),
  };
}
