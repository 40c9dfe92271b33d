import { CuttingFault, positiveSize, shown, sizeOrZero } from './fault.ts';
import { commonDivisor, LENGTH_STEP, stepsDown, stepsUp } from './units.ts';

/** Which boards to glue; widths in the caller's unit. */
export interface BoardsPick {
  /** For each board whether it is glued in. */
  readonly picked: readonly boolean[];
  /** Width of the glued panel: widths less what every joint loses. */
  readonly width: number;
  /** How much wider than the target that is. */
  readonly over: number;
  /** How many boards that is. */
  readonly count: number;
  /**
   * Nothing comes closer. False where the widths share no step of at least a 400,000th of the
   * target: then they were compared on a grid of that step, each board rounded down, and `over` may
   * be more than the least by a step for each board.
   */
  readonly exact: boolean;
}

export const MOST_BOARDS = 60;
/** Widths that are told apart. */
const MOST_STATES = 400_000;
const NEVER = 255;

/**
 * Which boards of the rack to glue side by side so that the panel is at least `target` wide with the
 * least to take off; of several such, the fewest boards; then the first in the rack. A board no wider
 * than a joint loses adds nothing and is not taken.
 * @param widths of the boards, any unit, up to 60
 * @param target in the same unit
 * @param jointLoss width that jointing takes away at each of the n − 1 joints, 0 when left out
 * @throws CuttingFault `too-many`, `bad-size`, `not-enough` with the width all boards give
 * Source: subset sum by dynamic programming, a common method; the joints are common practice, no
 * source.
 */
export function pickBoards(widths: readonly number[], target: number, jointLoss = 0): BoardsPick {
  if (widths.length > MOST_BOARDS) {
    throw new CuttingFault(
      'too-many',
      `There are ${widths.length} boards; up to ${MOST_BOARDS} can be chosen from. Leave some out.`,
      { got: widths.length, most: MOST_BOARDS },
    );
  }
  const loss = sizeOrZero(jointLoss, 'The joint loss');
  positiveSize(target, 'The target width');
  widths.forEach((width, i) => {
    positiveSize(width, `The width of board ${i + 1}`);
  });
  const lossSteps = stepsDown(loss, LENGTH_STEP);
  // With n − 1 joints, each board adds its width less one loss, and the target lacks one loss.
  const adds = widths.map((width) => Math.max(0, stepsUp(width, LENGTH_STEP) - lossSteps));
  const need = Math.max(1, stepsUp(target, LENGTH_STEP) - lossSteps);
  checkEnough(widths, adds, { target, need, lossSteps });
  const { step, exact } = stepFor(adds, need);
  const picked = leastOver(
    adds.map((add) => Math.floor(add / step)),
    Math.ceil(need / step),
  );
  // Rounded down, all boards together may miss what they do reach.
  return described(widths, picked ?? adds.map((add) => add > 0), target, loss, exact);
}

function checkEnough(
  widths: readonly number[],
  adds: readonly number[],
  { target, need, lossSteps }: { target: number; need: number; lossSteps: number },
): void {
  const all = adds.reduce((sum, add) => sum + add, 0);
  if (all >= need) return;
  const reach = adds.some((add) => add > 0)
    ? (all + lossSteps) * LENGTH_STEP
    : Math.max(0, ...widths);
  throw new CuttingFault(
    'not-enough',
    `All ${widths.length} boards glued together are ${shown(reach)} wide; the target is ${shown(target)}. Add a board, or make the panel narrower.`,
    { reach, target },
  );
}

/** A step that divides every board, or else the finest that can be told apart. */
function stepFor(adds: readonly number[], need: number): { step: number; exact: boolean } {
  const common = Math.max(1, commonDivisor(adds));
  const states = need + Math.max(0, ...adds);
  if (states / common <= MOST_STATES) return { step: common, exact: true };
  return { step: Math.ceil(states / MOST_STATES), exact: false };
}

/** The fewest boards for every width, from each board on; then the first boards that reach it. */
function leastOver(adds: readonly number[], need: number): boolean[] | undefined {
  const n = adds.length;
  // The least over is less than the widest board, or that board could be left out.
  const states = need + Math.max(0, ...adds) + 1;
  const fewest = Array.from({ length: n + 1 }, () => new Uint8Array(states).fill(NEVER));
  (fewest[n] as Uint8Array)[0] = 0;
  for (let i = n - 1; i >= 0; i -= 1) {
    const later = fewest[i + 1] as Uint8Array;
    const now = fewest[i] as Uint8Array;
    now.set(later);
    const add = adds[i] as number;
    if (add === 0) continue;
    for (let width = add; width < states; width += 1) {
      const count = (later[width - add] as number) + 1;
      if (count < (now[width] as number)) now[width] = count;
    }
  }
  const first = fewest[0] as Uint8Array;
  let width = need;
  while (width < states && first[width] === NEVER) width += 1;
  if (width === states) return undefined;
  return adds.map((add, i) => {
    const later = fewest[i + 1] as Uint8Array;
    const left = (fewest[i] as Uint8Array)[width] as number;
    if (add === 0 || add > width || (later[width - add] as number) + 1 !== left) return false;
    width -= add;
    return true;
  });
}

function described(
  widths: readonly number[],
  picked: readonly boolean[],
  target: number,
  loss: number,
  exact: boolean,
): BoardsPick {
  const chosen = widths.filter((_, i) => picked[i]);
  const sum = chosen.reduce((total, width) => total + width, 0);
  const width = sum - loss * (chosen.length - 1);
  // Noise of adding may put it a hair under the target that it reaches in whole steps.
  return { picked, width, over: Math.max(0, width - target), count: chosen.length, exact };
}
