import { withDayCounted } from '@kerfbook/functions/computing';
import type { HyperFormula } from 'hyperformula';
import { insideOf } from './inside.ts';

/**
 * Lets conditions name a day: `COUNTIF(A1:A9, ">=2026-03-14")`. The engine reads no dates at all, since `1 1/2` is
 * a length here, so that it would look for words that nothing holds.
 */
export function readDaysInConditions(engine: HyperFormula): void {
  const { criterionBuilder } = insideOf(engine)._evaluator.interpreter;
  const read = criterionBuilder.fromCellValue.bind(criterionBuilder);
  criterionBuilder.fromCellValue = (raw, helper) => read(withDayCounted(raw), helper);
}
