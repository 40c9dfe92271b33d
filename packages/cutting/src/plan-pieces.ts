import { sheetSteps } from './cut-steps.ts';
import { CuttingFault } from './fault.ts';
import type { Effort } from './lengths-types.ts';
import { planLengths } from './plan-lengths.ts';
import { planSheets } from './plan-sheets.ts';

/** Pieces of one size to be cut; mm. */
export interface Piece {
  /** How many pieces alike, 1 or more. */
  readonly count: number;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0, as it is cut. */
  readonly width: number;
  /** Over 0, as it is cut. */
  readonly length: number;
  /** Empty where any will do. */
  readonly material: string;
  /** The side the grain runs along; left out where it does not matter. */
  readonly grain?: 'length' | 'width';
}

/** Boards or sheets of one size, to be bought or at hand; mm. */
export interface Board {
  /** Empty where any will do. */
  readonly material: string;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0. */
  readonly width: number;
  /** Over 0. */
  readonly length: number;
  /** Of one board, 0 or more. */
  readonly price: number;
  /** Left out: as many as are needed. */
  readonly atHand?: number;
}

/** A length cut from a board; mm. */
export interface CutPiece<P> {
  /** What it is one of. */
  readonly item: P;
  /** As it was asked for. */
  readonly length: number;
  /** From the board's end. */
  readonly at: number;
  /** Strips ripped side by side from this length of board, each one piece. */
  readonly strips: number;
}

/** One board of a plan with what comes out of it; mm. */
export interface CutBoard<P, B> {
  /** What it is one of. */
  readonly stock: B;
  /** In the order in which they are cut from the end. */
  readonly pieces: readonly CutPiece<P>[];
  /** Length that remains at the end. */
  readonly offcut: number;
}

/** A sheet of plywood or the like with what comes out of it; mm. */
export interface CutPanel<P, B> {
  /** What it is one of. */
  readonly stock: B;
  /** What is cut from it; length and width as they lie on the sheet. */
  readonly pieces: readonly {
    readonly item: P;
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
  readonly steps: readonly CutStep<P>[];
}

/** A saw cut from edge to edge of a piece of board or sheet; mm. */
export interface CutStep<P> {
  /** `rip`: along the board or sheet; `crosscut`: across it. */
  readonly kind: 'rip' | 'crosscut';
  /** What is cut, where it lies on the board or sheet: from its end and its edge. */
  readonly from: {
    readonly x: number;
    readonly y: number;
    readonly length: number;
    readonly width: number;
  };
  /** What fence or stop is set to: from the near edge or end of what is cut to the near side of the saw cut. */
  readonly at: number;
  /** The finished piece that comes off; left out where it is cut up further or remains. */
  readonly gives?: P;
  /** The finished piece that is left behind the cut. */
  readonly leaves?: P;
}

/** Pieces that come from boards of one thickness and width. */
export interface Section<P, B> {
  /** As the stock says it. */
  readonly material: string;
  /** Of the stock, mm. */
  readonly thickness: number;
  /** Of the stock, mm. */
  readonly width: number;
  /** Each board by itself; empty for sheet goods. */
  readonly boards: readonly CutBoard<P, B>[];
  /** Sheet goods, cut from edge to edge; empty for boards. */
  readonly panels: readonly CutPanel<P, B>[];
  /** What to buy or take from the rack, the stock's order. */
  readonly buy: readonly { readonly stock: B; readonly count: number }[];
  /** What these boards and sheets cost. */
  readonly cost: number;
  /** No plan of these pieces from this stock costs less. */
  readonly bound: number;
  /** No plan of these pieces from this stock costs less: cost and bound meet. */
  readonly proven: boolean;
  /** Share of the length bought, of sheets of the face, that is in no piece. */
  readonly waste: number;
}

/** Pieces of one size that come out of no board. */
export interface Homeless<P, B> {
  /** The pieces. */
  readonly item: P;
  /** Boards that are thick, wide and long enough, and what is wrong all the same; left out where there are none. */
  readonly why?: { readonly like: B; readonly fault: CuttingFault };
}

/** What to buy for pieces of many sizes, and how to cut it. */
export interface PiecesPlan<P, B> {
  /** One for each section of stock that is used. */
  readonly groups: readonly Section<P, B>[];
  /** Of what is planned; with anything left out it is not what all of it costs. */
  readonly cost: number;
  /** What no plan of the planned pieces costs less than. */
  readonly bound: number;
  /** Every piece is planned, and no plan costs less. */
  readonly proven: boolean;
  /** What is left out, in the order in which that is found. */
  readonly homeless: readonly Homeless<P, B>[];
}

/** What a plan of pieces reckons with. */
export interface PiecesOptions {
  /** Width of a saw cut, mm. */
  readonly kerf: number;
  /** Cut off the end of each board, mm; 0 where left out. */
  readonly endTrim?: number;
  /** How far boards are planned; sheets always as far as their own steps go. */
  readonly effort: Effort;
  /** What is the same for every name of one material; its letters where left out. */
  readonly kindOf?: KindOf;
}

/** What is the same for every name that a material goes by. */
export type KindOf = (material: string) => string;

/** Sizes that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;
/** Stock as wide as this is sheet goods, cut both ways: 600 mm, common practice, no source. */
const SHEET_WIDTH = 600;
/** More of one size than this are reckoned like stock that costs nothing, not one by one. */
const MOST_OFFCUTS = 200;

/**
 * What to buy and how to cut it. Each piece goes to the stock of its material whose section is least
 * larger than its own, and to the next one where that has not enough boards at hand; pieces that are
 * narrow enough are ripped side by side. Within a section the cheapest boards are chosen, with a bound
 * that proves it or says by how much at most it is not. A piece that comes out of no board is left out
 * and told.
 */
export function planPieces<P extends Piece, B extends Board>(
  items: readonly P[],
  stock: readonly B[],
  options: PiecesOptions,
): PiecesPlan<P, B> {
  const away: Away = new Map();
  for (;;) {
    const { plan, short } = planOnce(items, stock, options, away);
    const moving = short.flatMap((section) => movingFrom(section, stock, options, away));
    // Each round sends a piece away from a section it does not come back to.
    if (moving.length === 0) return plan;
    for (const { item, key } of moving) away.set(item, new Set(away.get(item)).add(key));
  }
}

/** Sections that have not enough boards for a piece. */
type Away = Map<Piece, ReadonlySet<string>>;

interface Sent<P, B> {
  readonly key: string;
  readonly stock: B[];
  readonly items: P[];
}

/** A section with the pieces of it that are left out. */
interface Short<P, B> extends Sent<P, B> {
  readonly lost: readonly P[];
}

function planOnce<P extends Piece, B extends Board>(
  items: readonly P[],
  stock: readonly B[],
  options: PiecesOptions,
  away: Away,
): { readonly plan: PiecesPlan<P, B>; readonly short: readonly Short<P, B>[] } {
  const homeless: Homeless<P, B>[] = [];
  const sections = new Map<string, Sent<P, B>>();
  for (const item of items) {
    // Where no other section has it, what the first one says of it is told.
    const found =
      sectionFor(item, stock, options, away.get(item)) ?? sectionFor(item, stock, options);
    if (found === undefined) {
      homeless.push({ item });
      continue;
    }
    const group = sections.get(found.key) ?? { ...found, items: [] };
    group.items.push(item);
    sections.set(found.key, group);
  }
  const groups: Section<P, B>[] = [];
  const short: Short<P, B>[] = [];
  for (const section of sections.values()) {
    const before = homeless.length;
    const group = planSection(section.stock, section.items, options, homeless);
    if (group !== undefined) groups.push(group);
    const lost = homeless.slice(before).map(({ item }) => item);
    if (lost.length > 0) short.push({ ...section, lost });
  }
  const sum = (of: (group: Section<P, B>) => number): number =>
    groups.reduce((total, group) => total + of(group), 0);
  const plan: PiecesPlan<P, B> = {
    groups,
    cost: sum(({ cost }) => cost),
    bound: sum(({ bound }) => bound),
    proven: homeless.length === 0 && groups.every(({ proven }) => proven),
    homeless,
  };
  return { plan, short };
}

/** Pieces that go elsewhere from a section without enough boards: as few as make the rest fit. */
function movingFrom<P extends Piece, B extends Board>(
  { key, stock: boards, items, lost }: Short<P, B>,
  stock: readonly B[],
  options: PiecesOptions,
  away: Away,
): readonly { readonly item: P; readonly key: string }[] {
  const mayGo = lost.filter((item) => {
    const left = away.get(item);
    if (left?.has(key) === true) return false;
    return sectionFor(item, stock, options, new Set(left).add(key)) !== undefined;
  });
  if (lost.length < items.length) return mayGo.map((item) => ({ item, key }));
  const size = ({ count, length }: P): number => count * length;
  const bySize = [...mayGo].sort((a, b) => size(a) - size(b));
  const enough = bySize.find((item) => {
    const rest = items.filter((one) => one !== item);
    return rest.length > 0 && !(tryPlan(boards, rest, options) instanceof CuttingFault);
  });
  const one = enough ?? bySize.at(-1);
  return one === undefined ? [] : [{ item: one, key }];
}

const letters: KindOf = (material) => material.trim().toLowerCase();

/** Boards of which there is one to be had. */
const some = ({ atHand }: Board): boolean => atHand !== 0;

/** Whether a piece is no thicker and no wider than a board of its material. */
export const holds = (
  board: Omit<Board, 'price'>,
  item: Piece,
  kindOf: KindOf = letters,
): boolean =>
  (board.material === '' ||
    item.material === '' ||
    kindOf(board.material) === kindOf(item.material)) &&
  board.thickness > item.thickness - NEAR &&
  board.width > item.width - NEAR;

const sectionKey = ({ material, thickness, width }: Board, kindOf: KindOf): string =>
  `${kindOf(material)} ${thickness.toFixed(3)} ${width.toFixed(3)}`;

/** Boards of the section that wastes least of this piece's, of those it is not sent away from. */
function sectionFor<B extends Board>(
  item: Piece,
  stock: readonly B[],
  { kindOf = letters }: PiecesOptions,
  away: ReadonlySet<string> = new Set(),
): { readonly key: string; readonly stock: B[] } | undefined {
  const fitting = stock.filter(
    (board) =>
      some(board) &&
      holds(board, item, kindOf) &&
      board.length > item.length - NEAR &&
      !away.has(sectionKey(board, kindOf)),
  );
  const best = fitting.reduce<B | undefined>((least, board) => {
    if (least === undefined) return board;
    const difference = board.thickness * share(board, item) - least.thickness * share(least, item);
    return difference < -NEAR ? board : least;
  }, undefined);
  if (best === undefined) return undefined;
  const key = sectionKey(best, kindOf);
  const alike = stock.filter(
    (board) =>
      kindOf(board.material) === kindOf(best.material) &&
      Math.abs(board.thickness - best.thickness) < NEAR &&
      Math.abs(board.width - best.width) < NEAR,
  );
  return { key, stock: alike };
}

/** Width of board that one piece takes up, the kerfs left aside. */
const share = (board: Board, item: Piece): number =>
  board.width / Math.max(1, Math.floor((board.width + NEAR) / item.width));

/**
 * The pieces of one section, planned. Those that cannot be cut even by themselves are left out and the
 * rest is planned; where only all of them together are too many, none is: which of them to go without
 * is the maker's to say. Each that is left out is named.
 */
function planSection<P extends Piece, B extends Board>(
  stock: readonly B[],
  items: readonly P[],
  options: PiecesOptions,
  homeless: Homeless<P, B>[],
): Section<P, B> | undefined {
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
    homeless.push({ item, why: { like: first, fault: fault ?? all } });
  };
  if (good.length === items.length) {
    alone.forEach(leaveOut);
    return undefined;
  }
  alone.filter(({ fault }) => fault !== undefined).forEach(leaveOut);
  return planSection(stock, good, options, homeless);
}

/** The plan, or what is wrong with the job. */
function tryPlan<P extends Piece, B extends Board>(
  stock: readonly B[],
  items: readonly P[],
  options: PiecesOptions,
): Section<P, B> | CuttingFault {
  const [{ width } = { width: 0 }] = stock;
  try {
    return (width >= SHEET_WIDTH ? planPanels : planBoards)(stock, items, options);
  } catch (error) {
    if (error instanceof CuttingFault) return error;
    throw error;
  }
}

/** Sheets of every size of this thickness and width. */
function planPanels<P extends Piece, B extends Board>(
  stock: readonly B[],
  items: readonly P[],
  { kerf }: PiecesOptions,
): Section<P, B> {
  const first = stock[0] as B;
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
    panels: plan.sheets.map(({ index, parts, offcuts, tree }) => ({
      stock: sold[index] ?? first,
      pieces: parts.map(({ key, x, y, length, width }) => ({
        item: items[Number(key)] as P,
        x,
        y,
        length,
        width,
      })),
      offcuts,
      steps: sheetSteps(tree, (part) => items[Number(parts[part]?.key)] as P),
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

const about = (first: Board, items: readonly Piece[]) => ({
  material: first.material === '' ? (items[0]?.material ?? '') : first.material,
  thickness: first.thickness,
  width: first.width,
});

function planBoards<P extends Piece, B extends Board>(
  stock: readonly B[],
  items: readonly P[],
  { kerf, endTrim = 0, effort }: PiecesOptions,
): Section<P, B> {
  const first = stock[0] as B;
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
  const itemAt = (i: number | undefined): B => stock[i ?? 0] ?? first;
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
    (planned): CutBoard<P, B> => ({
      stock: itemAt(which(planned)),
      offcut: planned.offcut,
      pieces: planned.parts.map(({ key, length, start }) => {
        const part = Number(key);
        const item = items[part] as P;
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
