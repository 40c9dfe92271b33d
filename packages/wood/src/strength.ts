import { lengthOf, numberOf } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { notNegative, positive } from './guards.ts';
import { stiffness } from './species.ts';

const SPAN = lengthOf('span', 'clear length between the supports');
const SPREAD_LOAD = numberOf('load_per_length', 'load_per_length', 'load spread along the span');
const LOAD = numberOf('force', 'load', 'load in the middle of the span');
const WIDTH = lengthOf('width', 'size of the part across the load');
const DEPTH = lengthOf('depth', 'size of the part along the load: upright for an apron on edge');
const WEIGHT = numberOf('mass', 'weight', 'weight of the whole table');
const EDGE_OVERHANG = lengthOf('edge_overhang', 'foot of the near legs to the edge of the top');
const HALF_FOOTPRINT = lengthOf(
  'half_footprint',
  'middle of the table to the foot of the near legs',
);

const ESTIMATE =
  'An estimate for choosing dimensions, not engineering approval. Clear wood, short loading: a load that stays about doubles the sag in time.';
const CHAPTER_9 = 'Wood Handbook (FPL-GTR-190, 2010), chapter 9, equation 9-2, bending term';

/** Bending stiffness E·I of a rectangular part, lbf·in². */
function bendingStiffness(width: number, depth: number, species: string): number {
  const inertia = (positive(WIDTH, width) * positive(DEPTH, depth) ** 3) / 12;
  return stiffness(species) * inertia;
}

/** A sag past a tenth of the span: the equation no longer holds, and neither would the part. */
const DEEPEST_SAG = 0.1;

function believable(sag: number, span: number, depth: number): number {
  if (sag <= DEEPEST_SAG * span) return sag;
  throw new Fault({
    class: 'range',
    argument: DEPTH.name,
    got: depth,
    quantity: 'length',
    takes: 'a depth that sags less than {n}, a tenth of the span',
    bounds: [DEEPEST_SAG * span],
    hint: 'Make the part deeper, the span shorter or the load smaller.',
  });
}

/**
 * Sag in the middle of a part on two supports under a load spread evenly.
 * @param span in
 * @param loadPerLength lbf/in
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name
 * @returns in: 5 w L⁴ / (384 E I), I = width x depth³ / 12
 * @throws Fault `kind`, `unknown`; `range`, also when the sag would pass a tenth of the span
 * Source: Wood Handbook chapter 9, equation 9-2, simple supports (textbook form read). The shear
 * term is left out: the tables' stiffness, measured at a span of 14 depths, holds it already.
 */
export function sagUniform(
  span: number,
  loadPerLength: number,
  width: number,
  depth: number,
  species: string,
): number {
  const length = positive(SPAN, span);
  const load = notNegative(SPREAD_LOAD, loadPerLength);
  const sag = (5 * load * length ** 4) / (384 * bendingStiffness(width, depth, species));
  return believable(sag, length, depth);
}

/**
 * Sag in the middle of a part on two supports under a load in the middle.
 * @param span in
 * @param load lbf
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name
 * @returns in: P L³ / (48 E I), I = width x depth³ / 12
 * @throws Fault `kind`, `unknown`; `range`, also when the sag would pass a tenth of the span
 * Source: as {@link sagUniform}.
 */
export function sagPoint(
  span: number,
  load: number,
  width: number,
  depth: number,
  species: string,
): number {
  const length = positive(SPAN, span);
  const force = notNegative(LOAD, load);
  const sag = (force * length ** 3) / (48 * bendingStiffness(width, depth, species));
  return believable(sag, length, depth);
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
    args: [SPAN, SPREAD_LOAD, WIDTH, DEPTH, SPECIES_ARGUMENT],
    result: { quantity: 'length', means: 'sag in the middle' },
    source: CHAPTER_9,
    example: '=SAG_UNIFORM(65, 2, 1.5, 3.5, "white oak")',
    notes: ESTIMATE,
    run: sagUniform,
  },
  {
    name: 'SAG_POINT',
    task: 'Strength and stability',
    answers: 'How far a part between two supports sags under a load in its middle.',
    args: [SPAN, LOAD, WIDTH, DEPTH, SPECIES_ARGUMENT],
    result: { quantity: 'length', means: 'sag in the middle' },
    source: CHAPTER_9,
    example: '=SAG_POINT(65, 150, 1.5, 3.5, "white oak")',
    notes: ESTIMATE,
    run: sagPoint,
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
      'A child who climbs or an adult who sits on the edge weighs more than a light table may bear. An estimate, not an approval.',
    run: tipLoad,
  },
];
