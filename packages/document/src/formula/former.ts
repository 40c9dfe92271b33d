/**
 * Functions that were called otherwise in the first version of the format. A file of then is brought
 * up to today's names when it is read; a formula typed with one of these is told the name of today.
 */
export const FORMER_FUNCTIONS: ReadonlyMap<string, string> = new Map([
  ['STAVE_COUNT', 'PANEL_BOARDS'],
  ['STAVE_WIDTH', 'PANEL_BOARD_WIDTH'],
  ['STAVES_PICK', 'BOARDS_PICK'],
  ['STAVES_PICK_WIDTH', 'BOARDS_PICK_WIDTH'],
]);

/** The same for names of cells that other parts of the program look for. */
export const FORMER_NAMES: ReadonlyMap<string, string> = new Map([
  ['stave_count', 'panel_boards'],
  ['stave_width', 'panel_board_width'],
  ['stave_length', 'panel_board_length'],
  ['widest_stave', 'widest_board'],
]);
