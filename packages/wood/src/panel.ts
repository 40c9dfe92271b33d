import { countOf, lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled } from './exact.ts';
import { Fault } from './fault.ts';
import { between, mostOf, notNegative, positive, sensibleCount, whole } from './guards.ts';
import { type RestsOn, rests } from './rests.ts';
import { pointsAlong } from './spacing.ts';

const PANEL_WIDTH = lengthOf('width', 'finished width of the panel');
const WIDEST = lengthOf('widest', 'widest board you want or can plane');
const COUNT = countOf('count', 'how many boards');
const JOINT_LOSS = optional(
  lengthOf('joint_loss', 'width that jointing takes off at each glue joint, both edges together'),
  'no loss',
);
const BOARDS = countOf('boards', 'how many pieces to join into one');
const AT_ONCE = countOf('at_once', 'pieces glued together in one clamp-up, 2 or more');
const JOINT_LENGTH = lengthOf('length', 'length of the joint');
const SPACING = lengthOf('spacing', 'widest gap between clamps');
const END_DISTANCE = optional(
  lengthOf('end_distance', 'from each end to the first clamp'),
  'clamps right at the ends',
);
const FORCE = optional(
  numberOf('force', 'force', 'force the joint needs, from CLAMP_FORCE'),
  'clamps are counted by their spacing alone',
);
const RATING = optional(
  numberOf('force', 'clamp_rating', 'force one clamp is rated for by its maker'),
  'clamps are counted by their spacing alone',
);
const THICKNESS = lengthOf('thickness', 'thickness of the pieces at the joint');
const PRESSURE = numberOf('pressure', 'pressure', 'pressure wanted on the joint');
const AREA = numberOf('area', 'area', 'area to be bonded, each joint once');
const SPREAD = optional(
  numberOf('coverage', 'spread', 'area that one measure of glue covers'),
  '225 in² per fl oz (200 ft² per gallon), a film of about 0.008 in',
);

const PRACTICE = 'common practice, no source';

/**
 * Fewest equal boards of which none is wider than `widest` before jointing.
 * @param width in, finished width of the panel
 * @param widest in
 * @param jointLoss in, less than `widest`; 0 when left out
 * @returns count, 1 or more: ⌈(width − jointLoss)/(widest − jointLoss)⌉, which is where
 * {@link panelBoardWidth} comes to `widest` or less
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function panelBoards(width: number, widest: number, jointLoss = 0): number {
  const limit = positive(WIDEST, widest);
  const loss = notNegative(JOINT_LOSS, jointLoss);
  const panel = positive(PANEL_WIDTH, width);
  if (panel <= limit) return 1;
  if (loss >= limit) {
    throw new Fault({
      class: 'range',
      argument: JOINT_LOSS.name,
      got: loss,
      quantity: 'length',
      takes: 'less than {n}, the widest board',
      bounds: [limit],
    });
  }
  const count = ceilSettled((panel - loss) / (limit - loss));
  return sensibleCount(Math.max(1, count), WIDEST, limit, 'boards');
}

/**
 * Width of each board before jointing. Gluing `count` boards makes `count - 1` joints, each of which
 * costs `joint_loss` of width in all (both edges together), so
 * count x board width - (count - 1) x joint_loss = width.
 * @param width in, finished width of the panel
 * @param count boards
 * @param jointLoss in, 0 when left out
 * @returns in
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function panelBoardWidth(width: number, count: number, jointLoss = 0): number {
  const boards = whole(COUNT, count, 1);
  const loss = notNegative(JOINT_LOSS, jointLoss);
  return (positive(PANEL_WIDTH, width) + (boards - 1) * loss) / boards;
}

/**
 * Rounds of clamping when each round joins up to `atOnce` pieces into one: the least r with
 * atOnce^r ≥ boards.
 * @param boards count, 1 or more
 * @param atOnce count, 2 or more
 * @returns count; a single board needs none
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function glueStages(boards: number, atOnce: number): number {
  const together = whole(AT_ONCE, atOnce, 2);
  let pieces = whole(BOARDS, boards, 1);
  let rounds = 0;
  // Counted, not taken from logarithms: log(125)/log(5) is a hair over 3.
  while (pieces > 1) {
    pieces = Math.ceil(pieces / together);
    rounds += 1;
  }
  return rounds;
}

/** Less than this no clamp gives: spring clamps are rated for more. */
const WEAKEST_CLAMP = 1;

/**
 * Clamps along a joint so that no gap exceeds `spacing`, one at each end of the clamped stretch, and
 * so that together they give the force where that is asked for.
 * @param length in
 * @param spacing in
 * @param endDistance in, 0 when left out
 * @param force lbf the joint wants; not counted when left out, with the rating
 * @param clampRating lbf one clamp is rated for, 1 or more
 * @returns count: the greater of ⌈(length − 2 x endDistance)/spacing⌉ + 1 and ⌈force/clampRating⌉
 * @throws Fault `kind`, also when only one of force and rating is there; `range`
 * Source: common practice, no source; force over rating is arithmetic.
 */
export function clampCount(
  length: number,
  spacing: number,
  endDistance = 0,
  force?: number,
  clampRating?: number,
): number {
  const spaced = pointsAlong(
    { argument: JOINT_LENGTH, value: length },
    { argument: SPACING, value: spacing },
    { argument: END_DISTANCE, value: endDistance },
    'clamps',
  );
  if (force === undefined && clampRating === undefined) return spaced;
  const needed = notNegative(FORCE, force);
  const rating = between(RATING, clampRating, WEAKEST_CLAMP, mostOf('force'));
  return Math.max(spaced, sensibleCount(ceilSettled(needed / rating), RATING, rating, 'clamps'));
}

/**
 * Clamping force for a joint: pressure over its face.
 * @param length in
 * @param thickness in
 * @param pressure psi; 100 to 150 for light woods, 150 to 200 for medium, 200 to 300 for dense
 * @returns lbf
 * @throws Fault `kind`, `range`
 * Source: force is pressure times area; the pressures are a glue maker's guide (read).
 */
export function clampForce(length: number, thickness: number, pressure: number): number {
  return (
    positive(JOINT_LENGTH, length) *
    positive(THICKNESS, thickness) *
    notNegative(PRESSURE, pressure)
  );
}

/** Middle of the usual 160 to 267 ft² per gallon: 200 ft² x 144 / 128 fl oz. Value from memory. */
const USUAL_SPREAD = 225;
const USUAL_FILM: RestsOn = {
  of: 'Glue: area that a fluid ounce covers',
  value: USUAL_SPREAD,
  quantity: 'coverage',
  how: 'memory',
  source: 'data sheets of glue makers',
};
/** A fluid ounce on a hundredth of a square inch: nobody spreads glue thicker. */
const THICKEST_SPREAD = 0.01;

/**
 * Glue for a bonded area.
 * @param area in², each joint once
 * @param spread in² per fl oz, 0.01 or more; 225 when left out
 * @returns fl oz
 * @throws Fault `kind`, `range`
 * Source: area over coverage; the usual spread is a value from memory.
 */
export function glueVolume(area: number, spread = USUAL_SPREAD): number {
  if (spread === USUAL_SPREAD) rests(USUAL_FILM);
  return notNegative(AREA, area) / between(SPREAD, spread, THICKEST_SPREAD, mostOf('coverage'));
}

export const PANEL_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PANEL_BOARDS',
    formerly: 'STAVE_COUNT',
    task: 'Panel glue-up',
    answers: 'How many equal boards make a panel when none may be wider than a given width.',
    args: [PANEL_WIDTH, WIDEST, JOINT_LOSS],
    result: { quantity: 'count', means: 'fewest boards' },
    source: PRACTICE,
    example: '=PANEL_BOARDS(42, 5.5, 1/16)',
    notes:
      'With joint_loss, no board is wider than widest before it is jointed; without it, none is in the finished panel.',
    run: panelBoards,
  },
  {
    name: 'PANEL_BOARD_WIDTH',
    formerly: 'STAVE_WIDTH',
    task: 'Panel glue-up',
    answers: 'How wide each board must be before its edges are jointed.',
    args: [PANEL_WIDTH, COUNT, JOINT_LOSS],
    result: { quantity: 'length', means: 'width of each board before jointing' },
    source: PRACTICE,
    example: '=PANEL_BOARD_WIDTH(42, 8, 1/8)',
    notes: 'count x board width - (count - 1) x joint_loss = panel width.',
    run: panelBoardWidth,
  },
  {
    name: 'GLUE_STAGES',
    task: 'Panel glue-up',
    answers: 'How many rounds of clamping it takes to join all boards, a few at a time.',
    args: [BOARDS, AT_ONCE],
    result: { quantity: 'count', means: 'rounds of clamping' },
    source: PRACTICE,
    example: '=GLUE_STAGES(8, 2)',
    run: glueStages,
  },
  {
    name: 'CLAMP_COUNT',
    task: 'Panel glue-up',
    answers: 'How many clamps a joint needs: no gap too wide, and enough force.',
    args: [JOINT_LENGTH, SPACING, END_DISTANCE, FORCE, RATING],
    result: { quantity: 'count', means: 'clamps' },
    source: PRACTICE,
    example: '=CLAMP_COUNT(84, 12, 2, 22050, 1000)',
    notes:
      'A parallel-jaw clamp is rated for about 1,000 to 1,100 lb (4,900 N), read in a magazine test; a light bar clamp for 300 to 450, from memory. Well-fitted edges close with less than the pressure glue makers ask for; clamps will not fix a joint that does not fit.',
    run: clampCount,
  },
  {
    name: 'CLAMP_FORCE',
    task: 'Panel glue-up',
    answers: 'How much force all clamps together need to press a joint.',
    args: [JOINT_LENGTH, THICKNESS, PRESSURE],
    result: { quantity: 'force', means: 'force of all clamps together' },
    source: 'force is pressure times area; pressures of a glue maker’s guide, read',
    example: '=CLAMP_FORCE(84, 1.75, 150)',
    notes:
      '100 to 150 psi (0.7 to 1 MPa) for pine and poplar, 150 to 200 (1 to 1.4) for cherry and soft maple, 200 to 300 (1.4 to 2.1) for oak and birch. The Wood Handbook, chapter 10, goes from 100 to 250 (from memory). Follow the maker of your glue.',
    run: clampForce,
  },
  {
    name: 'GLUE_VOLUME',
    task: 'Panel glue-up',
    answers: 'How much glue a bonded area takes.',
    args: [AREA, SPREAD],
    result: { quantity: 'liquid', means: 'glue' },
    source: 'area over coverage; the usual spread is a value from memory',
    example: '=GLUE_VOLUME(7*84*1.75)',
    notes: 'Allow extra for what is squeezed out and left in the bottle.',
    run: glueVolume,
  },
];
