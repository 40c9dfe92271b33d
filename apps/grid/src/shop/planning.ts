import {
  type BuyingPlan,
  bookFormat,
  buyingPlan,
  type CutList,
  cutList,
  mmFromOwn,
  type Part,
  type PartProblem,
  readParts,
  readStock,
  type StockItem,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { numberOf } from './words.ts';

/** Everything that the parts and stock tables of a workbook come to. */
export interface Planning {
  readonly parts: readonly Part[];
  readonly list: CutList;
  /** Left out where the workbook has no stock table. */
  readonly plan?: BuyingPlan;
  readonly stock: readonly StockItem[];
  /** mm; 0 where no cell is named so. */
  readonly kerf: number;
  /** Whether a cell says how wide a saw cut is. */
  readonly knowsKerf: boolean;
  readonly problems: readonly PartProblem[];
  /** What is missing altogether. */
  readonly says?: string;
}

/** Plans a workbook's parts, with a bound that proves the plan or says how far off it may be. */
export function planningOf(book: OpenWorkbook): Planning {
  const { parts, problems, found } = readParts(book);
  const list = cutList(parts);
  const ownKerf = numberOf(book, 'kerf');
  const kerf = mmFromOwn(ownKerf ?? 0, book.units);
  const stock = readStock(book);
  const base = { parts, list, stock: stock.stock, kerf, knowsKerf: ownKerf !== undefined };
  if (!found) {
    const says = 'This workbook has no parts table: there is nothing to cut yet.';
    return { ...base, problems, says };
  }
  if (!stock.found) return { ...base, problems };
  const plan = buyingPlan(list.items, stock.stock, { kerf, format: bookFormat(book) });
  return { ...base, plan, problems: [...problems, ...stock.problems, ...plan.problems] };
}

/** Whether a plan is the cheapest, in a sentence. */
export function proofSentence(
  { cost, bound, proven }: Pick<BuyingPlan, 'cost' | 'bound' | 'proven'>,
  money: (amount: number) => string,
): string {
  if (proven) return `${money(cost)}, proven: no plan of this stock costs less.`;
  const gap = ((cost - bound) / cost) * 100;
  return `${money(cost)}, at most ${gap.toFixed(1)} % above the cheapest possible.`;
}
