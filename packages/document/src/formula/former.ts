/** Names of cells that other parts of the program look for, as they were called in the first version. */
export const FORMER_NAMES: ReadonlyMap<string, string> = new Map([
  ['stave_count', 'panel_boards'],
  ['stave_width', 'panel_board_width'],
  ['stave_length', 'panel_board_length'],
  ['widest_stave', 'widest_board'],
]);

/** Heads of parts tables that had no meaning in the first version: columns headed so were the maker's own. */
export const HEADS_SINCE_FIRST: ReadonlySet<string> = new Set([
  'boards',
  'board width',
  'board length',
]);
