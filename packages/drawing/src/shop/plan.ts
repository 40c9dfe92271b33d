import {
  type CutBoard,
  type CutPanel,
  type CutPiece,
  type CuttingFault,
  holds,
  type PiecesPlan,
  planPieces,
  type Section,
} from '@kerfbook/cutting';
import { materialKind } from '@kerfbook/wood';
import type { PartProblem } from '../parts-source.ts';
import type { CutItem } from './cut-list.ts';
import type { StockItem, Unpriced } from './stock.ts';

/** One board of a plan with what comes out of it; mm. */
export type PlannedBoard = CutBoard<CutItem, StockItem>;
/** A length cut from a board; mm. */
export type PlannedPiece = CutPiece<CutItem>;
/** A sheet of plywood or the like with what comes out of it; mm. */
export type PlannedPanel = CutPanel<CutItem, StockItem>;
/** Pieces that come from boards of one thickness and width, with lines of the cut list and of the stock table. */
export type PlanGroup = Section<CutItem, StockItem>;

/** Pieces of one line of the cut list that come out of no board, and why. */
export interface Unplanned extends PartProblem {
  /** The line of the cut list. */
  readonly item: CutItem;
}

/** What to buy for a cut list, and how to cut it; money is the workbook's. */
export interface BuyingPlan extends Omit<PiecesPlan<CutItem, StockItem>, 'homeless'> {
  /** Pieces no stock is thick, wide or long enough for, and those for which stock runs out. */
  readonly problems: readonly Unplanned[];
}

/** What a plan reckons with. */
export interface PlanOptions {
  /** Width of a saw cut, mm. */
  readonly kerf: number;
  /** Cut off the end of each board, mm. */
  readonly endTrim?: number;
  /** `cell`: as far as a cell may wait; `proof`, and where left out: on until it is proven or the steps run out. */
  readonly effort?: 'cell' | 'proof';
  /** Stock that no plan may choose from, since nothing says what it costs. */
  readonly unpriced?: readonly Unpriced[];
  /** Writes a length for a sentence. */
  readonly format: (mm: number) => string;
}

/** Sizes that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;

/** What to buy and how to cut it, as the planner finds it, with the reason for each piece it leaves out. */
export function buyingPlan(
  items: readonly CutItem[],
  stock: readonly StockItem[],
  options: PlanOptions,
): BuyingPlan {
  const { kerf, endTrim = 0, effort = 'proof' } = options;
  const { homeless, ...plan } = planPieces(items, stock, {
    kerf,
    endTrim,
    effort,
    kindOf: materialKind,
  });
  const problems = homeless.map(({ item, why }): Unplanned => {
    const reason =
      why === undefined
        ? noStock(item, stock, options)
        : whyNot(item, why.like, why.fault, options);
    return { at: item.at, item, ...(typeof reason === 'string' ? { says: reason } : reason) };
  });
  return { ...plan, problems };
}

/** Why a piece is in no plan although some of the stock is large enough. */
function whyNot(
  { name, count, thickness, width, length }: CutItem,
  { name: like }: StockItem,
  fault: CuttingFault,
  { format, endTrim = 0 }: Pick<PlanOptions, 'format' | 'endTrim'>,
): string {
  const what = `${name}, ${count} of ${format(thickness)} by ${format(width)} by ${format(length)}`;
  const board = like === '' ? 'this stock' : like;
  switch (fault.code) {
    case 'supply-short':
    case 'no-stock':
      return `There are not enough boards like ${board} at hand for ${what}. Add boards to the stock table, or clear "at hand" so that more can be bought.`;
    case 'too-long':
    case 'too-big':
      return `${what} fits no board like ${board} the way its grain has to run${endTrim > 0 ? `, with ${format(endTrim)} trimmed off each of its ends` : ''}. Add a larger one to the stock table.`;
    default:
      return `${what}, cannot be planned: ${fault.message}`;
  }
}

/** Why nothing can be cut for a piece: what of the stock falls short, with the cell to mend where it is another one. */
function noStock(
  item: CutItem,
  stock: readonly StockItem[],
  { format, unpriced = [] }: PlanOptions,
): string | PartProblem {
  const { name, thickness, width, length, material } = item;
  const isOfIt = (board: Unpriced): boolean =>
    board.material === '' ||
    material === '' ||
    materialKind(board.material) === materialKind(material);
  const ofIt = stock.filter(isOfIt);
  const size = `${format(thickness)} by ${format(width)} by ${format(length)}`;
  const free = unpriced.find(
    (board) => isOfIt(board) && holds(board, item, materialKind) && board.length > length - NEAR,
  );
  if (free !== undefined) {
    const board = free.name === '' ? 'a board of stock' : free.name;
    return {
      at: free.at,
      says: `${name}, ${size}, could come from ${board}, which has no price. Type what one board costs in the stock table, or 0 for boards at hand.`,
    };
  }
  if (ofIt.length === 0) return `There is no stock of ${material} for ${name}, ${size}.`;
  const wide = ofIt.filter((board) => holds(board, item, materialKind));
  if (wide.length === 0) {
    return {
      at: item.boardsAt ?? item.at,
      says: `No stock is thick and wide enough for ${name}, ${size}. Add one to the stock table, or say under boards in the parts table how many boards it is glued up of.`,
    };
  }
  const longest = Math.max(...wide.map((board) => board.length));
  if (longest > length - NEAR) {
    return `All boards that ${name}, ${size}, could come from are used up: the stock table says 0 at hand. Add to them, or clear "at hand" so that more can be bought.`;
  }
  return `${name} is ${format(length)} long; the longest board that is thick and wide enough is ${format(longest)}. Add a longer one to the stock table.`;
}
