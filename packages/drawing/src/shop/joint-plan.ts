import type { Section } from '@kerfbook/cutting';
import { materialKind } from '@kerfbook/wood';
import { readParts } from '../parts.ts';
import type { LeftOut } from '../parts-source.ts';
import { bookFormat } from '../units.ts';
import { type CutItem, cutList } from './cut-list.ts';
import { jointKerf, jointTrim } from './joint-kerf.ts';
import { jointStock, type LineOfJob, remainingOf } from './joint-stock.ts';
import type { EndTrim, Kerf } from './kerf.ts';
import { type BuyingPlan, buyingPlan, type PlanOptions } from './plan.ts';
import type { ShopSource } from './shop-plan.ts';
import { readStock, type StockItem, type StockReading } from './stock.ts';

/** A job whose parts are bought and cut together with those of others. */
export interface JointJob {
  /** What its pieces are marked with on paper and on the wood: `A`. */
  readonly mark: string;
  /** What it is called. */
  readonly title: string;
  /** Its open workbook. */
  readonly source: ShopSource;
}

/** Pieces to cut, with the job they are of. Their name begins with its mark. */
export interface JointItem extends CutItem {
  /** The number of the job, from 0. */
  readonly job: number;
}

/** Something that is left out of the plan, with the job it is of. */
export interface JointLeftOut extends Pick<LeftOut, 'what' | 'says'> {
  /** The number of the job, from 0. */
  readonly job: number;
  /** The cell of its workbook to look at; left out where it is about all of it. */
  readonly at?: LeftOut['at'];
}

/** What the jobs come to when each is bought and cut by itself, one after the other. */
export interface Apart {
  /** What all their boards cost. */
  readonly cost: number;
  /** How many boards and sheets are bought. */
  readonly boards: number;
  /** What each costs, in the order of the jobs. */
  readonly costs: readonly number[];
}

/** One buying list and one cutting plan over several jobs. */
export interface JointPlan {
  /** What to buy and how to cut it; its items are {@link JointItem}s. */
  readonly plan: BuyingPlan;
  /** How many boards and sheets are bought; what is at hand is not among them. */
  readonly boards: number;
  /** The same jobs, each by itself. */
  readonly apart: Apart;
  /** Nothing cheaper than that was found: each job's boards are cut as if it were built alone. */
  readonly isApart: boolean;
  /** The widest kerf of the jobs. */
  readonly kerf: Kerf;
  /** The most that one of the jobs trims off. */
  readonly endTrim: EndTrim;
  /** What the workbooks say differently of kerf, trim and boards at hand, and what is reckoned with. */
  readonly notes: readonly string[];
  /** The same of prices. */
  readonly priceNotes: readonly string[];
  /** What is in no plan, or could not be read. */
  readonly leftOut: readonly JointLeftOut[];
}

/** A plan, or why there is none. */
export type JointPlanOrNot =
  | ({ readonly ok: true } & JointPlan)
  | { readonly ok: false; readonly says: string };

/** The mark of the job with this number: A to Z, then AA. */
export function markOf(number: number): string {
  const letter = String.fromCharCode(65 + (number % 26));
  return number < 26 ? letter : markOf(Math.floor(number / 26) - 1) + letter;
}

/** What is read of one job. */
interface ReadJob {
  readonly items: readonly JointItem[];
  readonly stock: StockReading;
  readonly leftOut: readonly JointLeftOut[];
}

/**
 * Plans the parts of several jobs as one, out of the stock of all their workbooks: the same boards are one line, at the
 * lowest of their prices, and boards at hand that several workbooks list are counted once. It never costs more than the
 * jobs one by one in their order, each out of its own stock and what those before left at hand: where nothing cheaper is
 * found, that is the plan.
 */
export function jointPlan(
  jobs: readonly JointJob[],
  effort: PlanOptions['effort'] = 'proof',
): JointPlanOrNot {
  const [first] = jobs;
  if (first === undefined) return { ok: false, says: 'Choose the jobs to buy and cut for.' };
  const currencies = [...new Set(jobs.map(({ source }) => source.currency))];
  if (currencies.length > 1) {
    return {
      ok: false,
      says: `These jobs count in ${currencies.join(' and ')}. Prices of boards cannot be added up so: choose jobs of one currency.`,
    };
  }
  const format = bookFormat(first.source);
  const read = jobs.map(readJob);
  const items = read.flatMap((one) => one.items);
  if (items.length === 0) {
    return { ok: false, says: 'None of these jobs has a parts table with parts to cut.' };
  }
  const kerf = jointKerf(jobs, format);
  const endTrim = jointTrim(jobs, format);
  const stock = jointStock(
    read.map(({ stock: own }, i) => ({ mark: jobs[i]?.mark ?? '', stock: own.stock })),
    { source: first.source, format },
  );
  const options = { kerf: kerf.kerf.mm, endTrim: endTrim.endTrim.mm, format, effort };
  const together = buyingPlan(items, stock.all, {
    ...options,
    unpriced: read.flatMap((one) => one.stock.unpriced),
  });
  const apart = oneByOne(read, stock.ofJob, options);
  const sum = {
    cost: costOf(apart),
    boards: boughtOf(apart),
    costs: apart.map(({ cost }) => cost),
  };
  const [less, more] = [missing(together), apart.reduce((all, one) => all + missing(one), 0)];
  const isApart = less > more || (less === more && together.cost > sum.cost + CENT);
  const plan = isApart ? putTogether(apart, together) : together;
  return {
    ok: true,
    plan,
    boards: boughtOf([plan]),
    apart: sum,
    isApart,
    kerf: kerf.kerf,
    endTrim: endTrim.endTrim,
    notes: [...kerf.notes, ...endTrim.notes, ...stock.notes],
    priceNotes: stock.priceNotes,
    leftOut: [
      ...read.flatMap((one) => one.leftOut),
      ...plan.problems.map(({ at, says, item }) => ({
        at,
        says,
        what: item.count === 1 ? item.name : `${item.name}, ${item.count} pieces`,
        job: (item as JointItem).job,
      })),
    ],
  };
}

/** A rounding of adding up, in the workbook's money. */
const CENT = 1e-6;

const costOf = (plans: readonly BuyingPlan[]): number =>
  plans.reduce((all, { cost }) => all + cost, 0);

/** Boards and sheets that are paid for. */
const boughtOf = (plans: readonly BuyingPlan[]): number =>
  plans
    .flatMap(({ groups }) => groups.flatMap(({ buy }) => buy))
    .reduce((all, { stock, count }) => all + (stock.price > 0 ? count : 0), 0);

/** Pieces that come out of no board. */
const missing = ({ problems }: BuyingPlan): number =>
  problems.reduce((all, { item }) => all + item.count, 0);

function readJob({ mark, source }: JointJob, job: number): ReadJob {
  const reading = readParts(source);
  const stock = readStock(source);
  const items = cutList(reading.parts).items.map(
    (item): JointItem => ({ ...item, name: `${mark} ${item.name}`, job }),
  );
  const left = [...reading.leftOut, ...stock.leftOut];
  return {
    items,
    stock,
    leftOut: [
      ...left.map(({ at, what, says }) => ({ at, what: `${mark} ${what}`, says, job })),
      ...(reading.found
        ? []
        : [{ what: mark, says: 'It has no parts table: there is nothing to cut.', job }]),
    ],
  };
}

/** The plans of the jobs in their order, each out of its own stock and what the ones before left at hand. */
function oneByOne(
  read: readonly ReadJob[],
  ofJob: readonly (readonly LineOfJob[])[],
  options: PlanOptions,
): readonly BuyingPlan[] {
  const used = new Map<StockItem, number>();
  return read.map(({ items, stock }, i) => {
    const lines = remainingOf(ofJob[i] ?? [], used);
    const shared = new Map(lines.map(({ own, line }) => [own, line]));
    const found = buyingPlan(
      items,
      lines.map(({ own }) => own),
      { ...options, unpriced: stock.unpriced },
    );
    const plan = outOf(found, (own) => shared.get(own) ?? own);
    for (const { stock: one, count } of plan.groups.flatMap(({ buy }) => buy)) {
      used.set(one, (used.get(one) ?? 0) + count);
    }
    return plan;
  });
}

/** A plan whose boards are of other lines of stock. */
function outOf(plan: BuyingPlan, lineOf: (own: StockItem) => StockItem): BuyingPlan {
  const groups = plan.groups.map((group) => ({
    ...group,
    boards: group.boards.map((board) => ({ ...board, stock: lineOf(board.stock) })),
    panels: group.panels.map((panel) => ({ ...panel, stock: lineOf(panel.stock) })),
    buy: group.buy.map(({ stock, count }) => ({ stock: lineOf(stock), count })),
  }));
  return { ...plan, groups };
}

type Group = Section<CutItem, StockItem>;

/** The plans of single jobs as one: sections of the same boards are one. What bounds one of them bounds not all. */
function putTogether(plans: readonly BuyingPlan[], together: BuyingPlan): BuyingPlan {
  const sections = new Map<string, Group[]>();
  for (const group of plans.flatMap(({ groups }) => groups)) {
    const { material, thickness, width } = group;
    const key = `${materialKind(material)} ${thickness.toFixed(3)} ${width.toFixed(3)}`;
    sections.set(key, [...(sections.get(key) ?? []), group]);
  }
  const groups = [...sections.values()].map(oneSection);
  const cost = costOf(plans);
  const isWhole = together.problems.length === 0;
  const bound = isWhole ? Math.min(together.bound, cost) : 0;
  return {
    groups,
    cost,
    bound,
    proven: isWhole && bound >= cost - CENT,
    problems: plans.flatMap(({ problems }) => problems),
  };
}

function oneSection(groups: readonly Group[]): Group {
  const [first] = groups as readonly [Group];
  if (groups.length === 1) return { ...first, bound: 0, proven: false };
  const buy = new Map<StockItem, number>();
  for (const { stock, count } of groups.flatMap((group) => group.buy)) {
    buy.set(stock, (buy.get(stock) ?? 0) + count);
  }
  const size = ({ boards, panels }: Group): number =>
    boards.reduce((all, { stock }) => all + stock.length, 0) +
    panels.reduce((all, { stock }) => all + stock.length * stock.width, 0);
  const sum = (of: (group: Group) => number): number =>
    groups.reduce((all, group) => all + of(group), 0);
  return {
    ...first,
    boards: groups.flatMap(({ boards }) => boards),
    panels: groups.flatMap(({ panels }) => panels),
    buy: [...buy].map(([stock, count]) => ({ stock, count })),
    cost: sum(({ cost }) => cost),
    bound: 0,
    proven: false,
    waste: sum((group) => group.waste * size(group)) / sum(size),
  };
}

/** What buying together saves, in a sentence. */
export function savedSentence(
  { plan, boards, apart, isApart }: JointPlan,
  money: (amount: number) => string,
): string {
  const saved = apart.cost - plan.cost;
  const fewer = apart.boards - boards;
  const counted = (many: number): string => `${many} ${many === 1 ? 'board' : 'boards'}`;
  if (isApart || (Math.abs(saved) < CENT && fewer === 0)) {
    return `Bought one by one these jobs cost the same, ${money(apart.cost)}: buying together saves nothing here.`;
  }
  const of = fewer > 0 ? ` and ${counted(fewer)}` : '';
  const more = fewer < 0 ? `, with ${counted(-fewer)} more` : '';
  return saved < CENT
    ? `Bought one by one these jobs cost the same, ${money(apart.cost)}${fewer > 0 ? `, with ${counted(fewer)} more` : more}.`
    : `Bought one by one these jobs cost ${money(apart.cost)}: buying together saves ${money(saved)}${of}${more}.`;
}
