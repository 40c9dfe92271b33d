import { lengthOf, optional } from './arguments.ts';
import {
  METRIC_SOURCE,
  ROOT_SOURCE,
  SCREW_STEEL,
  SHANK_SOURCE,
  STEEL_SOURCE,
  TESTED_SCREWS,
  TESTED_SOURCE,
} from './data/screws.ts';
import type { FunctionDescription } from './describe.ts';
import { floorSettled, settle } from './exact.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, notNegative, positive } from './guards.ts';
import { type RestsOn, rests } from './rests.ts';
import { diameterTaken, rootTaken, SCREW_ARGUMENT, screwSize } from './screw-size.ts';
import { GRAIN, isEndGrain } from './screws.ts';
import { pointsAlong } from './spacing.ts';
import { specificGravity } from './species.ts';

const THICKNESS = lengthOf('thickness', 'thickness of the piece that gets the pockets');
const THROUGH = lengthOf('through', 'thickness the screw passes through');
const INTO = lengthOf('into', 'thickness of the piece it bites into');
const KEEP_BACK = lengthOf('keep_back', 'how far short of the far face it must stop');
const LENGTH_STEP = optional(
  lengthOf('length_step', 'from one stocked length to the next: 1/4 in, or MM(5)'),
  '1/4 in',
);
const LINE_LENGTH = lengthOf('length', 'length of the joint');
const SPACING = lengthOf('spacing', 'widest gap between fasteners');
const END_DISTANCE = optional(
  lengthOf('end_distance', 'from each end to the first fastener'),
  'fasteners right at the ends',
);
const MOVEMENT = lengthOf('movement', 'full movement of the top at this screw');
const SCREW_SIZE = lengthOf('screw_diameter', 'diameter of the screw at the slot');
const SPARE = optional(lengthOf('spare', 'total extra length of the slot'), 'no extra length');

const PENETRATION = lengthOf('penetration', 'length of thread in the wood');

const PRACTICE = 'common practice, no source';

/**
 * Diameter of a wood screw: of the shank by gauge, of the outside of the thread by metric size.
 * @param gauge whole number, 0 to 24, or words such as `No. 8`, `4 mm`, `4.5 x 40`
 * @returns in: 0.060 + 0.013 x gauge, or what the workbook's own table of screws says
 * @throws Fault `kind`, `range`, `unknown`
 * Source: ASME B18.6.1 (diameters of gauges 0 to 14 read); DIN 7998 for metric sizes.
 */
export function screwDiameter(gauge: number | string): number {
  return diameterTaken(screwSize(gauge));
}

/** Least thickness of the piece, and the screw it takes, in. */
const POCKET_SCREWS = [
  [0.5, 1],
  [0.625, 1],
  [0.75, 1.25],
  [0.875, 1.5],
  [1, 1.5],
  [1.125, 1.5],
  [1.25, 2],
  [1.375, 2],
  [1.5, 2.5],
] as const;

const POCKET_LIST: RestsOn = {
  of: 'Length of pocket screws by thickness',
  how: 'practice',
  source: 'no source: try it in scrap',
};

/** Sheets and dressed boards run a little under their inch size: 18 and 19 mm are sold as 3/4 in. */
const THINNER_BY = 3 / 64;
const THINNEST = 0.5;
const THICKEST = 1.5;

/**
 * Pocket screw for a thickness: the longest that suits the next thinner row of the usual list.
 * @param thickness in, 1/2 to 1-1/2; up to 3/64 under a row counts as the row
 * @returns in
 * @throws Fault `kind`; `range` outside the list
 * Source: common practice, no source.
 */
export function pocketScrew(thickness: number): number {
  const thick = between(
    THICKNESS,
    thickness,
    THINNEST - THINNER_BY,
    THICKEST + THINNER_BY,
    'Try other sizes in scrap, from both sides.',
  );
  const row = POCKET_SCREWS.findLast(([least]) => thick >= least - THINNER_BY - 1e-9);
  rests(POCKET_LIST);
  return row?.[1] ?? 1;
}

const SHORTEST_SCREW = 0.5;
const SCREW_STEP = 0.25;
const [FINEST_STEP, COARSEST_STEP] = [0.01, 1];

/**
 * Longest stocked screw, in even steps from 1/2 in, that passes `through` and stops `keepBack`
 * short of the far face of `into`.
 * @param through in
 * @param into in
 * @param keepBack in
 * @param lengthStep in, 0.01 to 1; 1/4 when left out
 * @returns in; a multiple of the step
 * @throws Fault `kind`; `range` when no standard length bites at all
 * Source: common practice, no source.
 */
export function screwLongest(
  through: number,
  into: number,
  keepBack: number,
  lengthStep = SCREW_STEP,
): number {
  const step = between(LENGTH_STEP, lengthStep, FINEST_STEP, COARSEST_STEP);
  const passed = positive(THROUGH, through);
  const depth = positive(INTO, into);
  const kept = between(KEEP_BACK, keepBack, 0, depth);
  const longest = floorSettled((passed + depth - kept) / step) * step;
  if (longest >= SHORTEST_SCREW && longest > passed + 1e-9) return longest;
  throw new Fault({
    class: 'range',
    argument: INTO.name,
    got: depth,
    quantity: 'length',
    takes: 'enough thickness for a standard screw to bite and still stop {n} short',
    bounds: [kept],
    hint: 'Counterbore what the screw passes through, or use another fastener.',
  });
}

/**
 * Fasteners along a joint so that no gap exceeds `spacing`, one at each end of the stretch.
 * @param length in
 * @param spacing in
 * @param endDistance in, 0 when left out
 * @returns count: ⌈(length − 2 x endDistance)/spacing⌉ + 1
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function fastenerCount(length: number, spacing: number, endDistance = 0): number {
  return pointsAlong(
    { argument: LINE_LENGTH, value: length },
    { argument: SPACING, value: spacing },
    { argument: END_DISTANCE, value: endDistance },
    'fasteners',
  );
}

/**
 * Length of the slot, end to end, in which a screw lets the top move.
 * @param movement in, full movement of the top at this screw, both ways together
 * @param screwDiameter in
 * @param spare in, added once; 0 when left out
 * @returns in: screwDiameter + movement + spare
 * @throws Fault `kind`, `range`
 * Source: common practice, no source. The screw sits in the middle only at the middle of the
 * season's range; driven at another moisture, place it off the middle accordingly.
 */
export function slotLength(movement: number, screwDiameter: number, spare = 0): number {
  return (
    notNegative(MOVEMENT, movement) +
    positive(SCREW_SIZE, screwDiameter) +
    notNegative(SPARE, spare)
  );
}

const DRAWING: RestsOn = {
  of: 'Pull that draws a screw: 15,700 x gravity² x diameter x length',
  how: 'memory',
  source: 'Wood Handbook (FPL-GTR-190, 2010), chapter 8',
  note: 'The form that design codes allow, 2,850 in place of 15,700, was read.',
};
const STEEL: RestsOn = {
  of: 'Steel of a plain screw: strength',
  value: SCREW_STEEL,
  quantity: 'pressure',
  how: 'memory',
  source: STEEL_SOURCE,
};
const [THINNEST_TESTED, THICKEST_TESTED] = [1, 20];
/** Of what side grain holds. */
const END_GRAIN_SHARE = 0.75;
const END_GRAIN = {
  of: 'end grain: share of what side grain holds',
  value: END_GRAIN_SHARE,
  quantity: 'ratio',
  how: 'memory',
  source: 'Wood Handbook (FPL-GTR-190, 2010), chapter 8',
  note: 'A carpenters’ handbook, read, says 60 %; design codes allow no pull in end grain',
} as const;
const gaugeOf = (diameter: number): number => settle((diameter - 0.06) / 0.013);

/** Longest screw of a diameter, in, that was tested for the equation of withdrawal. */
function longestTested(diameter: number, given: number | string): number {
  const gauge = gaugeOf(diameter);
  const longest = TESTED_SCREWS.findLast(([, thinnest]) => gauge >= thinnest)?.[0];
  if (longest !== undefined && gauge <= THICKEST_TESTED) return longest;
  throw new Fault({
    class: 'range',
    argument: SCREW_ARGUMENT.name,
    got: given,
    quantity: SCREW_ARGUMENT.quantity,
    takes: `a screw that was tested for its hold, No. ${THINNEST_TESTED} to ${THICKEST_TESTED}`,
  });
}

/**
 * Average pull at which a wood screw gives way: it draws out of the wood or, where that
 * takes less, breaks.
 * @param gauge whole number, 1 to 20, or words such as `No. 8`, `4 mm`
 * @param penetration in, length of thread in the wood; to the longest screw of that gauge tested
 * @param species any usual name
 * @param grain "side" (when left out) or "end"
 * @returns lbf, the lesser of 15,700 x gravity² x diameter x penetration (three quarters of it in
 * end grain), and the strength of the steel over the root of the thread
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook (FPL-GTR-190) chapter 8, screw withdrawal and the lengths and gauges it holds
 * for (values from memory); {@link SCREW_STEEL}, {@link GAUGE_ROOTS}.
 */
export function screwHold(
  gauge: number | string,
  penetration: number,
  species: string,
  grain = 'side',
): number {
  const screw = screwSize(gauge);
  const { diameter } = screw;
  const length = positive(PENETRATION, penetration);
  const longest = longestTested(diameter, gauge);
  between(PENETRATION, length, 0, longest, 'Longer ones of this size were not tested.');
  const inEnd = isEndGrain(grain);
  const share = inEnd ? END_GRAIN_SHARE : 1;
  if (inEnd) rests(END_GRAIN);
  const drawn = 15_700 * specificGravity(species) ** 2 * diameter * length * share;
  rests(DRAWING);
  rests(STEEL);
  return Math.min(drawn, (SCREW_STEEL * Math.PI * rootTaken(screw) ** 2) / 4);
}

export const FASTENING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SCREW_DIAMETER',
    task: 'Fastenings',
    answers: 'How thick a wood screw is.',
    args: [SCREW_ARGUMENT],
    result: {
      quantity: 'length',
      means: 'diameter of the shank, or of a metric thread outside',
      fine: true,
    },
    source: `${SHANK_SOURCE}; ${METRIC_SOURCE}`,
    example: '=SCREW_DIAMETER(8)',
    notes: 'In a metric workbook a size stands in quotes: "4 mm" and No. 4 are different screws.',
    run: screwDiameter,
  },
  {
    name: 'POCKET_SCREW',
    task: 'Fastenings',
    answers: 'How long a pocket screw to use for a thickness.',
    args: [THICKNESS],
    result: { quantity: 'length', means: 'length of the pocket screw' },
    source: PRACTICE,
    example: '=POCKET_SCREW(3/4)',
    notes:
      'From 1/2 to 1-1/2 in. A thickness between two sizes takes the screw for the thinner one.',
    run: pocketScrew,
  },
  {
    name: 'SCREW_LONGEST',
    task: 'Fastenings',
    answers: 'How long a standard screw can be without coming through.',
    args: [THROUGH, INTO, KEEP_BACK, LENGTH_STEP],
    result: { quantity: 'length', means: 'longest stocked length' },
    source: PRACTICE,
    example: '=SCREW_LONGEST(1.5, 1.75, 1/4)',
    run: screwLongest,
  },
  {
    name: 'FASTENER_COUNT',
    task: 'Fastenings',
    answers: 'How many fasteners a joint needs so that no gap between them is too wide.',
    args: [LINE_LENGTH, SPACING, END_DISTANCE],
    result: { quantity: 'count', means: 'fasteners' },
    source: PRACTICE,
    example: '=FASTENER_COUNT(66, 12, 3)',
    run: fastenerCount,
  },
  {
    name: 'SCREW_HOLD',
    task: 'Fastenings',
    answers: 'How hard a pull draws a wood screw out of the wood or breaks it, on average.',
    args: [SCREW_ARGUMENT, PENETRATION, SPECIES_ARGUMENT, GRAIN],
    result: { quantity: 'force', means: 'average pull at failure' },
    source: `Wood Handbook (FPL-GTR-190, 2010), chapter 8: 15,700 x gravity² x diameter x penetration, from memory; ${TESTED_SOURCE}; steel of ${SCREW_STEEL} psi, from memory, over the root; ${ROOT_SOURCE}`,
    example: '=SCREW_HOLD(8, 1, "white oak")',
    notes:
      'An average of tests with lead holes in dry wood, at which screws fail. Design codes allow about a fifth or sixth of it. Plain steel; brass holds less. End grain counts as three quarters, from memory; a carpenters’ handbook says 60 %, and codes allow no pull there at all: put a dowel across, and let the screw bite into that.',
    run: screwHold,
  },
  {
    name: 'SLOT_LENGTH',
    task: 'Fastenings',
    answers: 'How long a slot must be for a screw to let the top move.',
    args: [MOVEMENT, SCREW_SIZE, SPARE],
    result: { quantity: 'length', means: 'length of the slot, end to end' },
    source: PRACTICE,
    example: '=SLOT_LENGTH(0.4, SCREW_DIAMETER(8), 1/16)',
    notes:
      'screw_diameter + movement + spare. Spare is clearance for the screw, a sixteenth or so in all; it has nothing to do with what glue joints lose.',
    run: slotLength,
  },
];
