import type { OpenWorkbook } from '@kerfbook/workbook';

/**
 * The workbook as it stands after a change: a new object each time, since the open workbook is one
 * object that changes within.
 */
export interface Seen {
  readonly book: OpenWorkbook;
}
