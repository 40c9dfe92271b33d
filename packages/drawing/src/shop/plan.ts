import { CuttingFault, planLengths, planSheets } from '@kerfbook/cutting';
import type { PartProblem } from '../parts-source.ts';
import type { CutItem } from './cut-list.ts';
import type { StockItem } from './stock.ts';

/** One board of a plan with what comes out of it; mm. */
export interface PlannedBoard {
  /** The line of the stock table it is one of. */
  readonly stock: StockItem;
  /** In the order in which they are cut from the end. */
  readonly pieces: readonly PlannedPiece[];
  /** Length that remains at the end. */
  readonly offcut: number;
}

/** A length cut from a board; mm. */
export interface PlannedPiece {
  /** The line of the cut list it is for. */
  readonly item: CutItem;
  /** As the cut list says it. */
  readonly length: number;
  /** From the board's end. */
  readonly at: number;
  /** Strips ripped side by side from this length of board, each one piece. */
  readonly strips: number;
}

/** A sheet of plywood or the like with what comes out of it; mm. */
export interface PlannedPanel {
  /** The line of the stock table it is one of. */
  readonly stock: StockItem;
  /** What is cut from it; length and width as they lie on the sheet. */
  readonly pieces: readonly {
    readonly item: CutItem;
    /** From the sheet's corner, along its length and across. */
    readonly x: number;
    readonly y: number;
    readonly length: number;
    readonly width: number;
  }[];
  /** What remains, in rectangles. */
  readonly offcuts: readonly {
    readonly x: number;
    readonly y: number;
    readonly length: number;
    readonly width: number;
  }[];
  /** Saw cuts from edge to edge, in the order in which they are made. */
  readonly cuts: readonly { readonly along: boolean; readonly at: number }[];
}

/** Pieces that come from boards of one thickness and width. */
export interface PlanGroup {
  /** As the stock table says it. */
  readonly material: string;
  /** Of the stock, mm. */
  readonly thickness: number;
  /** Of the stock, mm. */
  readonly width: number;
  /** Each board by itself; empty for sheet goods. */
  readonly boards: readonly PlannedBoard[];
  /** Sheet goods, cut from edge to edge; empty for boards. */
  readonly panels: readonly PlannedPanel[];
  /** What to buy or take from the rack, the stock's order. */
  readonly buy: readonly { readonly stock: StockItem; readonly count: number }[];
  /** What these boards and sheets cost, in the workbook's money. */
  readonly cost: number;
  /** No plan of these pieces from this stock costs less. */
  readonly bound: number;
  /** No plan of these pieces from this stock costs less: cost and bound meet. */
  readonly proven: boolean;
  /** Share of the length bought, of sheets of the face, that is in no piece. */
  readonly waste: number;
}

/** Pieces of one line of the cut list that come out of no board, and why. */
export interface Unplanned extends PartProblem {
  /** The line of the cut list. */
  readonly item: CutItem;
}

/** What to buy for a cut list, and how to cut it. */
export interface BuyingPlan {
  /** One for each section of stock that is used. */
  readonly groups: readonly PlanGroup[];
  /** Of what is planned; with anything left out it is not what all of it costs. */
  readonly cost: number;
  /** What no plan of the planned pieces costs less than, in the workbook's money. */
  readonly bound: number;
  /** Every piece is planned, and no plan costs less. */
  readonly proven: boolean;
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
  /** Writes a length for a sentence. */
  readonly format: (mm: number) => string;
}

/** Sizes that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;
/** Stock as wide as this is sheet goods, cut both ways: 600 mm, common practice, no source. */
const SHEET_WIDTH = 600;
/** More of one size than this are reckoned like stock that costs nothing, not one by one. */
const MOST_OFFCUTS = 200;

/**
 * What to buy and how to cut it. Each piece goes to the stock of its material whose section is least
 * larger than its own; pieces that are narrow enough are ripped side by side. Within a section the
 * cheapest boards are chosen, with a bound that proves it or says by how much at most it is not.
 */
export function buyingPlan(
  items: readonly CutItem[],
  stock: readonly StockItem[],
  options: PlanOptions,
): BuyingPlan {
  const problems: Unplanned[] = [];
  const sections = new Map<string, { stock: StockItem[]; items: CutItem[] }>();
  for (const item of items) {
    const found = sectionFor(item, stock);
    if (found === undefined) {
      problems.push({ at: item.at, item, says: noStock(item, stock, options) });
      continue;
    }
    const group = sections.get(found.key) ?? { stock: found.stock, items: [] };
    group.items.push(item);
    sections.set(found.key, group);
  }
  const groups: PlanGroup[] = [];
  for (const section of sections.values()) {
    const group = planSection(section.stock, section.items, options, problems);
    if (group !== undefined) groups.push(group);
  }
  const sum = (of: (group: PlanGroup) => number): number =>
    groups.reduce((total, group) => total + of(group), 0);
  return {
    groups,
    cost: sum(({ cost }) => cost),
    bound: sum(({ bound }) => bound),
    proven: problems.length === 0 && groups.every(({ proven }) => proven),
    problems,
  };
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Boards of which there is one to be had. */
const some = ({ atHand }: StockItem): boolean => atHand !== 0;

const holds = (board: StockItem, item: CutItem): boolean =>
  (board.material === '' || item.material === '' || same(board.material, item.material)) &&
  board.thickness > item.thickness - NEAR &&
  board.width > item.width - NEAR;

/** Boards of the section that wastes least of this piece's; long enough for it where any is. */
function sectionFor(
  item: CutItem,
  stock: readonly StockItem[],
): { readonly key: string; readonly stock: StockItem[] } | undefined {
  const fitting = stock.filter(
    (board) => some(board) && holds(board, item) && board.length > item.length - NEAR,
  );
  const best = fitting.reduce<StockItem | undefined>((least, board) => {
    if (least === undefined) return board;
    const difference = board.thickness * share(board, item) - least.thickness * share(least, item);
    return difference < -NEAR ? board : least;
  }, undefined);
  if (best === undefined) return undefined;
  const key = `${best.material.toLowerCase()} ${best.thickness.toFixed(3)} ${best.width.toFixed(3)}`;
  const alike = stock.filter(
    (board) =>
      same(board.material, best.material) &&
      Math.abs(board.thickness - best.thickness) < NEAR &&
      Math.abs(board.width - best.width) < NEAR,
  );
  return { key, stock: alike };
}

/** Width of board that one piece takes up, the kerfs left aside. */
const share = (board: StockItem, item: CutItem): number =>
  board.width / Math.max(1, Math.floor((board.width + NEAR) / item.width));

/**
 * The pieces of one section, planned. Those that cannot be cut even by themselves are left out and the
 * rest is planned; where only all of them together are too many, none is: which of them to go without
 * is the maker's to say. Each that is left out is named.
 */
function planSection(
  stock: readonly StockItem[],
  items: readonly CutItem[],
  options: PlanOptions,
  problems: Unplanned[],
): PlanGroup | undefined {
  const [first] = stock;
  if (first === undefined || items.length === 0) return undefined;
  const all = tryPlan(stock, items, options);
  if (!(all instanceof CuttingFault)) return all;
  const alone = items.map((item) => {
    const plan = tryPlan(stock, [item], { ...options, effort: 'cell' });
    return { item, fault: plan instanceof CuttingFault ? plan : undefined };
  });
  const good = alone.flatMap(({ item, fault }) => (fault === undefined ? [item] : []));
  const leaveOut = ({ item, fault }: (typeof alone)[number]): void => {
    problems.push({ at: item.at, item, says: whyNot(item, first, fault ?? all, options) });
  };
  if (good.length === items.length) {
    alone.forEach(leaveOut);
    return undefined;
  }
  alone.filter(({ fault }) => fault !== undefined).forEach(leaveOut);
  return planSection(stock, good, options, problems);
}

/** The plan, or what is wrong with the job. */
function tryPlan(
  stock: readonly StockItem[],
  items: readonly CutItem[],
  options: PlanOptions,
): PlanGroup | CuttingFault {
  const [{ width } = { width: 0 }] = stock;
  try {
    return (width >= SHEET_WIDTH ? planPanels : planBoards)(stock, items, options);
  } catch (error) {
    if (error instanceof CuttingFault) return error;
    throw error;
  }
}

/** Sheets of every size of this thickness and width. */
function planPanels(
  stock: readonly StockItem[],
  items: readonly CutItem[],
  { kerf }: PlanOptions,
): PlanGroup {
  const first = stock[0] as StockItem;
  const sold = stock.filter(({ atHand }) => atHand !== 0);
  const plan = planSheets({
    parts: items.map(({ length, width, count, grain }, i) => {
      // Grain runs along the sheet: a piece with its grain across lies across.
      const across = grain === 'width';
      return {
        key: String(i),
        length: across ? width : length,
        width: across ? length : width,
        count,
        mayTurn: grain === undefined,
      };
    }),
    sheets: sold.map(({ length, width, price, atHand }) => ({
      length,
      width,
      price,
      ...(atHand === undefined ? {} : { supply: atHand }),
    })),
    kerf,
  });
  return {
    ...about(first, items),
    boards: [],
    panels: plan.sheets.map(({ index, parts, offcuts, cuts }) => ({
      stock: sold[index] ?? first,
      pieces: parts.map(({ key, x, y, length, width }) => ({
        item: items[Number(key)] as CutItem,
        x,
        y,
        length,
        width,
      })),
      offcuts,
      cuts: cuts.map(({ kind, at }) => ({ along: kind === 'rip', at })),
    })),
    buy: sold.flatMap((one, i) =>
      (plan.counts[i] ?? 0) === 0 ? [] : [{ stock: one, count: plan.counts[i] ?? 0 }],
    ),
    cost: plan.cost,
    bound: plan.bound,
    proven: plan.proven,
    waste: plan.waste,
  };
}

const about = (first: StockItem, items: readonly CutItem[]) => ({
  material: first.material === '' ? (items[0]?.material ?? '') : first.material,
  thickness: first.thickness,
  width: first.width,
});

function planBoards(
  stock: readonly StockItem[],
  items: readonly CutItem[],
  { kerf, endTrim = 0, effort = 'proof' }: PlanOptions,
): PlanGroup {
  const first = stock[0] as StockItem;
  const strips = items.map(({ width, count }) =>
    Math.min(count, Math.max(1, Math.floor((first.width + kerf + NEAR) / (width + kerf)))),
  );
  // What is there already costs nothing and is used before anything is bought.
  const rack = stock.flatMap((one, i) =>
    one.price === 0 && one.atHand !== undefined && one.atHand <= MOST_OFFCUTS
      ? Array.from({ length: one.atHand }, () => i)
      : [],
  );
  const sold = stock.flatMap((one, i) => (rack.includes(i) || one.atHand === 0 ? [] : [i]));
  const itemAt = (i: number | undefined): StockItem => stock[i ?? 0] ?? first;
  const plan = planLengths({
    // Parts are told apart by their place: two may have one name.
    parts: items.map(({ length, count }, i) => ({
      key: String(i),
      length,
      count: Math.ceil(count / (strips[i] ?? 1)),
    })),
    stock: sold.map((i) => {
      const { length, price, atHand } = itemAt(i);
      return { length, price, ...(atHand === undefined ? {} : { supply: atHand }) };
    }),
    rack: rack.map((i, n) => ({ key: String(n), length: itemAt(i).length })),
    kerf,
    endTrim,
    effort,
  });
  const left = items.map(({ count }) => count);
  const which = ({ from, index }: (typeof plan.boards)[number]): number | undefined =>
    from === 'rack' ? rack[index] : sold[index];
  const boards = plan.boards.map(
    (planned): PlannedBoard => ({
      stock: itemAt(which(planned)),
      offcut: planned.offcut,
      pieces: planned.parts.map(({ key, length, start }) => {
        const part = Number(key);
        const item = items[part] as CutItem;
        const taken = Math.min(strips[part] ?? 1, left[part] ?? 0);
        left[part] = (left[part] ?? 0) - taken;
        return { item, length, at: start, strips: taken };
      }),
    }),
  );
  const used = stock.map((_, i) => plan.boards.filter((board) => which(board) === i).length);
  const bought = boards.reduce((sum, board) => sum + board.stock.length, 0);
  const inPieces = boards.reduce(
    (sum, { pieces }) => sum + pieces.reduce((all, { length }) => all + length, 0),
    0,
  );
  return {
    ...about(first, items),
    boards,
    panels: [],
    buy: stock.flatMap((one, i) =>
      (used[i] ?? 0) === 0 ? [] : [{ stock: one, count: used[i] ?? 0 }],
    ),
    cost: plan.cost,
    bound: plan.bound,
    proven: plan.proven,
    waste: bought === 0 ? 0 : 1 - inPieces / bought,
  };
}

/** Why a piece is in no plan although some of the stock is large enough. */
function whyNot(
  { name, count, thickness, width, length }: CutItem,
  { name: like }: StockItem,
  fault: CuttingFault,
  { format }: Pick<PlanOptions, 'format'>,
): string {
  const what = `${name}, ${count} of ${format(thickness)} by ${format(width)} by ${format(length)}`;
  const board = like === '' ? 'this stock' : like;
  switch (fault.code) {
    case 'supply-short':
    case 'no-stock':
      return `The boards like ${board} at hand do not suffice for ${what}. Add boards to the stock table, or empty "at hand" so that more can be bought.`;
    case 'too-long':
    case 'too-big':
      return `${what} fits no board like ${board} the way its grain has to run. Add a larger one to the stock table.`;
    default:
      return `${what}, cannot be planned: ${fault.message}`;
  }
}

/** Why nothing can be cut for a piece: what of the stock falls short. */
function noStock(
  item: CutItem,
  stock: readonly StockItem[],
  { format }: Pick<PlanOptions, 'format'>,
): string {
  const { name, thickness, width, length, material } = item;
  const ofIt = stock.filter(
    (board) => board.material === '' || material === '' || same(board.material, material),
  );
  const size = `${format(thickness)} by ${format(width)} by ${format(length)}`;
  if (ofIt.length === 0) return `There is no stock of ${material} for ${name}, ${size}.`;
  const wide = ofIt.filter((board) => holds(board, item));
  if (wide.length === 0) {
    return `No stock is thick and wide enough for ${name}, ${size}. Add one to the stock table, or say how many boards it is glued up of.`;
  }
  const longest = Math.max(...wide.map((board) => board.length));
  if (longest > length - NEAR) {
    return `All boards that ${name}, ${size}, could come from are used up: the stock table says 0 at hand. Add to them, or empty "at hand" so that more can be bought.`;
  }
  return `${name} is ${format(length)} long; the longest board that is thick and wide enough is ${format(longest)}. Add a longer one to the stock table.`;
}
