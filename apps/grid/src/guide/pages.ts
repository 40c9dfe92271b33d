import { type GuideOptions, guidePage, type Paper } from '@kerfbook/guide';
import type { OpenWorkbook } from '@kerfbook/workbook';

interface Wishes extends Pick<GuideOptions, 'plan'> {
  readonly paper: Paper;
}

/** The guide as it is printed, one page of its own. */
export const pageToPrint = (book: OpenWorkbook, wishes: Wishes): string => guidePage(book, wishes);

/** The plan as a reader has it at the size that the workbook has now: what the page holds before anything is chosen. */
export const pageForPreview = (book: OpenWorkbook, wishes: Wishes): string =>
  guidePage(book, { ...wishes, print: false, ticks: true });
