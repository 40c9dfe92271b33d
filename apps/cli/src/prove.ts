import { keepFurther, plansAskedIn } from '@kerfbook/cutting';
import { provePlan } from '@kerfbook/cutting/proof';
import { cellPlans } from '@kerfbook/drawing';
import type { Workbook } from '@kerfbook/workbook';

/**
 * Has every buying plan that a workbook's cells rest on looked for as far as it goes, and its cells worked out
 * with what was found.
 * @param further asks for plans beside the cells, which are looked for too
 */
export async function provePlans(
  book: Workbook,
  further?: (book: Workbook) => unknown,
): Promise<void> {
  const asked = [
    ...cellPlans(book).map((one) => one.asked),
    ...plansAskedIn(() => further?.(book)),
  ];
  const done = new Set<string>();
  let other = false;
  for (const { job, plan, state } of asked) {
    const key = JSON.stringify(job);
    if (state !== 'open' || done.has(key)) continue;
    done.add(key);
    if (keepFurther(job, await provePlan(job), plan)) other = true;
  }
  if (other) book.recalculate();
}
