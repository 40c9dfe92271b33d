import { lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { between, notNegative, positive } from './guards.ts';

const HOLE_SPACING = lengthOf('hole_spacing', 'middle to middle of the two holes');
const SWING = numberOf('angle', 'swing', 'degrees the fastener can turn each way, 0 to 90');
const TONGUE = lengthOf('tongue', 'length of the button’s tongue, shoulder to tip');
const GAP = lengthOf('gap', 'room left between the button’s shoulder and the apron when fitted');
const LEAST_HOLD = optional(
  lengthOf('least_hold', 'how much of the tongue must stay in the groove'),
  'a third of the tongue',
);

const PRACTICE = 'common practice, no source';
const HOLD_SHARE = 1 / 3;

/**
 * Side to side travel that a two-hole swivel fastener allows when it stands across the
 * movement: as far as its outer hole shifts sideways.
 * @param holeSpacing in, middle to middle
 * @param swing degrees each way, 0 to 90
 * @returns in: 2 x holeSpacing x sin(swing)
 * @throws Fault `kind`, `range`
 * Source: common practice, no source; chord of the hole's arc.
 */
export function swivelTravel(holeSpacing: number, swing: number): number {
  const radians = (between(SWING, swing, 0, 90) * Math.PI) / 180;
  return 2 * positive(HOLE_SPACING, holeSpacing) * Math.sin(radians);
}

/**
 * Travel that a two-hole swivel fastener allows when it points along the movement: its outer hole
 * can only come nearer as the fastener turns out of line, and cannot go farther.
 * @param holeSpacing in, middle to middle
 * @param swing degrees each way, 0 to 90
 * @returns in, towards the apron only: holeSpacing x (1 − cos(swing))
 * @throws Fault `kind`, `range`
 * Source: common practice, no source; geometry of the hole's arc.
 */
export function swivelTravelInLine(holeSpacing: number, swing: number): number {
  const radians = (between(SWING, swing, 0, 90) * Math.PI) / 180;
  return positive(HOLE_SPACING, holeSpacing) * (1 - Math.cos(radians));
}

/**
 * Travel that a button in a groove allows about the place where it was fitted, as far each way.
 * @param tongue in, shoulder to tip
 * @param gap in, shoulder to apron when fitted, less than the tongue
 * @param leastHold in, tongue that must stay in the groove; a third of the tongue when left out
 * @returns in, both ways together: 2 x the lesser of the gap and tongue − gap − leastHold
 * @throws Fault `kind`; `range`, also when the tongue holds less than that from the start
 * Source: common practice, no source. The groove is taken to be as deep as the tongue is long.
 */
export function buttonTravel(tongue: number, gap: number, leastHold = tongue * HOLD_SHARE): number {
  const long = positive(TONGUE, tongue);
  const open = notNegative(GAP, gap);
  const hold = notNegative(LEAST_HOLD, leastHold);
  const outward = long - open - hold;
  if (outward >= 0) return 2 * Math.min(open, outward);
  throw new Fault({
    class: 'range',
    argument: TONGUE.name,
    got: long,
    quantity: 'length',
    takes: '{n} or more, the gap and the hold together',
    bounds: [open + hold],
    hint: 'Make a longer tongue, or fit it closer to the apron.',
  });
}

export const TRAVEL_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SWIVEL_TRAVEL',
    task: 'Fastenings',
    answers: 'How far a two-hole swivel fastener that stands across the movement lets the top go.',
    args: [HOLE_SPACING, SWING],
    result: { quantity: 'length', means: 'travel from one side to the other' },
    source: PRACTICE,
    example: '=SWIVEL_TRAVEL(0.75, 30)',
    notes: '2 x hole_spacing x sin(swing). The fastener lies along the grain of the top.',
    run: swivelTravel,
  },
  {
    name: 'SWIVEL_TRAVEL_IN_LINE',
    task: 'Fastenings',
    answers: 'How far a two-hole swivel fastener that points along the movement lets the top go.',
    args: [HOLE_SPACING, SWING],
    result: { quantity: 'length', means: 'travel towards the apron; there is none away from it' },
    source: PRACTICE,
    example: '=SWIVEL_TRAVEL_IN_LINE(0.75, 30)',
    notes:
      'hole_spacing x (1 - cos(swing)). So little, and one way only, that such a fastener belongs where the top does not move, or turned by a quarter.',
    run: swivelTravelInLine,
  },
  {
    name: 'BUTTON_TRAVEL',
    task: 'Fastenings',
    answers: 'How far a wooden button in a groove lets the top go.',
    args: [TONGUE, GAP, LEAST_HOLD],
    result: { quantity: 'length', means: 'travel from one side to the other, as far each way' },
    source: PRACTICE,
    example: '=BUTTON_TRAVEL(5/8, 3/16)',
    notes:
      'Twice the lesser of the gap and what the tongue can come out. The groove is as deep as the tongue is long.',
    run: buttonTravel,
  },
];
