/** What the saved form allows, apart from its shapes: whoever only asks for a limit does without their library. */

/** The version that is written; older ones are read through `loading/migrate.ts`. */
export const DOCUMENT_VERSION = 8;

/** What reader, edits and engine accept, counted in the saved form, so that what was accepted opens again. */
export const LIMITS = {
  sheets: 50,
  rows: 10_000,
  columns: 702,
  text: 8_192,
  formula: 2_000,
  /**
   * Letters of a formula as it is kept. A reference takes two letters at least as typed and one beside
   * it; kept, it takes up to 72: nothing that may be typed (`text`) or computed (`formula`) is longer.
   */
  kept: 80_000,
  /** Letters of a whole saved workbook. */
  book: 20 * 1024 * 1024,
  checks: 500,
  tables: 50,
  sheetName: 31,
  frozen: 20,
  groups: 3,
  results: 20,
  tags: 12,
  tag: 30,
  /** Letters of the revision that a workbook carries along, squeezed. */
  carried: 6 * 1024 * 1024,
  /** Letters of a logo: it goes along with every copy, and in links. */
  logo: 32 * 1024,
  /** Letters of a photograph: about 1,280 px across. */
  photo: 320 * 1024,
  photos: 60,
  /** Inputs that readers of a plan may change. */
  opened: 40,
} as const;

/** Backgrounds of cells, named for what they look like in a shop. */
export const BACKGROUNDS = ['sand', 'clay', 'slate', 'ash', 'plum'] as const;

/** What the page for readers may be tinted with, named for what it looks like in a shop. */
export const TONES = ['graphite', 'walnut', 'cherry', 'moss', 'milk'] as const;

/** What of a workbook readers of its plan need not see. */
export const HIDDEN_FROM_READERS = ['costs', 'notes'] as const;

/** What tables with known columns can be of. */
export const TABLE_KINDS = [
  'parts',
  'stock',
  'woods',
  'screws',
  'finishes',
  'joints',
  'steps',
  'words',
  'studies',
  'variants',
  'operations',
  'hours',
  'prices',
] as const;
