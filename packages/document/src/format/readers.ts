/** What reads cells by their names, as a workbook promises it. */
export const READERS = [
  'cutting-plan',
  'drawing',
  'buying-list',
  'rack',
  'glue-up',
  'fasteners',
  'finish',
  'customer-page',
  'jobs',
] as const;

/** One of them. */
export type Reader = (typeof READERS)[number];
