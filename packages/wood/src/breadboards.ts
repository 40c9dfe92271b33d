import { lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, notNegative, positive } from './guards.ts';
import { movementSwing } from './moisture.ts';
import { rests } from './rests.ts';
import { CUT, SEASONS } from './seasonal.ts';

const FROM_FIXED = lengthOf(
  'from_fixed',
  'glued or pinned place, usually the middle, to the pin, across the grain of the top',
);
const PIN = lengthOf('pin_diameter', 'diameter of the pin or screw');
const DRY = numberOf(
  'moisture',
  'moisture_dry',
  'moisture content of the top in the dry season, percent, 0 to 30',
);
const WET = numberOf(
  'moisture',
  'moisture_wet',
  'moisture content of the top in the humid season, percent, 0 to 30',
);
const SPARE = optional(
  numberOf('percent', 'spare_percent', 'extra room beyond that movement, percent of it, 0 to 500'),
  '50',
);

/** Half as long again as the travel. */
const USUAL_SPARE = 50;
const HALF_AGAIN = {
  of: 'slot of a breadboard end: room beyond its travel',
  value: USUAL_SPARE,
  quantity: 'percent',
  how: 'practice',
  source: 'shop practice, from memory',
} as const;

/**
 * Length of the slot of one pin of a breadboard end.
 * @param fromFixed in, 0 for the pin that holds
 * @param pinDiameter in
 * @param species of the top, any usual name
 * @param moistureDry %
 * @param moistureWet %
 * @param sparePercent % of the travel, 0 to 500; 50 when left out
 * @param cut as of MOVEMENT_SWING
 * @returns in: pinDiameter + travel of that place x (1 + spare)
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook equation 13-2; half as long again is common practice, no source.
 */
export function breadboardSlot(
  fromFixed: number,
  pinDiameter: number,
  species: string,
  moistureDry: number,
  moistureWet: number,
  sparePercent: number = USUAL_SPARE,
  cut: string | number = 'flat',
): number {
  const place = notNegative(FROM_FIXED, fromFixed);
  const pin = positive(PIN, pinDiameter);
  const travel = place * movementSwing(1, species, moistureDry, moistureWet, cut);
  if (sparePercent === USUAL_SPARE) rests(HALF_AGAIN);
  return pin + travel * (1 + between(SPARE, sparePercent, 0, 500) / 100);
}

export const BREADBOARD_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'BREADBOARD_SLOT',
    task: 'Joints',
    answers: 'How long to make the slot for a pin in a breadboard end, by where the pin is.',
    args: [FROM_FIXED, PIN, SPECIES_ARGUMENT, DRY, WET, SPARE, CUT],
    result: { quantity: 'length', means: 'length of the slot in the tenon, end to end' },
    source: `${SEASONS}; half as long again is common practice, no source`,
    example: '=BREADBOARD_SLOT(16, 3/8, "white oak", 6, 12)',
    notes:
      'Glue and pin the middle only, slot the tenon and not the end, and put the pin in the middle of the slot when the moisture is midway between the seasons. In humid months the top stands proud of its end by half of what MOVEMENT says for the whole width, at each side, and back of it in dry ones.',
    run: breadboardSlot,
  },
];
