import type { Quantity } from '@kerfbook/wood';
import { READERS, type Reader } from './readers.ts';

/**
 * Names of cells that other parts of the program look for, in any workbook: drawings, plans and the
 * sheets of paper for the shop. Whoever reads a cell by its name reads it through this table; a
 * template that promises a sheet has all of its names, each of its quantity (`promises`).
 */

/** A name that is looked for. */
export interface KnownName {
  /** In small letters. */
  readonly name: string;
  /** What its cell is for. */
  readonly quantity: Quantity;
  /** What it is called where it is read. */
  readonly means: string;
  /** What happens where no cell has the name; left out where only its line is missing then. */
  readonly without?: string;
  /** A promise does not ask for it: workbooks without it are as whole as with it. */
  readonly optional?: true;
}

/** Who reads by name, and which names. */
export interface KnownReader {
  /** As it stands in a sentence. */
  readonly says: string;
  /** In the order in which they are shown. */
  readonly names: readonly KnownName[];
}

/** A name that is read and shown as a line of its own. */
const line = (name: string, quantity: Quantity, means: string): KnownName => ({
  name,
  quantity,
  means,
});

/** A name that something is reckoned from. */
const basis = (name: string, quantity: Quantity, means: string, without: string): KnownName => ({
  ...line(name, quantity, means),
  without,
});

/** One that is read where the workbook has it, and not missed where it has not. */
const perhaps = (one: KnownName): KnownName => ({ ...one, optional: true });

const RAIL = 'That side has no fasteners on the sheet.';
const NO_FASTENERS = 'There is no fastener sheet.';
const NO_KIND = 'The sheet does not say which kind stands there.';
const NO_KIND_TO_BUY = 'The list counts fasteners and does not say which.';
const NO_WAY = 'The sheet does not show which way they point.';
const NO_NEED = 'The sheet does not say what each of them has to travel.';
const NO_POCKETS = 'The sheet is of the fasteners of the top alone.';
const NO_SEASONS = 'The drawing does not show how the top moves.';

/** A bench has a seat where a table has a top. */
const SEAT: KnownName = {
  ...basis('seat_width', 'length', 'Width of a seat', 'The sheet speaks of a top, and of no seat.'),
  optional: true,
};

/** Every name that is looked for, by who reads it. */
export const KNOWN_NAMES: Readonly<Record<Reader, KnownReader>> = {
  'cutting-plan': {
    says: 'the cutting plan',
    names: [
      basis(
        'kerf',
        'length',
        'Width of one saw cut',
        'Plans count saw cuts as taking no wood, prove nothing and ask for it.',
      ),
      perhaps(
        basis(
          'end_trim',
          'length',
          'What is trimmed off each end of a board that is bought',
          'Boards are planned from end to end.',
        ),
      ),
      perhaps(
        basis(
          'moisture_build',
          'moisture',
          'How moist the wood is when it is built with: so moist the parts are weighed',
          'They are weighed at 12 %.',
        ),
      ),
    ],
  },
  drawing: {
    says: 'the drawing',
    names: [
      basis(
        'movement_from_build_dry',
        'length',
        'How far the whole top moves from the day it is built to the dry season',
        NO_SEASONS,
      ),
      basis(
        'movement_from_build_humid',
        'length',
        'How far it moves to the humid season',
        NO_SEASONS,
      ),
    ],
  },
  'buying-list': {
    says: 'the buying list',
    names: [
      perhaps(line('fastener_count', 'count', 'Top fasteners, with screws')),
      perhaps(basis('fastener_spacing', 'length', 'Fastener spacing, at most', NO_KIND_TO_BUY)),
      perhaps(
        basis('fastener_end', 'length', 'First fastener from the end of the rail', NO_KIND_TO_BUY),
      ),
      perhaps(basis('clear_long', 'length', 'Long apron, clear between the legs', NO_KIND_TO_BUY)),
      perhaps(
        basis('clear_short', 'length', 'Short apron, clear between the legs', NO_KIND_TO_BUY),
      ),
      perhaps(
        basis('fastener_long', 'text', 'Kind of fastener on the long aprons', NO_KIND_TO_BUY),
      ),
      perhaps(
        basis('fastener_short', 'text', 'Kind of fastener on the short aprons', NO_KIND_TO_BUY),
      ),
      perhaps(line('pocket_screw_count', 'count', 'Pocket screws')),
      perhaps(
        basis('pocket_screw', 'length', 'Length of a pocket screw', 'The list does not say it.'),
      ),
      perhaps(line('hinges_all', 'count', 'Hinges, with screws')),
      perhaps(line('pin_count', 'count', 'Shelf pins')),
      perhaps(line('anchor_count', 'count', 'Wall anchors made to hold furniture')),
      perhaps(line('slide_pairs', 'count', 'Drawer slides, pairs')),
      perhaps(
        basis(
          'price_days',
          'count',
          'Days after which a price of the price list is old',
          'Prices are old after 180 days.',
        ),
      ),
      perhaps(
        basis('slide_length', 'length', 'Length of a drawer slide', 'The list does not say it.'),
      ),
      perhaps(line('pull_count', 'count', 'Drawer pulls')),
      perhaps(line('rod_length', 'length', 'Threaded rod, with nuts and plates')),
      perhaps(line('band_rolls', 'count', 'Edge banding, rolls')),
      line('finish_cans', 'count', 'Cans of finish'),
      basis('finish', 'text', 'What it is finished with', 'The list does not name the finish.'),
      basis('can_size', 'liquid', 'What a can of finish holds', 'The list does not say it.'),
      perhaps(line('glue_volume', 'liquid', 'Glue')),
      SEAT,
    ],
  },
  rack: {
    says: 'the sheet of boards from the rack',
    names: [
      basis(
        'widest_board',
        'length',
        'Widest board of a panel',
        'Boards are ripped no wider than the parts table says.',
      ),
      basis(
        'joint_loss',
        'length',
        'Lost at each glue joint',
        'Joints are taken to cost no width.',
      ),
    ],
  },
  'glue-up': {
    says: 'the glue-up sheet',
    names: [
      line('panel_board_width', 'length', 'Width of each board, before jointing'),
      line('joint_loss', 'length', 'Lost at each glue joint'),
      line('clamp_count_spaced', 'count', 'Clamps for one joint, by spacing'),
      line('clamp_count', 'count', 'Clamps for one joint, at full pressure'),
      line('clamp_spacing', 'length', 'Clamp spacing, at most'),
      line('clamp_end', 'length', 'First clamp from the end'),
      line('clamp_pressure', 'pressure', 'Pressure on the glue line'),
      perhaps(line('planed_thickness', 'length', 'Thickness at glue-up, planed')),
      perhaps(line('panel_board_length', 'length', 'Length of each joint, before trimming')),
      line('clamp_force', 'force', 'Force on one joint, all clamps together'),
      line('glue_volume', 'liquid', 'Glue'),
      line('wait_glue', 'duration', 'Glue setting time, all rounds'),
      basis(
        'at_once',
        'count',
        'Pieces joined in one clamp-up',
        'The sheet asks for it in place of the rounds of gluing.',
      ),
      basis(
        'glue_wait',
        'duration',
        'How long the glue sets after each round',
        'Each round says: as long as the bottle says.',
      ),
    ],
  },
  fasteners: {
    says: 'the fastener sheet',
    names: [
      line('fastener_reach_long', 'length', 'Travel each way, long aprons'),
      line('fastener_reach_short', 'length', 'Travel each way, short aprons'),
      // No fastener stands there: as a need it would be held against what those at the aprons travel.
      line('fastener_need', 'length', 'Top moves each way at its edge'),
      // Of tongues in a groove, which not every way to fasten a top has.
      perhaps(line('groove_edge', 'length', 'Groove in the aprons, from their upper edge')),
      perhaps(line('groove_width', 'length', 'Width of the groove')),
      perhaps(line('groove_depth', 'length', 'Depth of the groove')),
      perhaps(line('tongue_length', 'length', 'Tongue of a button or clip, shoulder to tip')),
      perhaps(line('tongue_gap', 'length', 'Gap at its shoulder on the day it is built')),
      perhaps(line('slot_length', 'length', 'Slot in a cross support, across the grain')),
      line('top_screw', 'length', 'Screw into the top'),
      line('top_screw_longest', 'length', 'Longest screw that stays inside'),
      line('movement_swing', 'length', 'Movement of the whole top, dry to humid season'),
      basis('fastener_spacing', 'length', 'Fastener spacing, at most', NO_FASTENERS),
      basis('fastener_end', 'length', 'First fastener from the end of the rail', NO_FASTENERS),
      basis('clear_long', 'length', 'Long apron, clear between the legs', RAIL),
      basis('clear_short', 'length', 'Short apron, clear between the legs', RAIL),
      basis('fastener_long', 'text', 'Kind of fastener on the long aprons', NO_KIND),
      basis('points_long', 'text', 'How those point: square to the apron or along it', NO_WAY),
      basis('fastener_need_long', 'length', 'Travel needed, long aprons', NO_NEED),
      basis('fastener_short', 'text', 'Kind of fastener on the short aprons', NO_KIND),
      basis('points_short', 'text', 'How those point: square to the apron or along it', NO_WAY),
      basis('fastener_need_short', 'length', 'Travel needed, short aprons, at their ends', NO_NEED),
      perhaps(basis('pocket_screw_count', 'count', 'Pocket screws', NO_POCKETS)),
      perhaps(
        basis('pocket_screw', 'length', 'Length of a pocket screw', 'The sheet does not say it.'),
      ),
      perhaps(
        basis(
          'pocket_screws_each',
          'count',
          'Pocket screws in one end of a piece',
          'The sheet does not say where each of them goes.',
        ),
      ),
      SEAT,
    ],
  },
  finish: {
    says: 'the finish sheet',
    names: [
      perhaps(line('area_top', 'area', 'Top')),
      perhaps(line('area_base', 'area', 'Base')),
      perhaps(line('area_drawers', 'area', 'Drawers')),
      line('area_finish', 'area', 'All surfaces'),
      line('coverage', 'coverage', 'Coverage'),
      perhaps(line('first_coat_more', 'percent', 'Extra for the first coat')),
      perhaps(line('finish_loss', 'percent', 'Lost in rags and brushes')),
      line('finish_volume', 'liquid', 'Finish needed'),
      line('finish_cans', 'count', 'Cans'),
      line('wait_finish', 'duration', 'Waiting after coats, without curing'),
      basis('coats', 'count', 'Coats of finish', 'There is no finish sheet.'),
      basis('finish', 'text', 'What it is finished with', 'The sheet does not name the finish.'),
      basis('can_size', 'liquid', 'What a can holds', 'The sheet does not say it.'),
      basis('grit_steps', 'text', 'Grits to sand with, in turn', 'No step says what to sand with.'),
      basis('recoat_hours', 'duration', 'Wait between two coats', 'No coat says how long to wait.'),
      SEAT,
    ],
  },
  'customer-page': {
    says: 'the quote for the customer',
    names: [
      perhaps(
        basis('work_name', 'text', 'What it is', 'The title of the workbook stands in its place.'),
      ),
      perhaps(line('species', 'text', 'Wood')),
      line('finish', 'text', 'Finish'),
      perhaps(line('seats', 'count', 'Seats')),
      perhaps(basis('included', 'text', 'What the price includes', 'The piece as it is drawn.')),
      perhaps(
        basis(
          'not_included',
          'text',
          'What it does not include',
          'What neither the quote nor the terms name.',
        ),
      ),
      line('price', 'money', 'Price'),
      basis(
        'quoted_price',
        'money',
        'Price that was quoted',
        'The price is shown as it is worked out.',
      ),
      perhaps(
        basis(
          'quote_rounded',
          'money',
          'Price that was rounded, before tax',
          'The price is that of the cell named price.',
        ),
      ),
      perhaps(basis('tax_percent', 'percent', 'Rate of tax on the price', 'There is no tax.')),
      perhaps(
        basis(
          'quote_with_tax',
          'money',
          'The rounded price with its tax',
          'It is worked out from the rate.',
        ),
      ),
      perhaps(line('price_per_seat', 'money', 'Price per seat')),
      line('deposit', 'money', 'Deposit'),
      perhaps(
        basis(
          'deposit_percent',
          'percent',
          'Rate of the deposit',
          'The deposit is that of the cell named deposit, whatever was quoted.',
        ),
      ),
      perhaps(
        basis(
          'second_percent',
          'percent',
          'Rate of the second payment, once the work is under way',
          'What the deposit leaves is due on delivery.',
        ),
      ),
      perhaps(
        basis(
          'quote_deposit',
          'money',
          'Deposit on the rounded price with its tax',
          'It is worked out from the rate.',
        ),
      ),
      perhaps(
        basis(
          'care',
          'text',
          'How to care for it',
          'What suits finished wood in general is printed.',
        ),
      ),
      perhaps(line('dry_humidity', 'humidity', 'Humidity of the air in the dry season')),
      perhaps(line('humid_humidity', 'humidity', 'Humidity of the air in the humid season')),
      perhaps(line('moisture_dry', 'moisture', 'What wood settles at in the dry season')),
      perhaps(line('moisture_humid', 'moisture', 'What wood settles at in the humid season')),
      perhaps(line('movement_swing', 'length', 'Movement of the whole top over a year')),
      perhaps(line('movement_from_build_dry', 'length', 'How far it moves to the dry season')),
      perhaps(line('movement_from_build_humid', 'length', 'How far it moves to the humid season')),
      SEAT,
    ],
  },
  jobs: {
    says: 'the list of jobs',
    names: [
      perhaps(
        basis(
          'job_state',
          'text',
          'How the job stands: asked, quoted, accepted, in the shop, delivered or paid',
          'The workbook is no job, and in no list of jobs.',
        ),
      ),
    ],
  },
};

/** What a cell of this name is read by, each with what it takes the cell for. */
export function readersOf(
  name: string,
): readonly { readonly reader: Reader; readonly says: string; readonly known: KnownName }[] {
  return READERS.flatMap((reader) => {
    const { says, names } = KNOWN_NAMES[reader];
    const known = names.find((one) => one.name === name.toLowerCase());
    return known === undefined ? [] : [{ reader, says, known }];
  });
}
