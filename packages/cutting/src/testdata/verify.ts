import type { LengthsJob, LengthsPlan } from '../lengths-types.ts';

/** Rounding of a part to whole steps, and noise of adding, may be this much over. */
const TOLERANCE = 1e-5;

/**
 * Everything that is wrong with a plan, found by adding up every board anew from the job alone.
 */
export function faultsOf(job: LengthsJob, plan: LengthsPlan): string[] {
  const faults: string[] = [];
  const kerf = job.kerf ?? 0;
  const wanted = new Map<string, number>();
  for (const { key, length, count } of job.parts) {
    wanted.set(`${key} ${length}`, (wanted.get(`${key} ${length}`) ?? 0) + count);
  }
  const used = { stock: job.stock.map(() => 0), rack: (job.rack ?? []).map(() => 0) };
  let cost = 0;
  for (const board of plan.boards) {
    const trim = board.from === 'stock' ? (job.endTrim ?? 0) : 0;
    const source = board.from === 'stock' ? job.stock[board.index] : job.rack?.[board.index];
    if (source === undefined || source.length !== board.length) faults.push('a board of no stock');
    if (board.parts.length === 0) faults.push('a board that gives nothing');
    const uses = used[board.from];
    uses[board.index] = (uses[board.index] ?? 0) + 1;
    cost += board.from === 'stock' ? (job.stock[board.index]?.price ?? Number.NaN) : 0;
    let end = trim;
    board.parts.forEach((part, i) => {
      const name = `${part.key} ${part.length}`;
      wanted.set(name, (wanted.get(name) ?? 0) - 1);
      const start = i === 0 ? trim : end + kerf;
      if (Math.abs(part.start - start) > TOLERANCE) faults.push(`${name} begins elsewhere`);
      end = start + part.length;
    });
    if (end > board.length - trim + TOLERANCE) faults.push('parts beyond the end of a board');
    const rest = Math.max(0, board.length - trim - end);
    if (Math.abs(board.offcut - Math.max(0, rest - kerf)) > TOLERANCE) faults.push('offcut');
    const parts = board.parts.reduce((sum, { length }) => sum + length, 0);
    const sum = parts + board.sawdust + board.trim + board.offcut;
    if (Math.abs(sum - board.length) > TOLERANCE)
      faults.push('the lengths of a board do not add up');
  }
  for (const [name, left] of wanted) if (left !== 0) faults.push(`${name}: ${left} left`);
  used.stock.forEach((count, i) => {
    if (count > (job.stock[i]?.supply ?? Number.POSITIVE_INFINITY)) faults.push('more than supply');
    if (count !== plan.counts[i]) faults.push('a count');
  });
  if (used.rack.some((count) => count > 1)) faults.push('a piece of the rack twice');
  if (Math.abs(cost - plan.cost) > 1e-9 * (1 + cost)) faults.push('the cost');
  if (plan.bound > plan.cost) faults.push('a bound above the cost');
  if (Math.abs(plan.gap - (plan.cost - plan.bound)) > 1e-9) faults.push('the gap');
  if (plan.proven && plan.gap > 1e-4 * (1 + plan.boards.length)) faults.push('proven with a gap');
  return faults;
}

/**
 * The least cost of a small job in whole numbers, by trying every part on every board that is open
 * and on a new one of every kind: nothing of the planner is used.
 */
export function leastCost(job: LengthsJob): number {
  const kerf = job.kerf ?? 0;
  const parts = job.parts
    .flatMap(({ length, count }) => new Array<number>(count).fill(length))
    .sort((a, b) => b - a);
  const supply = job.stock.map((stock) => stock.supply ?? Number.POSITIVE_INFINITY);
  const rooms = job.stock.map(({ length }) => length - 2 * (job.endTrim ?? 0) + kerf);
  const open = (job.rack ?? []).map(({ length }) => length + kerf);
  let best = Number.POSITIVE_INFINITY;
  const place = (at: number, cost: number): void => {
    if (cost >= best) return;
    const part = parts[at];
    if (part === undefined) {
      best = cost;
      return;
    }
    const tried = new Set<number>();
    for (let board = 0; board < open.length; board += 1) {
      const left = open[board] as number;
      if (left < part + kerf || tried.has(left)) continue;
      tried.add(left);
      open[board] = left - part - kerf;
      place(at + 1, cost);
      open[board] = left;
    }
    job.stock.forEach(({ price }, i) => {
      if ((supply[i] as number) < 1 || (rooms[i] as number) < part + kerf) return;
      supply[i] = (supply[i] as number) - 1;
      open.push((rooms[i] as number) - part - kerf);
      place(at + 1, cost + price);
      open.pop();
      supply[i] = (supply[i] as number) + 1;
    });
  };
  place(0, 0);
  return best;
}
