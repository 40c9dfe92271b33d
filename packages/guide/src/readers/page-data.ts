import type { BookDocument } from '@kerfbook/workbook';

/** What a page for readers carries for its script. */
export interface PageData {
  /** What ticks are kept under: the plan, whatever state of it was handed out. */
  readonly plan: string;
  /** The workbook at the size of its maker. */
  readonly book: BookDocument;
  /** The day that stands on the cover. */
  readonly day?: string;
  /** Where the source of the program lies. */
  readonly source?: string;
}

/** Ids of the elements that the script looks for. */
export const PAGE_IDS = {
  noScript: 'guide-no-script',
  pages: 'guide-pages',
  program: 'guide-program',
  data: 'guide-data',
} as const;
