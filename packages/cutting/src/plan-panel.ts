import { CuttingFault, positiveSize, shown, sizeOrZero } from './fault.ts';
import { LENGTH_STEP, stepsDown, stepsUp } from './units.ts';

/** A rough board; its grain runs along its length. */
export interface RoughBoard {
  /** What it is called in the plan. */
  readonly key: string;
  /** Across the grain, above 0. */
  readonly width: number;
  /** Along the grain, above 0. */
  readonly length: number;
}

/** A panel to be glued up from rough boards; lengths in one unit, the caller's. */
export interface PanelJob {
  /** What there is to choose from, each once. */
  readonly boards: readonly RoughBoard[];
  /** Finished width of the panel, after jointing. */
  readonly panelWidth: number;
  /** Length every board of the panel is cut to. */
  readonly boardLength: number;
  /** The narrowest and the widest board that may be ripped. */
  readonly leastWidth: number;
  /** The widest board that may be ripped, at least `leastWidth`. */
  readonly widestWidth: number;
  /** Width that jointing takes away at each joint of the panel; 0 where left out. */
  readonly jointLoss?: number;
  /** Width of a saw cut, ripping and crosscutting; 0 where left out. */
  readonly kerf?: number;
}

/** A board of the panel where it lies on the rough one. */
export interface PanelBoard {
  /** Before jointing. */
  readonly width: number;
  /** Where on the board its near end and its near edge lie. */
  readonly along: number;
  /** From the near edge of the rough board. */
  readonly across: number;
}

/** A rough board and what is ripped from it. */
export interface RippedBoard {
  /** Counted from 0, among the job's boards. */
  readonly index: number;
  /** As the job calls it. */
  readonly key: string;
  /** In the order of cutting: length by length, from the near edge. */
  readonly panelBoards: readonly PanelBoard[];
}

/** How a panel comes from rough boards; lengths in the job's unit. */
export interface PanelPlan {
  /** The boards that are cut, in the job's order. */
  readonly boards: readonly RippedBoard[];
  /** How many boards the panel is glued up of. */
  readonly count: number;
  /** Width of the glued panel, at least what was wanted. */
  readonly width: number;
  /** How much wider than wanted it is. */
  readonly over: number;
  /** Face of the boards that are cut, length by width. */
  readonly area: number;
  /** No choice of boards has less face. */
  readonly bound: number;
  /** No choice of boards has less face than `area`. */
  readonly proven: boolean;
}

const MOST_BOARDS = 1_000;
const NODES = 200_000;

/** What a rough board gives: boards of the panel side by side in each of its lengths. */
interface Yield {
  readonly index: number;
  readonly area: number;
  /** Steps of panel width, each board less one joint. */
  readonly net: number;
  readonly lengths: number;
  readonly widths: readonly number[];
}

/**
 * Boards of random width and length, crosscut to length and ripped into boards of the panel, so that the
 * panel is reached with the least face of boards touched; of the chosen boards only what
 * is needed, the last one no wider than it has to be.
 *
 * Each length of a board is ripped into as few as give the most width. That is the best any
 * ripping can do, so the choice of boards is exact where the search ends (a rack of some dozens);
 * otherwise `bound` is the face that fractional boards would take, and `proven` is false.
 * @throws CuttingFault `not-enough` with the width all boards give, `bad-size`, `too-many`
 * Source: common practice, no source.
 */
export function planPanel(job: PanelJob): PanelPlan {
  const jointLoss = stepsDown(sizeOrZero(job.jointLoss ?? 0, 'The joint loss'), LENGTH_STEP);
  const panel = stepsUp(positiveSize(job.panelWidth, 'The panel width'), LENGTH_STEP);
  const least = positiveSize(job.leastWidth, 'The narrowest board of the panel');
  const widest = positiveSize(job.widestWidth, 'The widest board of the panel');
  positiveSize(job.boardLength, 'The length of a board of the panel');
  sizeOrZero(job.kerf ?? 0, 'The kerf', 'bad-kerf');
  if (widest < least) {
    throw new CuttingFault(
      'bad-size',
      `The widest board of the panel is ${shown(widest)}, narrower than the narrowest, ${shown(least)}.`,
      { least, widest },
    );
  }
  if (job.boards.length > MOST_BOARDS) {
    throw new CuttingFault(
      'too-many',
      `There are ${job.boards.length} boards; up to ${MOST_BOARDS} can be chosen from.`,
      { got: job.boards.length, most: MOST_BOARDS },
    );
  }
  const yields = job.boards.flatMap((board, index) => yieldOf(job, board, index, jointLoss));
  const need = Math.max(1, panel - jointLoss);
  const reach = yields.reduce((sum, { net }) => sum + net, 0);
  if (reach < need) {
    const gives = yields.length === 0 ? 0 : (reach + jointLoss) * LENGTH_STEP;
    throw new CuttingFault(
      'not-enough',
      `All ${job.boards.length} boards, ripped and glued, make a panel ${shown(gives)} wide; ${shown(job.panelWidth)} is wanted. Add boards, or allow narrower ones in the panel.`,
      { reach: gives, target: job.panelWidth },
    );
  }
  const choice = leastArea(yields, need);
  return cutPlan(job, choice.chosen, need, choice.proven ? undefined : choice.bound);
}

function yieldOf(job: PanelJob, board: RoughBoard, index: number, jointLoss: number): Yield[] {
  const steps = (value: number) => stepsDown(value, LENGTH_STEP);
  const kerf = steps(job.kerf ?? 0);
  const [width, length] = [
    stepsUp(positiveSize(board.width, `The width of board "${board.key}"`), LENGTH_STEP),
    stepsUp(positiveSize(board.length, `The length of board "${board.key}"`), LENGTH_STEP),
  ];
  const [least, widest] = [steps(job.leastWidth), steps(job.widestWidth)];
  const lengths = Math.floor((length + kerf) / (steps(job.boardLength) + kerf));
  const most = Math.floor((width + kerf) / (least + kerf));
  let best: { net: number; widths: number[] } | undefined;
  for (let count = 1; count <= most; count += 1) {
    const room = width - (count - 1) * kerf;
    const net = Math.min(count * widest, room) - count * jointLoss;
    if (net <= (best?.net ?? 0)) continue;
    best = { net, widths: shares(Math.min(count * widest, room), count) };
    // From here on all of the width is used, and more of them only make more joints.
    if (count * widest >= room) break;
  }
  if (best === undefined || lengths === 0) return [];
  const area = board.width * board.length;
  return [{ index, area, net: best.net * lengths, lengths, widths: best.widths }];
}

/** A width in equal whole shares, the first ones a step more where it does not divide. */
function shares(width: number, count: number): number[] {
  const each = Math.floor(width / count);
  return Array.from({ length: count }, (_, i) => (i < width - each * count ? each + 1 : each));
}

/** The least area that gives the net width: branch and bound on boards that give most for theirs. */
function leastArea(
  yields: readonly Yield[],
  need: number,
): { chosen: Yield[]; bound: number; proven: boolean } {
  const order = [...yields].sort(
    (a, b) => a.area / a.net - b.area / b.net || b.net - a.net || a.index - b.index,
  );
  const after = new Array<number>(order.length + 1).fill(0);
  for (let i = order.length - 1; i >= 0; i -= 1) {
    after[i] = (after[i + 1] as number) + (order[i] as Yield).net;
  }
  /** Least area for a width when the last board may be cut anywhere. */
  const fractional = (from: number, width: number): number => {
    let left = width;
    let area = 0;
    for (let i = from; left > 0 && i < order.length; i += 1) {
      const one = order[i] as Yield;
      area += one.area * Math.min(1, left / one.net);
      left -= one.net;
    }
    return left > 0 ? Number.POSITIVE_INFINITY : area;
  };
  let best = Number.POSITIVE_INFINITY;
  let chosen: Yield[] = [];
  let nodes = 0;
  const taken: Yield[] = [];
  const walk = (from: number, left: number, area: number): void => {
    nodes += 1;
    if (left <= 0) {
      if (area < best * (1 - 1e-12)) {
        best = area;
        chosen = [...taken];
      }
      return;
    }
    if (from === order.length || (after[from] as number) < left || nodes > NODES) return;
    if (area + fractional(from, left) >= best * (1 - 1e-12)) return;
    const one = order[from] as Yield;
    taken.push(one);
    walk(from + 1, left - one.net, area + one.area);
    taken.pop();
    walk(from + 1, left, area);
  };
  walk(0, need, 0);
  return { chosen, bound: fractional(0, need), proven: nodes <= NODES };
}

/** Leaves out boards that are not needed and rips the last one to what is. */
function cutPlan(
  job: PanelJob,
  chosen: readonly Yield[],
  need: number,
  bound: number | undefined,
): PanelPlan {
  const steps = (value: number) => stepsDown(value, LENGTH_STEP);
  const jointLoss = steps(job.jointLoss ?? 0);
  const [least, kerf, length] = [
    steps(job.leastWidth),
    steps(job.kerf ?? 0),
    steps(job.boardLength),
  ];
  let over = chosen.reduce((sum, { net }) => sum + net, 0) - need;
  const boards = [...chosen]
    .sort((a, b) => a.index - b.index)
    .map(({ index, lengths, widths }): RippedBoard => {
      const panelBoards: PanelBoard[] = [];
      for (let at = 0; at < lengths; at += 1) {
        let across = 0;
        for (const full of widths) {
          if (full - jointLoss <= over) {
            over -= full - jointLoss;
            continue;
          }
          const less = Math.min(over, full - least);
          over -= less;
          const width = full - less;
          const along = at * (length + kerf) * LENGTH_STEP;
          panelBoards.push({ width: width * LENGTH_STEP, along, across: across * LENGTH_STEP });
          across += width + kerf;
        }
      }
      return { index, key: job.boards[index]?.key ?? '', panelBoards };
    })
    .filter(({ panelBoards }) => panelBoards.length > 0);
  const panelBoards = boards.flatMap((board) => board.panelBoards);
  const sum = panelBoards.reduce((total, { width }) => total + width, 0);
  const width = sum - (job.jointLoss ?? 0) * (panelBoards.length - 1);
  const area = chosen.reduce((total, one) => total + one.area, 0);
  return {
    boards,
    count: panelBoards.length,
    width,
    over: Math.max(0, width - job.panelWidth),
    area,
    bound: bound === undefined ? area : Math.min(area, bound),
    proven: bound === undefined,
  };
}
