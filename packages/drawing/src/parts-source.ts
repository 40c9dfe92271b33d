import type { At, OpenWorkbook } from '@kerfbook/workbook';

/**
 * What a drawing needs of an open workbook: its units, where its tables are, and what cells come
 * to. Small, so that a drawing can be made (and tested) without an engine.
 */
export type PartsSource = Pick<OpenWorkbook, 'units' | 'tables' | 'sheet' | 'value'>;

/** Something about a parts table its maker should look at. */
export interface PartProblem {
  readonly at: At;
  /** One sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
}
