import type { LengthPlan, LengthRequest } from '../lengths.ts';

/** What is wrong with a plan, worked out anew from its boards; empty when it can be sawn so. */
export function troubleWith(plan: LengthPlan, request: LengthRequest): string[] {
  const { parts, stock, kerf = 0, endTrim = 0 } = request;
  const trouble: string[] = [];
  const made = parts.map(() => 0);
  const used = stock.map(() => 0);
  for (const [b, board] of plan.boards.entries()) {
    const bought = stock[board.stock];
    if (bought?.length !== board.length || bought.price !== board.price) {
      trouble.push(`board ${b} is not of the stock`);
    }
    used[board.stock] = (used[board.stock] ?? 0) + 1;
    let end = endTrim - kerf;
    for (const { part, length, at } of board.pieces) {
      if (parts[part]?.length !== length) trouble.push(`board ${b} cuts a piece of another length`);
      if (at < end + kerf - 1e-6) trouble.push(`board ${b}: a piece begins inside a saw cut`);
      end = at + length;
      made[part] = (made[part] ?? 0) + 1;
    }
    if (end > board.length + 1e-6) trouble.push(`board ${b} is too short for its pieces`);
    const offcut = Math.max(0, board.length - end - kerf);
    if (Math.abs(offcut - board.offcut) > 1e-3) trouble.push(`board ${b}: its offcut is ${offcut}`);
  }
  for (const [i, { count }] of parts.entries()) {
    if (made[i] !== count) trouble.push(`part ${i}: ${made[i]} of ${count} are cut`);
  }
  for (const [i, { supply = Number.POSITIVE_INFINITY }] of stock.entries()) {
    if ((used[i] ?? 0) > supply) trouble.push(`stock ${i}: more boards than there are`);
    if (plan.bought[i] !== used[i]) trouble.push(`stock ${i}: counted wrongly`);
  }
  const cost = plan.boards.reduce((sum, { price }) => sum + price, 0);
  if (Math.abs(cost - plan.cost) > 1e-6) trouble.push(`it costs ${cost}`);
  return trouble;
}

/** The least cost, by trying every way: for a handful of pieces only. */
export function leastCost({ parts, stock, kerf = 0, endTrim = 0 }: LengthRequest): number {
  const pieces = parts.flatMap(({ length, count }) => Array.from({ length: count }, () => length));
  const rooms: { room: number; fresh: boolean }[] = [];
  const left = stock.map(({ supply = Number.POSITIVE_INFINITY }) => supply);
  let best = Number.POSITIVE_INFINITY;
  const go = (at: number, cost: number): void => {
    if (cost >= best) return;
    const piece = pieces[at];
    if (piece === undefined) {
      best = cost;
      return;
    }
    for (const board of rooms) {
      const needs = board.fresh ? piece : piece + kerf;
      if (board.room < needs - 1e-9) continue;
      const was = { ...board };
      board.room -= needs;
      board.fresh = false;
      go(at + 1, cost);
      Object.assign(board, was);
    }
    for (const [i, { length, price }] of stock.entries()) {
      if ((left[i] ?? 0) < 1 || length - endTrim < piece - 1e-9) continue;
      left[i] = (left[i] ?? 0) - 1;
      rooms.push({ room: length - endTrim - piece, fresh: false });
      go(at + 1, cost + price);
      rooms.pop();
      left[i] = (left[i] ?? 0) + 1;
    }
  };
  go(0, 0);
  return best;
}
