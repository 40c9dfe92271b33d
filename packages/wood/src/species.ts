import { numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { SPECIES_ARGUMENT, speciesFigure } from './find-species.ts';
import { densityAt, gravityAt, TABLE_MOISTURE } from './gravity.ts';
import { between, notNegative } from './guards.ts';
import { type RestsOn, rests } from './rests.ts';

const RING_ANGLE = numberOf(
  'angle',
  'ring_angle',
  'angle of the growth rings to the wide face, 0 (flat-sawn) to 90 (quarter-sawn)',
);
const VOLUME = numberOf('volume', 'volume', 'volume of the wood as it is');
const MOISTURE = optional(
  numberOf('moisture', 'moisture', 'moisture content in percent, 0 to 250'),
  '12 %, at which the tables are given',
);

const DENSITY: RestsOn = {
  of: 'Density of moist wood: 62.4 G (1 + M/100) lb for a cubic foot',
  how: 'memory',
  source: 'Wood Handbook (FPL-GTR-190, 2010), chapter 4',
  note: 'Checked against 119 rows of the forest inventory file: 0.005 in gravity on the mean.',
};

/** Wettest sapwood of the published green moisture contents (Wood Handbook table 4-1): 249 %. */
const WETTEST = 250;

const IN_TABLES =
  'Wood Handbook (FPL-GTR-190, 2010), tables 5-3b and 5-5b, 12 % moisture; many rows from memory';

/**
 * Specific gravity: ovendry mass over the volume at 12 % moisture.
 * @param species any usual name
 * @returns a bare number, 0.1 to 1.3
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook table 5-3b. Imported woods, which table 5-5b gives on the green volume, are
 * carried to 12 % by the volume relation of chapter 4; woods of table 13-5 that neither table holds
 * are taken from the forest inventory file. {@link speciesFigure} says which for each.
 */
export function specificGravity(species: string): number {
  return speciesFigure(species, 'specificGravity').value;
}

/**
 * Stiffness (modulus of elasticity) at 12 % moisture, bending, clear wood.
 * @param species any usual name
 * @returns psi
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook tables 5-3b and 5-5b.
 */
export function stiffness(species: string): number {
  return speciesFigure(species, 'stiffness').value;
}

/**
 * Side hardness at 12 % moisture: force that sinks a 0.444 in ball to half its diameter.
 * @param species any usual name
 * @returns lbf
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook tables 5-3b and 5-5b.
 */
export function hardness(species: string): number {
  return speciesFigure(species, 'hardness').value;
}

/**
 * Change across flat-sawn boards, as a fraction of the width, per 1 % of moisture.
 * @param species any usual name
 * @returns per 1 %
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook table 13-5, tangential; species the table holds only as a group have the
 * group's value, and the few without a row are worked out from total shrinkage.
 */
export function moveTangential(species: string): number {
  return speciesFigure(species, 'tangential').value;
}

/**
 * Change across quarter-sawn boards, as a fraction of the width, per 1 % of moisture.
 * @param species any usual name
 * @returns per 1 %
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook table 13-5, radial; see {@link moveTangential}.
 */
export function moveRadial(species: string): number {
  return speciesFigure(species, 'radial').value;
}

/**
 * Change across a board whose growth rings lie at an angle to its wide face.
 * @param species any usual name
 * @param ringAngle degrees, 0 (flat-sawn) to 90 (quarter-sawn)
 * @returns per 1 %: tangential x cos² + radial x sin²
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook table 13-5 for both ends; between them, the strain of a direction turned
 * through an angle (textbook mechanics), shear left out.
 */
export function moveAtAngle(species: string, ringAngle: number): number {
  const radians = (between(RING_ANGLE, ringAngle, 0, 90) * Math.PI) / 180;
  const share = Math.sin(radians) ** 2;
  // A wholly flat or upright ring takes one coefficient only, and rests on that.
  if (share === 0) return moveTangential(species);
  if (share === 1) return moveRadial(species);
  return moveTangential(species) * (1 - share) + moveRadial(species) * share;
}

/**
 * Weight of wood with the water in it.
 * @param species any usual name
 * @param volume in³, as measured at `moisture`
 * @param moisture %, 0 to 250; 12 when left out
 * @returns lb
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook chapter 4: 62.4 x G x (1 + M/100) lb/ft³. The tables' G is on the volume at
 * 12 %; for another moisture it is first carried to the volume at that moisture.
 */
export function woodWeight(species: string, volume: number, moisture = TABLE_MOISTURE): number {
  rests(DENSITY);
  const wet = between(MOISTURE, moisture, 0, WETTEST);
  const gravity = gravityAt(specificGravity(species), wet);
  return notNegative(VOLUME, volume) * densityAt(gravity, wet);
}

export const WOOD_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SPECIFIC_GRAVITY',
    task: 'Wood',
    answers: 'How heavy the wood is compared with water, ovendry, on its volume at 12 % moisture.',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'number', means: 'specific gravity at 12 % moisture' },
    source: `${IN_TABLES}; imported woods carried from the green volume; otherwise the USDA forest inventory species file`,
    example: '=SPECIFIC_GRAVITY("white oak")',
    run: specificGravity,
  },
  {
    name: 'STIFFNESS',
    task: 'Wood',
    answers: 'How stiff the wood is in bending (modulus of elasticity).',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'pressure', means: 'modulus of elasticity at 12 % moisture' },
    source: IN_TABLES,
    example: '=STIFFNESS("white oak")',
    notes: 'An average of clear wood: boards with knots and sloping grain are less stiff.',
    run: stiffness,
  },
  {
    name: 'HARDNESS',
    task: 'Wood',
    answers: 'How well the face of the wood resists dents (side hardness).',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'force', means: 'side hardness at 12 % moisture' },
    source: IN_TABLES,
    example: '=HARDNESS("sugar maple")',
    run: hardness,
  },
  {
    name: 'MOVE_TANGENTIAL',
    task: 'Wood',
    answers: 'How much a flat-sawn board changes in width for each 1 % of moisture.',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'movement_rate', means: 'change as a fraction of the width, per 1 %' },
    source: 'Wood Handbook (FPL-GTR-190, 2010), table 13-5; many rows from memory',
    example: '=MOVE_TANGENTIAL("white oak")',
    notes:
      'Fitted for 6 to 14 % moisture. Species sold as a group have the row of the group; the few without a row are worked out from their total shrinkage.',
    run: moveTangential,
  },
  {
    name: 'MOVE_RADIAL',
    task: 'Wood',
    answers: 'How much a quarter-sawn board changes in width for each 1 % of moisture.',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'movement_rate', means: 'change as a fraction of the width, per 1 %' },
    source: 'Wood Handbook (FPL-GTR-190, 2010), table 13-5; many rows from memory',
    example: '=MOVE_RADIAL("white oak")',
    notes: 'As for MOVE_TANGENTIAL.',
    run: moveRadial,
  },
  {
    name: 'MOVE_AT_ANGLE',
    task: 'Wood',
    answers: 'How much a board changes in width for each 1 % of moisture, by its ring angle.',
    args: [SPECIES_ARGUMENT, RING_ANGLE],
    result: { quantity: 'movement_rate', means: 'change as a fraction of the width, per 1 %' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), table 13-5 for both ends; between them tangential x cos² + radial x sin², textbook mechanics',
    example: '=MOVE_AT_ANGLE("white oak", 45)',
    run: moveAtAngle,
  },
  {
    name: 'WOOD_WEIGHT',
    task: 'Wood',
    answers: 'What a volume of wood weighs, with the water in it.',
    args: [SPECIES_ARGUMENT, VOLUME, MOISTURE],
    result: { quantity: 'mass', means: 'weight' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), chapter 4: 62.4 G (1 + M/100) lb per cubic foot; equations from memory',
    example: '=WOOD_WEIGHT("white oak", 1.75*42*84, 8)',
    notes:
      'The volume is as measured at that moisture. Wood varies: expect a tenth more or less, and lift heavy tops with help.',
    run: woodWeight,
  },
];
