import { countOf, lengthOf, numberOf, optional } from './arguments.ts';
import { HINGE_SOURCE, HINGES_BY_HEIGHT, HINGES_BY_WEIGHT } from './data/hinges.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, leftOver, notNegative, positive, upTo, whole } from './guards.ts';
import { rests } from './rests.ts';
import { BUILT_AT, CUT, changePerInch, HUMID_AT, SEASONS, USED_AT } from './seasonal.ts';

const OPENING_SIZE = lengthOf(
  'opening',
  'width of the opening for its width, height for its height',
);
const DOOR_GAP = lengthOf('gap', 'gap beside each door, and between two');
const DOORS = optional(countOf('doors', 'how many doors stand side by side'), '1');
const OVERLAY = optional(
  lengthOf('overlay', 'how far the doors cover the case at each side'),
  '0: the doors lie inside the opening',
);
const FRAME_WIDTH = lengthOf('frame_width', 'width of the whole frame or door');
const STILE_WIDTH = lengthOf('stile_width', 'width of each stile');
const TENON = optional(lengthOf('tenon', 'length of the tenon at each end'), 'no tenon');
const OPENING = lengthOf(
  'opening',
  'between the inner edges of the frame, across the grain of the panel',
);
const GROOVE_DEPTH = lengthOf('groove_depth', 'depth of the groove in each side of the frame');
const LEAST_GAP = optional(
  lengthOf('least_gap', 'room to keep in each groove even then'),
  '1/16 in (1.6 mm)',
);
const PANEL = lengthOf('panel_width', 'width of the panel across its grain, as it is cut');
const DOOR_HEIGHT = lengthOf('height', 'height of the door');
const DOOR_WEIGHT = optional(numberOf('mass', 'weight', 'weight of the door'), 'by height alone');

const PRACTICE = 'common practice, no source';
const MOST_DOORS = 100;
const USUAL_GAP = 1 / 16;

/**
 * Width (or height) of each door of an opening.
 * @param opening in
 * @param gap in, beside each door and between two
 * @param doors count, 1 when left out
 * @param overlay in, 0 when left out; doors that cover the case have a gap only between two
 * @returns in
 * @throws Fault `kind`; `range` when no door is left
 * Source: common practice, no source.
 */
export function doorSize(opening: number, gap: number, doors = 1, overlay = 0): number {
  const size = positive(OPENING_SIZE, opening);
  const between = notNegative(DOOR_GAP, gap);
  const count = whole(DOORS, doors, 1, MOST_DOORS);
  const cover = notNegative(OVERLAY, overlay);
  const gaps = cover > 0 ? count - 1 : count + 1;
  const taken = [{ argument: DOOR_GAP, value: between, times: gaps }];
  return leftOver(size + 2 * cover, taken, 'a door is left') / count;
}

/**
 * Length of a rail between two stiles, tenons included.
 * @param frameWidth in
 * @param stileWidth in
 * @param tenon in at each end, 0 when left out; the groove's depth where the tenon only fills the groove
 * @returns in: frameWidth − 2 x stileWidth + 2 x tenon
 * @throws Fault `kind`; `range` when no rail is left, or the tenons are longer than the stiles are wide
 * Source: common practice, no source.
 */
export function frameRail(frameWidth: number, stileWidth: number, tenon = 0): number {
  const stile = positive(STILE_WIDTH, stileWidth);
  const joint = between(TENON, tenon, 0, stile);
  const taken = [{ argument: STILE_WIDTH, value: stile, times: 2 }];
  const clear = leftOver(positive(FRAME_WIDTH, frameWidth), taken, 'a rail is left between them');
  return clear + 2 * joint;
}

/**
 * Widest panel of a frame that still has room in its grooves in the most humid season.
 * @param opening in, across the grain of the panel
 * @param grooveDepth in
 * @param species any usual name
 * @param moistureFrom %, at which it is cut
 * @param moistureTo %, in the most humid season
 * @param leastGap in each groove, 1/16 when left out
 * @param cut as of MOVEMENT
 * @returns in: (opening + 2 x (grooveDepth − leastGap)) / (1 + growth of an inch)
 * @throws Fault `kind`, `unknown`; `range`, also when the panel would not reach into both grooves
 * Source: Wood Handbook equation 13-2, solved for the width. The gap is common practice, no source.
 */
export function framePanelWidth(
  opening: number,
  grooveDepth: number,
  species: string,
  moistureFrom: number,
  moistureTo: number,
  leastGap = USUAL_GAP,
  cut: string | number = 'flat',
): number {
  const clear = positive(OPENING, opening);
  const groove = positive(GROOVE_DEPTH, grooveDepth);
  const gap = between(LEAST_GAP, leastGap, 0, groove);
  const growth = Math.max(0, changePerInch(species, moistureFrom, moistureTo, cut));
  const width = (clear + 2 * (groove - gap)) / (1 + growth);
  if (width > clear) return width;
  throw new Fault({
    class: 'range',
    argument: GROOVE_DEPTH.name,
    got: groove,
    quantity: 'length',
    takes: 'more than {n}, or the panel falls out of it',
    bounds: [gap + (clear * growth) / 2],
    hint: 'Deepen the groove, take a quieter cut or wood, or divide the panel with a muntin.',
  });
}

/**
 * Room between the edge of a centred panel and the bottom of each groove in a season.
 * @param panelWidth in, as it is cut
 * @param opening in, across the grain of the panel
 * @param grooveDepth in
 * @param species any usual name
 * @param moistureFrom %, at which it is cut
 * @param moistureTo %, in the season asked about
 * @param cut as of MOVEMENT
 * @returns in, 0 to grooveDepth; grooveDepth less it is what the groove still holds
 * @throws Fault `kind`, `unknown`; `range`, also when the panel bursts the frame or leaves the groove
 * Source: Wood Handbook equation 13-2.
 */
export function framePanelGap(
  panelWidth: number,
  opening: number,
  grooveDepth: number,
  species: string,
  moistureFrom: number,
  moistureTo: number,
  cut: string | number = 'flat',
): number {
  const panel = positive(PANEL, panelWidth);
  const clear = positive(OPENING, opening);
  const groove = positive(GROOVE_DEPTH, grooveDepth);
  const factor = 1 + changePerInch(species, moistureFrom, moistureTo, cut);
  const gap = groove - (panel * factor - clear) / 2;
  const fits = (takes: string, bound: number, hint: string): Fault =>
    new Fault({
      class: 'range',
      argument: PANEL.name,
      got: panel,
      quantity: 'length',
      takes,
      bounds: [bound],
      hint,
    });
  if (gap < -1e-9)
    throw fits(
      '{n} at the most, or it pushes the frame apart in this season',
      (clear + 2 * groove) / factor,
      'FRAME_PANEL_WIDTH gives the width that fits.',
    );
  if (gap > groove + 1e-9)
    throw fits(
      '{n} at least, or it leaves the groove in this season',
      clear / factor,
      'Deepen the groove, or divide the panel with a muntin.',
    );
  return Math.min(groove, Math.max(0, gap));
}

const HINGES = {
  how: 'read',
  source: HINGE_SOURCE,
  note: 'Charts differ by a hinge: that of the maker of the hinges goes before it',
} as const;
const TALLEST = 85;
const HEAVIEST = 35;

/**
 * Concealed (cup) hinges of a cabinet door: by height or by weight, whichever asks for more.
 * @param height in, up to 85
 * @param weight lb, up to 35; by height alone when left out
 * @returns count, 2 to 5
 * @throws Fault `kind`, `range`
 * Source: charts of hardware dealers, read; the makers of hinges differ, theirs goes before it.
 */
export function hingeCount(height: number, weight = 0): number {
  const hint = 'Divide the door, or follow the chart of the maker of the hinges.';
  const tall = upTo(DOOR_HEIGHT, height, TALLEST, hint);
  const heavy = weight === 0 ? 0 : upTo(DOOR_WEIGHT, weight, HEAVIEST, hint);
  const enough = (rows: typeof HINGES_BY_HEIGHT, value: number): number =>
    rows.find(([most]) => value <= most + 1e-9)?.[1] ?? 5;
  const count = Math.max(enough(HINGES_BY_HEIGHT, tall), enough(HINGES_BY_WEIGHT, heavy));
  rests({ of: 'cup hinges of such a door', value: count, quantity: 'count', ...HINGES });
  return count;
}

export const FRAME_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'DOOR_SIZE',
    task: 'Frames and doors',
    answers: 'How wide, or high, each door of an opening is.',
    args: [OPENING_SIZE, DOOR_GAP, DOORS, OVERLAY],
    result: { quantity: 'length', means: 'width or height of one door' },
    source: PRACTICE,
    example: '=DOOR_SIZE(30, 3/32, 2)',
    notes:
      'Inside an opening each door has a gap on both sides; doors that cover the case have one only between two. Solid wood moves: leave more across the grain.',
    run: doorSize,
  },
  {
    name: 'FRAME_RAIL',
    task: 'Frames and doors',
    answers: 'How long a rail between two stiles is, tenons included.',
    args: [FRAME_WIDTH, STILE_WIDTH, TENON],
    result: { quantity: 'length', means: 'length of the rail' },
    source: PRACTICE,
    example: '=FRAME_RAIL(16, 2.25, 3/8)',
    notes:
      'Stiles run the whole height. A tenon that only fills the groove is as long as the groove is deep; a stile cut long by 1 in at each end keeps the mortise from splitting, until it is sawn off.',
    run: frameRail,
  },
  {
    name: 'FRAME_PANEL_WIDTH',
    task: 'Frames and doors',
    answers:
      'How wide to cut a solid panel so that it does not push its frame apart when it swells.',
    args: [OPENING, GROOVE_DEPTH, SPECIES_ARGUMENT, BUILT_AT, HUMID_AT, LEAST_GAP, CUT],
    result: { quantity: 'length', means: 'widest panel across the grain' },
    source: `${SEASONS}, solved for the width; the gap is ${PRACTICE}`,
    example: '=FRAME_PANEL_WIDTH(11.5, 3/8, "red oak", 7, 11)',
    notes:
      'Check FRAME_PANEL_GAP for the dry season too. Along the grain use the opening and both grooves, less a little. Finish the panel before it goes in, and do not glue it, or only at the middle of its ends.',
    run: framePanelWidth,
  },
  {
    name: 'FRAME_PANEL_GAP',
    task: 'Frames and doors',
    answers: 'How much room a panel has in each groove in a season.',
    args: [PANEL, OPENING, GROOVE_DEPTH, SPECIES_ARGUMENT, BUILT_AT, USED_AT, CUT],
    result: { quantity: 'length', means: 'edge of the panel to the bottom of the groove' },
    source: SEASONS,
    example: '=FRAME_PANEL_GAP(12, 11.5, 3/8, "red oak", 7, 11)',
    notes:
      'The panel is assumed to stay centered: a pin at the middle of each rail keeps it so. The groove’s depth less the answer is what still holds.',
    run: framePanelGap,
  },
  {
    name: 'HINGE_COUNT',
    task: 'Frames and doors',
    answers: 'How many cup hinges a cabinet door takes, by its height and its weight.',
    args: [DOOR_HEIGHT, DOOR_WEIGHT],
    result: { quantity: 'count', means: 'hinges, 2 to 5' },
    source: 'charts of hardware dealers and an answer of a maker of hinges, read',
    example: '=HINGE_COUNT(50, 18)',
    notes:
      'Up to 85 in (2.16 m) and 35 lb (15.9 kg), for doors up to about 24 in wide. Charts differ by a hinge: follow the one of your hinge maker.',
    run: hingeCount,
  },
];
