import type { OpenWorkbook, ShopTable } from '@kerfbook/workbook';
import { type Part, readParts } from '../parts.ts';
import type { LeftOut, PartProblem, PartsSource } from '../parts-source.ts';
import { bookFormat } from '../units.ts';
import { type CutList, cutList, moistureOf } from './cut-list.ts';
import { type EndTrim, endTrimOf, type Kerf, kerfOf } from './kerf.ts';
import { type BuyingPlan, buyingPlan, type PlanGroup, type PlanOptions } from './plan.ts';
import { readStock, type StockItem } from './stock.ts';

/** What is needed of an open workbook to plan its parts. */
export type ShopSource = PartsSource & Pick<OpenWorkbook, 'named' | 'currency'>;

/** A table that a plan takes and the workbook does not have. */
export interface MissingTable {
  readonly kind: Extract<ShopTable, 'parts' | 'stock'>;
  /** In a sentence. */
  readonly says: string;
}

/** Everything that the parts and stock tables of a workbook come to. */
export interface ShopPlan {
  /** What the parts table says. */
  readonly parts: readonly Part[];
  /** The pieces to cut. */
  readonly list: CutList;
  /** Left out where the workbook has no stock table. */
  readonly plan?: BuyingPlan;
  /** What the stock table says; empty where there is none. */
  readonly stock: readonly StockItem[];
  /** How wide a saw cut is reckoned. */
  readonly kerf: Kerf;
  /** What is cut off each end of a board that is bought. */
  readonly endTrim: EndTrim;
  /** Rows of the parts table that are in no cut list, and so on no sheet. */
  readonly unread: readonly LeftOut[];
  /** Pieces that come out of no board, and lines of stock that nothing was chosen from. */
  readonly unplanned: readonly LeftOut[];
  /** Names of parts whose count is 0. */
  readonly none: readonly string[];
  /** All there is to look at, positions for the drawing included. */
  readonly problems: readonly PartProblem[];
  /** Tables that are missing altogether. */
  readonly missing: readonly MissingTable[];
  /** The plan is still being looked for: set by whoever does. */
  readonly proving?: true;
}

const MISSING = {
  parts: {
    kind: 'parts',
    says: 'This workbook has no parts table: there is nothing to cut yet.',
  },
  stock: { kind: 'stock', says: 'This workbook has no stock table to buy from.' },
} as const satisfies Readonly<Record<MissingTable['kind'], MissingTable>>;

/**
 * Plans a workbook's parts, with a bound that proves the plan or says how far off it may be, and with
 * everything the plan had to do without.
 */
export function shopPlan(book: ShopSource, effort: PlanOptions['effort'] = 'proof'): ShopPlan {
  const reading = readParts(book);
  const list = cutList(reading.parts, moistureOf(book));
  const stock = readStock(book);
  const kerf = kerfOf(book);
  const endTrim = endTrimOf(book);
  const base = {
    parts: reading.parts,
    list,
    stock: stock.stock,
    kerf,
    endTrim,
    unread: reading.leftOut,
    none: reading.none,
    missing: [...(reading.found ? [] : [MISSING.parts]), ...(stock.found ? [] : [MISSING.stock])],
  };
  const read = [...reading.problems, ...stock.problems];
  if (!reading.found || !stock.found) return { ...base, unplanned: stock.leftOut, problems: read };
  const write = bookFormat(book);
  const plan = buyingPlan(list.items, stock.stock, {
    kerf: kerf.mm,
    endTrim: endTrim.mm,
    unpriced: stock.unpriced,
    format: write,
    effort,
  });
  const pieces = plan.problems.map(
    ({ at, says, item: { name, count } }): LeftOut => ({
      at,
      what: count === 1 ? name : `${name}, ${count} pieces`,
      says,
    }),
  );
  const { problem } = endTrim;
  const trim = problem === undefined ? [] : [{ ...problem, what: 'What is trimmed off boards' }];
  return {
    ...base,
    plan,
    unplanned: [...pieces, ...stock.leftOut, ...trim],
    problems: [
      ...read,
      ...(problem === undefined ? [] : [problem]),
      ...plan.problems.map(({ at, says }) => ({ at, says })),
    ],
  };
}

/** Whether a plan is of all there is to cut, from all the stock there is, with a saw cut's width. */
export const isWhole = ({ plan, unread, unplanned, kerf, missing }: ShopPlan): boolean =>
  plan !== undefined &&
  unread.length + unplanned.length + missing.length === 0 &&
  kerf.says === undefined;

/** What the boards of a plan cost and how sure that is; it claims nothing while something is left out. */
export function costSentence(shop: ShopPlan, money: (amount: number) => string): string {
  const { plan, unread, unplanned, kerf } = shop;
  if (plan === undefined) return 'Nothing is planned.';
  const { cost } = plan;
  const left = unread.length + unplanned.length;
  if (left > 0) {
    const things = left === 1 ? 'One thing is' : `${left} things are`;
    return `${money(cost)} for what is planned. ${things} left out, so this is not what all of it costs.`;
  }
  if (kerf.says !== undefined) return `${money(cost)} if saw cuts took no wood.`;
  return `${money(cost)} for the ${boughtIn(plan)}${proofOf(plan, money, shop.proving)}`;
}

/** The same for paper that names no prices: how sure it is that nothing cheaper will do. */
export function sureSentence(shop: ShopPlan): string {
  const { plan, unread, unplanned, kerf } = shop;
  if (plan === undefined) return 'Nothing is planned.';
  const left = unread.length + unplanned.length;
  if (left > 0) {
    const things = left === 1 ? 'One thing is' : `${left} things are`;
    return `${things} left out, so this is not all there is to buy.`;
  }
  return groupSureSentence(plan, kerf, shop.proving);
}

/** What is said to be proven, of one section or of all. */
type Proved = Pick<BuyingPlan, 'cost' | 'bound' | 'proven'> &
  (Pick<BuyingPlan, 'groups'> | Pick<PlanGroup, 'boards'>);

/** What a plan buys: screws and finish are counted beside it, and are in none of its prices. */
function boughtIn({ groups }: Pick<BuyingPlan, 'groups'>): string {
  const boards = groups.some((group) => group.boards.length > 0);
  const sheets = groups.some((group) => group.panels.length > 0);
  return boards && sheets ? 'boards and sheets' : sheets ? 'sheets' : 'boards';
}

const hasBoards = (plan: Proved): boolean =>
  ('groups' in plan ? plan.groups : [plan]).some(({ boards }) => boards.length > 0);

/**
 * Of which plans a proof holds, of all sections. Boards are crosscut into lengths of one part each, then ripped, and a
 * part goes to the smallest section it comes out of: who cuts another part from a strip left beside, or takes wider
 * boards, may do with less.
 */
export const wayOfCutting = (plan: Pick<BuyingPlan, 'groups' | 'cost' | 'bound' | 'proven'>) =>
  hasBoards(plan)
    ? 'each crosscut length is ripped into one kind of part only, from boards of the smallest thickness and width that fit'
    : 'each part from the smallest sheets it fits';

/** The cheapest of those, said whole of all sections: at each of them it would be read past. */
function cheapest(plan: Proved): string {
  if ('groups' in plan) return `cheapest cut this way: ${wayOfCutting(plan)}`;
  return hasBoards(plan) ? 'cheapest cut this way' : 'cheapest from this stock';
}

/** The same of one section. */
export function groupSureSentence(plan: Proved, kerf: Kerf, proving?: true): string {
  const { cost, bound, proven } = plan;
  if (kerf.says !== undefined) return 'This is worked out as if saw cuts took no wood.';
  if (proven) return `Proven ${cheapest(plan)}.`;
  if (proving) return 'Still being proven: it may yet cost less.';
  const gap = cost === 0 ? 0 : ((cost - bound) / cost) * 100;
  return `At most ${gap.toFixed(1)} % above the ${cheapest(plan)}.`;
}

/** Whether pieces of one section could be had for less, in a sentence. */
export const groupSentence = (
  group: Proved,
  kerf: Kerf,
  money: (amount: number) => string,
  proving?: true,
): string =>
  kerf.says === undefined
    ? `${money(group.cost)}${proofOf(group, money, proving)}`
    : `${money(group.cost)} if saw cuts took no wood.`;

function proofOf(plan: Proved, money: (amount: number) => string, proving?: true): string {
  const { cost, bound, proven } = plan;
  if (proven) return `, proven ${cheapest(plan)}.`;
  const gap = cost === 0 ? 0 : ((cost - bound) / cost) * 100;
  if (proving) {
    return `, still being proven: it may yet cost less, ${money(bound)} at the least.`;
  }
  return `, at most ${gap.toFixed(1)} % above the ${cheapest(plan)}.`;
}
