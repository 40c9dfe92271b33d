import { type At, CHECKS_SHEET } from '@kerfbook/document';

/** Where the result of a check is asked for: the checks of a workbook, counted from 0. */
export const checkPlace = (check: number): At => ({ sheet: CHECKS_SHEET, row: check, column: 0 });
