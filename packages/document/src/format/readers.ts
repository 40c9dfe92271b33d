/** What reads cells by their names, as a workbook may promise it. */
export const PROMISED = [
  'cutting-plan',
  'drawing',
  'buying-list',
  'rack',
  'glue-up',
  'fasteners',
  'finish',
  'customer-page',
] as const;

/** All that reads cells by their names. What makes a workbook a job is begun with it, and promised by no file. */
export const READERS = [...PROMISED, 'jobs'] as const;

/** One of them. */
export type Reader = (typeof READERS)[number];
