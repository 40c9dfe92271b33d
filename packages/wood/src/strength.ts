import { lengthOf, numberOf, optional } from './arguments.ts';
import {
  ESTIMATE as BEAM_ESTIMATE,
  BENT_OF,
  believable,
  bendingStiffness,
  DEEPEST_SAG,
  ENDS,
  endsOf,
} from './beams.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { between, mostOf, notNegative, positive } from './guards.ts';

const SPAN = lengthOf('span', 'clear length between the supports');
const SPREAD_LOAD = numberOf('load_per_length', 'load_per_length', 'load spread along the span');
const LOAD = numberOf('force', 'load', 'load in the middle of the span');
const WIDTH = lengthOf('width', 'size of the part across the load');
const DEPTH = lengthOf(
  'depth',
  'size of the part in the direction of the load: the height of an apron on edge',
);
const WEIGHT = numberOf('mass', 'weight', 'weight of the whole table');
const EDGE_OVERHANG = lengthOf('edge_overhang', 'foot of the near legs to the edge of the top');
const HALF_FOOTPRINT = lengthOf(
  'half_footprint',
  'middle of the table to the foot of the near legs',
);

const SAG_SHARE = optional(
  numberOf('ratio', 'sag_share', 'sag allowed, as a share of the span: 1/360'),
  '1/360',
);
const LEG_LENGTH = lengthOf('length', 'length of the leg from the floor to the apron');
const LEAST_SIDE = lengthOf('least_side', 'smaller side of the leg, where it is thinnest');

const ESTIMATE = `${BEAM_ESTIMATE} Clear wood, short loading: for a load that stays see SAG_LASTING. Ends that are screwed or tenoned turn a little: they are between "resting" and "fixed".`;
const CHAPTER_9 = 'Wood Handbook (FPL-GTR-190, 2010), chapter 9, equation 9-2, bending term';

/** Table 9-1: share of w L⁴ / (E I), and of P L³ / (E I), that the middle sags. */
const SPREAD = { resting: 5 / 384, fixed: 1 / 384 } as const;
const MIDDLE = { resting: 1 / 48, fixed: 1 / 192 } as const;

const LEAST_SAG_SHARE = 1e-5;
/** Under less than this a span has no bound that a shop could mean. */
const LIGHTEST_LOAD = 1e-3;
const THINNEST_LEG = 0.1;

/**
 * Sag in the middle of a part on two supports under a load spread evenly.
 * @param span in
 * @param loadPerLength lbf/in
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name, or a stiffness in psi
 * @param ends "resting" (when left out) or "fixed"
 * @returns in: 5 w L⁴ / (384 E I), or w L⁴ / (384 E I) where the ends are fixed; I = width x depth³ / 12
 * @throws Fault `kind`, `unknown`; `range`, also when the sag would pass a tenth of the span
 * Source: Wood Handbook chapter 9, equation 9-2 and table 9-1 (textbook forms read). The shear
 * term is left out: the tables' stiffness, measured at a span of 14 depths, holds it already.
 */
export function sagUniform(
  span: number,
  loadPerLength: number,
  width: number,
  depth: number,
  species: string | number,
  ends = 'resting',
): number {
  const length = positive(SPAN, span);
  const load = notNegative(SPREAD_LOAD, loadPerLength);
  const sag = (SPREAD[endsOf(ends)] * load * length ** 4) / bendingStiffness(width, depth, species);
  return believable(sag, length, depth);
}

/**
 * Sag in the middle of a part on two supports under a load in the middle.
 * @param span in
 * @param load lbf
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name, or a stiffness in psi
 * @param ends "resting" (when left out) or "fixed"
 * @returns in: P L³ / (48 E I), or P L³ / (192 E I) where the ends are fixed; I = width x depth³ / 12
 * @throws Fault `kind`, `unknown`; `range`, also when the sag would pass a tenth of the span
 * Source: as {@link sagUniform}.
 */
export function sagPoint(
  span: number,
  load: number,
  width: number,
  depth: number,
  species: string | number,
  ends = 'resting',
): number {
  const length = positive(SPAN, span);
  const force = notNegative(LOAD, load);
  const sag =
    (MIDDLE[endsOf(ends)] * force * length ** 3) / bendingStiffness(width, depth, species);
  return believable(sag, length, depth);
}

const USUAL_SAG_SHARE = 1 / 360;

/**
 * Longest span over which a part under a spread load sags no more than a share of the span.
 * @param loadPerLength lbf/in
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name, or a stiffness in psi
 * @param sagShare share of the span, more than 0 to 0.1; 1/360 when left out
 * @param ends "resting" (when left out) or "fixed"
 * @returns in: ³√(384 E I share / (5 w))
 * @throws Fault `kind`, `range`, `unknown`
 * Source: as {@link sagUniform}, solved for the span. 1/360 is common practice, no source.
 */
export function spanForSag(
  loadPerLength: number,
  width: number,
  depth: number,
  species: string | number,
  sagShare = USUAL_SAG_SHARE,
  ends = 'resting',
): number {
  const share = between(SAG_SHARE, sagShare, LEAST_SAG_SHARE, DEEPEST_SAG);
  const load = between(SPREAD_LOAD, loadPerLength, LIGHTEST_LOAD, mostOf('load_per_length'));
  return Math.cbrt(
    (bendingStiffness(width, depth, species) * share) / (SPREAD[endsOf(ends)] * load),
  );
}

/**
 * Slenderness of a leg: how many times as long as it is thick.
 * @param length in, floor to apron
 * @param leastSide in, where it is thinnest
 * @returns a bare number
 * @throws Fault `kind`, `range`
 * Source: length over least side, as timber codes take it for columns; they stop at 50 (NDS 3.7.1.4,
 * value from memory).
 */
export function legSlenderness(length: number, leastSide: number): number {
  return positive(LEG_LENGTH, length) / between(LEAST_SIDE, leastSide, THINNEST_LEG, 1000);
}

/** Tipping needs a lever: an overhang thinner than this is none, and the load has no bound. */
const SHORTEST_LEVER = 1e-3;

/**
 * Load straight down on the table's edge that lifts the far legs.
 * @param weight lb, of the whole table, its middle over the middle of the legs
 * @param edgeOverhang in, foot of the near legs to the edge of the top
 * @param halfFootprint in, middle of the table to the foot of the near legs
 * @returns lbf: weight x halfFootprint / edgeOverhang
 * @throws Fault `kind`; `range`, also when the top does not overhang the feet
 * Source: balance of moments about the near legs (textbook statics).
 */
export function tipLoad(weight: number, edgeOverhang: number, halfFootprint: number): number {
  const lever = positive(EDGE_OVERHANG, edgeOverhang);
  const arm = positive(HALF_FOOTPRINT, halfFootprint);
  if (lever >= SHORTEST_LEVER) return (positive(WEIGHT, weight) * arm) / lever;
  throw new Fault({
    class: 'range',
    argument: EDGE_OVERHANG.name,
    got: lever,
    quantity: 'length',
    takes: '{n} or more',
    bounds: [SHORTEST_LEVER],
    hint: 'A top that does not overhang its legs is not tipped by a load on its edge.',
  });
}

export const STRENGTH_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SAG_UNIFORM',
    task: 'Strength and stability',
    answers: 'How far a part between two supports sags under a load spread along it.',
    args: [SPAN, SPREAD_LOAD, WIDTH, DEPTH, BENT_OF, ENDS],
    result: { quantity: 'length', means: 'sag in the middle', fine: true },
    source: CHAPTER_9,
    example: '=SAG_UNIFORM(65, 2, 1.5, 3.5, "white oak")',
    notes: ESTIMATE,
    run: sagUniform,
  },
  {
    name: 'SAG_POINT',
    task: 'Strength and stability',
    answers: 'How far a part between two supports sags under a load in its middle.',
    args: [SPAN, LOAD, WIDTH, DEPTH, BENT_OF, ENDS],
    result: { quantity: 'length', means: 'sag in the middle', fine: true },
    source: CHAPTER_9,
    example: '=SAG_POINT(65, 150, 1.5, 3.5, "white oak")',
    notes: ESTIMATE,
    run: sagPoint,
  },
  {
    name: 'SPAN_FOR_SAG',
    task: 'Strength and stability',
    answers: 'How long a shelf or apron may be before it sags more than it should.',
    args: [SPREAD_LOAD, WIDTH, DEPTH, BENT_OF, SAG_SHARE, ENDS],
    result: { quantity: 'length', means: 'longest span' },
    source: `${CHAPTER_9}, solved for the span; the share is common practice, no source`,
    example: '=SPAN_FOR_SAG(2, 11.25, 3/4, "white oak", 1/360)',
    notes: `${ESTIMATE} The eye is said to notice about 1/360; no source.`,
    run: spanForSag,
  },
  {
    name: 'LEG_SLENDERNESS',
    task: 'Strength and stability',
    answers: 'How slender a leg is: its length over its thickness.',
    args: [LEG_LENGTH, LEAST_SIDE],
    result: { quantity: 'number', means: 'length over least side' },
    source:
      'length over least side; timber codes stop at 50 for columns (NDS 3.7.1.4, from memory)',
    example: '=LEG_SLENDERNESS(28.5, 2.5)',
    notes:
      'Dining tables are at about 8 to 20; past that, joints and a sideways push decide, not the wood. An estimate: local codes and licensed practice come first.',
    run: legSlenderness,
  },
  {
    name: 'TIP_LOAD',
    task: 'Strength and stability',
    answers: 'What load on the edge of the top lifts the far legs.',
    args: [WEIGHT, EDGE_OVERHANG, HALF_FOOTPRINT],
    result: { quantity: 'force', means: 'load straight down at the edge' },
    source: 'balance of moments about the near legs, textbook statics',
    example: '=TIP_LOAD(150, 12, 30)',
    notes:
      'A child who climbs or an adult who sits on the edge weighs more than a light table can take. An estimate, not an approval.',
    run: tipLoad,
  },
];
