import { CuttingFault } from './fault.ts';
import { gcd } from './knapsack.ts';

/** Boards of a rack that are looked at, at the most. */
export const MOST_BOARDS = 60;
/** Widths are compared to this share of a unit. */
const TICKS = 10_000;
/** Places of the table of sums, at the most: a 42 in panel to 0.0003 in. */
const MOST_PLACES = 200_000;
/** More boards than there can be. */
const MANY = 255;

export interface StavesPicked {
  /** Which of the boards are glued. */
  readonly picked: readonly boolean[];
  /** Width of the panel when each joint has taken its share. */
  readonly width: number;
}

/**
 * Which boards of a rack to glue edge to edge so that the panel is at least `target` wide with the least
 * left over; on a tie the fewest boards, then those that stand first. Exact.
 * @param widths boards, any unit, above 0; at most 60
 * @param target width of the panel, same unit
 * @param jointLoss what each joint takes, 0 when left out
 * @returns undefined where all boards together are too narrow
 * @throws CuttingFault `range`
 */
export function pickStaves(
  widths: readonly number[],
  target: number,
  jointLoss = 0,
): StavesPicked | undefined {
  check(widths, target, jointLoss);
  const loss = Math.round(jointLoss * TICKS);
  // Each board brings its width less a joint; the first joint is not there.
  const gains = widths.map((width) => Math.round(width * TICKS) - loss);
  const goal = Math.round(target * TICKS) - loss;
  const found = leastOver(gains, goal);
  if (found === undefined) return undefined;
  const picked = widths.map((_, i) => found.has(i));
  const count = found.size;
  const sum = widths.reduce((total, width, i) => total + (found.has(i) ? width : 0), 0);
  return { picked, width: sum - jointLoss * Math.max(0, count - 1) };
}

/** Indices of the gains that add up to the goal or least above it. */
function leastOver(gains: readonly number[], goal: number): ReadonlySet<number> | undefined {
  const boards = gains.map((gain, i) => ({ gain, i })).filter(({ gain }) => gain > 0);
  const all = boards.reduce((sum, { gain }) => sum + gain, 0);
  if (all < goal) return undefined;
  const widest = Math.max(...boards.map(({ gain }) => gain));
  const top = Math.min(all, Math.max(0, goal) + widest);
  const exact = boards.reduce((sum, { gain }) => gcd(sum, gain), 0);
  // Where widths have no unit in common the places are finer than any saw, and widths rounded down to
  // them, so that the panel is never too narrow.
  const unit = Math.max(exact, Math.ceil(top / MOST_PLACES));
  const places = Math.floor(top / unit);
  const size = places + 1;
  const fewest = new Uint8Array(size).fill(MANY);
  fewest[0] = 0;
  const taken = new Uint8Array(size * boards.length);
  // Last board first: where two choices are alike, the board that stands first is taken.
  for (let b = boards.length - 1; b >= 0; b -= 1) {
    const step = Math.floor((boards[b]?.gain ?? 0) / unit);
    for (let at = places; at >= step; at -= 1) {
      const count = (fewest[at - step] as number) + 1;
      if (count > (fewest[at] as number) || count >= MANY) continue;
      fewest[at] = count;
      taken[b * size + at] = 1;
    }
  }
  let at = Math.max(0, Math.ceil(goal / unit));
  while (at < size && (fewest[at] as number) >= MANY) at += 1;
  if (at >= size) return undefined;
  const picked = new Set<number>();
  for (const [b, { gain, i }] of boards.entries()) {
    if (taken[b * size + at] !== 1) continue;
    picked.add(i);
    at -= Math.floor(gain / unit);
  }
  return picked;
}

function check(widths: readonly number[], target: number, jointLoss: number): void {
  const bad = (says: string): never => {
    throw new CuttingFault('range', says);
  };
  if (widths.length > MOST_BOARDS) {
    bad(`That is ${widths.length} boards; up to ${MOST_BOARDS} are looked at. Leave some out.`);
  }
  for (const width of widths) {
    if (!(width > 0 && Number.isFinite(width)))
      bad(`A board is ${width} wide; it takes a width above 0.`);
  }
  if (!(target > 0 && Number.isFinite(target)))
    bad(`The panel is to be ${target} wide; it takes a width above 0.`);
  if (!(jointLoss >= 0 && Number.isFinite(jointLoss)))
    bad(`A joint takes ${jointLoss}; it takes 0 or more.`);
}
