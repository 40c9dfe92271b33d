/** Named cells that a shop sheet shows as they are, each with what it is called there. */
export type Facts = readonly (readonly [name: string, says: string])[];

export const GLUE_FACTS: Facts = [
  ['panel_board_width', 'Width of each board, before jointing'],
  ['joint_loss', 'Lost at each glue joint'],
  ['clamp_count', 'Clamps for one joint'],
  ['clamp_spacing', 'Between clamps, at most'],
  ['clamp_end', 'First clamp from the end'],
  ['clamp_pressure', 'Pressure on the glue line'],
  ['clamp_force', 'Force on a joint, together'],
  ['glue_volume', 'Glue'],
  ['wait_glue', 'The glue rests, together'],
];

export const FASTENER_FACTS: Facts = [
  ['fastener_need', 'Travel needed each way, at the edge'],
  ['fastener_reach', 'Travel a fastener has each way'],
  ['slot_length', 'Slot in a cross support, across the grain'],
  ['top_screw', 'Screw into the top'],
  ['top_screw_longest', 'Longest screw that stays inside'],
  ['movement_swing', 'The whole top, dry to humid season'],
];

export const FINISH_FACTS: Facts = [
  ['area_top', 'Top'],
  ['area_base', 'Base'],
  ['area_finish', 'All surfaces'],
  ['coverage', 'It covers'],
  ['finish_volume', 'Finish needed'],
  ['finish_cans', 'Cans'],
  ['wait_finish', 'Waiting, together'],
];

/** Hardware and finish that named cells know of, beside the boards. */
export const BESIDE_BOARDS: Facts = [
  ['fastener_count', 'Fasteners of the top, with screws'],
  ['finish_cans', 'Cans of finish'],
  ['glue_volume', 'Glue'],
];

const names = (facts: Facts): readonly string[] => facts.map(([name]) => name);

/** What each sheet reads by name, shown there or reckoned with. */
const READ: readonly (readonly [sheet: string, names: readonly string[]])[] = [
  ['the drawing', ['movement_from_build_dry', 'movement_from_build_humid']],
  ['the buying list', names(BESIDE_BOARDS)],
  ['the sheet of boards from the rack', ['widest_board', 'joint_loss']],
  ['the glue-up sheet', [...names(GLUE_FACTS), 'at_once', 'glue_wait']],
  [
    'the fastener sheet',
    [...names(FASTENER_FACTS), 'fastener_spacing', 'fastener_end', 'clear_long', 'clear_short'],
  ],
  ['the finish sheet', [...names(FINISH_FACTS), 'coats', 'grit_steps', 'recoat_hours']],
];

/** The shop sheets that a cell of this name comes on. */
export const sheetsThatRead = (name: string): readonly string[] =>
  READ.flatMap(([sheet, read]) => (read.includes(name) ? [sheet] : []));
