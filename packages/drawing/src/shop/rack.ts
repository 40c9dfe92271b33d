import { CuttingFault, planPanel } from '@kerfbook/cutting';
import { materialKind } from '@kerfbook/wood';
import type { CutItem } from './cut-list.ts';
import type { StockItem } from './stock.ts';

/** The boards of one wide part, ripped from boards at hand, each as wide and long as it happens to be; mm. */
export interface RackPlan {
  /** The line of the cut list: the boards of one wide part. */
  readonly item: CutItem;
  /** The boards that are used, each with what is ripped from it. */
  readonly boards: readonly {
    readonly stock: StockItem;
    /** In the order in which they are cut: crosscut to length, then ripped. */
    readonly panelBoards: readonly {
      readonly width: number;
      readonly along: number;
      readonly across: number;
    }[];
  }[];
  /** How many boards the panel is glued up of. */
  readonly count: number;
  /** Of the panel after jointing, at least what is wanted. */
  readonly width: number;
  /** No choice of these boards has less face. */
  readonly proven: boolean;
}

/** What a choice from the rack reckons with; mm. */
export interface RackOptions {
  /** Width of a saw cut. */
  readonly kerf: number;
  /** What each glue joint takes off. */
  readonly jointLoss: number;
  /** The widest board of the panel that stays flat; what the parts table says where left out. */
  readonly widest?: number;
}

/** Narrower than this share of what the parts table says, a board is not worth its joint. */
const LEAST_SHARE = 0.4;
/** Boards of one row that are looked at, at the most. */
const MOST_ALIKE = 60;
const NEAR = 1e-3;

/**
 * Which boards at hand a wide part is ripped from, and how each is cut; undefined where the rack
 * has none that fit or where all of them do not reach. Boards are told apart by their own widths, so
 * that a rack of random widths is used as it is.
 */
export function rackPlan(
  item: CutItem,
  stock: readonly StockItem[],
  { kerf, jointLoss, widest = item.width }: RackOptions,
): RackPlan | undefined {
  const { becomes } = item;
  if (becomes === undefined) return undefined;
  const rack = stock.flatMap((board) =>
    fits(board, item)
      ? Array.from({ length: Math.min(board.atHand ?? 0, MOST_ALIKE) }, () => board)
      : [],
  );
  if (rack.length === 0) return undefined;
  try {
    const plan = planPanel({
      boards: rack.map(({ width, length }, i) => ({ key: String(i), width, length })),
      panelWidth: becomes.width,
      boardLength: item.length,
      leastWidth: Math.min(widest, item.width * LEAST_SHARE),
      widestWidth: Math.max(widest, item.width * LEAST_SHARE),
      jointLoss,
      kerf,
    });
    return {
      item,
      boards: plan.boards.map(({ index, panelBoards }) => ({
        stock: rack[index] as StockItem,
        panelBoards,
      })),
      count: plan.count,
      width: plan.width,
      proven: plan.proven,
    };
  } catch (error) {
    // The rack does not reach: what is missing is bought, as the buying plan says.
    if (error instanceof CuttingFault && error.code === 'not-enough') return undefined;
    throw error;
  }
}

const fits = (board: StockItem, item: CutItem): boolean =>
  (board.atHand ?? 0) > 0 &&
  (board.material === '' ||
    item.material === '' ||
    materialKind(board.material) === materialKind(item.material)) &&
  board.thickness > item.thickness - NEAR &&
  board.length > item.length - NEAR;
