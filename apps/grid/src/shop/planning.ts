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
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { numberOf } from './words.ts';

/** Everything that the parts and stock tables of a workbook come to. */
export interface Planning {
  readonly parts: readonly Part[];
  readonly list: CutList;
  /** Left out where the workbook has no stock table. */
  readonly plan?: BuyingPlan;
  /** mm */
  readonly kerf: number;
  readonly problems: readonly PartProblem[];
  /** What is missing altogether. */
  readonly says?: string;
}

/** Plans a workbook's parts; quick enough for every edit with `cell`. */
export function planningOf(book: OpenWorkbook, effort: 'cell' | 'proof'): Planning {
  const { parts, problems, found } = readParts(book);
  const list = cutList(parts);
  const kerf = mmFromOwn(numberOf(book, 'kerf') ?? 0, book.units);
  const stock = readStock(book);
  if (!found) {
    const says = 'This workbook has no parts table: there is nothing to cut yet.';
    return { parts, list, kerf, problems, says };
  }
  if (!stock.found) return { parts, list, kerf, problems };
  const plan = buyingPlan(list.items, stock.stock, { kerf, effort, format: bookFormat(book) });
  return { parts, list, plan, kerf, problems: [...problems, ...stock.problems, ...plan.problems] };
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
