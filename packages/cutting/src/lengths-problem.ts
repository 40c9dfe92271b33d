import { CuttingFault, positiveSize, priceOf, shown, sizeOrZero, wholeCount } from './fault.ts';
import type { LengthPart, LengthsJob, StockLength } from './lengths-types.ts';
import { commonDivisor, LENGTH_STEP, MONEY_STEP, stepsDown, stepsUp } from './units.ts';

/** Boards that are alike to the solver. */
export interface BoardKind {
  readonly from: 'stock' | 'rack';
  /** Indexes into the job's stock (one) or rack (all pieces of this length). */
  readonly indexes: readonly number[];
  /** Room for sizes. */
  readonly room: number;
  /** Whole price units. */
  readonly price: number;
  /** Infinity where there are as many as wanted. */
  readonly supply: number;
}

/**
 * A job in whole numbers. A kerf is part of every size and once of every board's room: n parts and
 * the n − 1 kerfs between them fit exactly where n sizes fit, and a kerf after the last part is
 * needed only where something remains.
 */
export interface LengthsProblem {
  /** Distinct sizes, the longest first. */
  readonly sizes: readonly number[];
  readonly demand: readonly number[];
  /** The smallest room first; of the same room, the cheapest first. */
  readonly kinds: readonly BoardKind[];
  /** Money in one price unit. */
  readonly priceUnit: number;
}

/** More pieces than this are refused: no shop cuts them from one list. */
const MOST_PARTS = 10_000;
const MOST_KINDS = 200;

/**
 * Checks a job and puts it in whole numbers.
 * @throws CuttingFault what is wrong and with which part or board
 */
export function lengthsProblem(job: LengthsJob): LengthsProblem {
  const kerf = stepsDown(sizeOrZero(job.kerf ?? 0, 'The kerf', 'bad-kerf'), LENGTH_STEP);
  const demands = demandOf(job.parts);
  const stock = boardsOf(job, kerf);
  checkFits(job, demands, kerf, stock);
  const steps = [...demands.keys()].sort((a, b) => b - a);
  const grid = Math.max(1, commonDivisor(steps.map((length) => length + kerf)));
  const priceGrid = Math.max(1, commonDivisor(stock.map(({ price }) => price)));
  const kinds = stock
    .map((kind) => ({
      ...kind,
      room: Math.floor(kind.room / grid),
      price: kind.price / priceGrid,
    }))
    .sort((a, b) => a.room - b.room || a.price - b.price);
  return {
    sizes: steps.map((length) => (length + kerf) / grid),
    demand: steps.map((length) => demands.get(length) ?? 0),
    kinds: kinds.filter((kind) => !isNeedless(kind, kinds)),
    priceUnit: priceGrid * MONEY_STEP,
  };
}

/** How often each length is wanted, in steps. */
function demandOf(parts: readonly LengthPart[]): Map<number, number> {
  const demands = new Map<number, number>();
  let pieces = 0;
  for (const { key, length, count } of parts) {
    const name = `The length of part "${key}"`;
    const steps = lengthSteps(positiveSize(length, name), name);
    pieces += wholeCount(count, `The count of part "${key}"`);
    if (count > 0) demands.set(steps, (demands.get(steps) ?? 0) + count);
  }
  if (pieces <= MOST_PARTS) return demands;
  throw new CuttingFault(
    'too-many',
    `There are ${pieces} parts; up to ${MOST_PARTS} can be planned at once. Split the list.`,
    { got: pieces, most: MOST_PARTS },
  );
}

/** The steps of a part's length. */
export function lengthSteps(length: number, what = 'The length'): number {
  const steps = stepsDown(length, LENGTH_STEP);
  if (steps > 0) return steps;
  throw new CuttingFault(
    'bad-size',
    `${what} is ${shown(length)}; it takes a number of at least ${LENGTH_STEP}.`,
    { got: length },
  );
}

function boardsOf(job: LengthsJob, kerf: number): BoardKind[] {
  const rack = new Map<number, number[]>();
  for (const [index, { key, length }] of (job.rack ?? []).entries()) {
    const steps = stepsUp(positiveSize(length, `The length of rack piece "${key}"`), LENGTH_STEP);
    rack.set(steps, [...(rack.get(steps) ?? []), index]);
  }
  if (job.stock.length + rack.size === 0) {
    throw new CuttingFault('no-stock', 'There is nothing to cut from. List at least one board.');
  }
  if (job.stock.length + rack.size > MOST_KINDS) {
    throw new CuttingFault(
      'too-many',
      `There are ${job.stock.length + rack.size} lengths to cut from; up to ${MOST_KINDS} are weighed against each other. Leave out the unlikely ones.`,
      { got: job.stock.length + rack.size, most: MOST_KINDS },
    );
  }
  const free = [...rack].map(
    ([steps, indexes]): BoardKind => ({
      from: 'rack',
      indexes,
      room: steps + kerf,
      price: 0,
      supply: indexes.length,
    }),
  );
  return [...free, ...job.stock.map((board, index) => boughtKind(job, board, index, kerf))];
}

function boughtKind(job: LengthsJob, board: StockLength, index: number, kerf: number): BoardKind {
  const name = `stock length ${index + 1}`;
  const length = positiveSize(board.length, `The length of ${name}`);
  const trim = sizeOrZero(job.endTrim ?? 0, 'The end trim', 'bad-trim');
  const usable = length - 2 * trim;
  if (usable <= 0) {
    throw new CuttingFault(
      'bad-trim',
      `The end trim is ${shown(trim)}, which taken off both ends leaves nothing of a board of ${shown(length)}.`,
      { trim, length },
    );
  }
  return {
    from: 'stock',
    indexes: [index],
    room: stepsUp(usable, LENGTH_STEP) + kerf,
    price: stepsDown(priceOf(board.price, `The price of ${name}`), MONEY_STEP),
    supply:
      board.supply === undefined
        ? Number.POSITIVE_INFINITY
        : wholeCount(board.supply, `The supply of ${name}`),
  };
}

function checkFits(
  job: LengthsJob,
  demands: ReadonlyMap<number, number>,
  kerf: number,
  kinds: readonly BoardKind[],
): void {
  const roomiest = Math.max(...kinds.filter(({ supply }) => supply > 0).map(({ room }) => room));
  const long = job.parts.find(
    ({ length, count }) => count > 0 && lengthSteps(length) + kerf > roomiest,
  );
  if (long === undefined || demands.size === 0) return;
  if (roomiest < 0) {
    throw new CuttingFault('no-stock', 'There is nothing to cut from: every supply is 0.');
  }
  const longest = (roomiest - kerf) * LENGTH_STEP;
  const trimmed = (job.endTrim ?? 0) > 0 ? ' after both ends are trimmed' : '';
  throw new CuttingFault(
    'too-long',
    `Part "${long.key}" is ${shown(long.length)} long; the longest board gives ${shown(longest)}${trimmed}. Add a longer board, or make the part shorter.`,
    { part: long.key, length: long.length, longest },
  );
}

/** Whether another board has as much room for as little money, and never runs out. */
function isNeedless(kind: BoardKind, kinds: readonly BoardKind[]): boolean {
  if (kind.supply === 0) return true;
  if (kind.from === 'rack') return false;
  const rank = kinds.indexOf(kind);
  return kinds.some((other, at) => {
    if (other === kind || other.supply !== Number.POSITIVE_INFINITY) return false;
    if (other.room < kind.room || other.price > kind.price) return false;
    return other.room > kind.room || other.price < kind.price || at < rank;
  });
}
