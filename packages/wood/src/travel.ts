import { lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled } from './exact.ts';
import { Fault } from './fault.ts';
import { between, notNegative, positive } from './guards.ts';

const HOLE_SPACING = lengthOf('hole_spacing', 'middle to middle of the two holes');
const SWING = numberOf('angle', 'swing', 'degrees the fastener can turn each way, 0 to 90');
const RECESS = lengthOf('recess_diameter', 'diameter of the recess the fastener lies in');
const EDGE = lengthOf('edge_distance', 'middle of the recess to the face it opens through');
const NECK = lengthOf('neck_width', 'width of the fastener where it leaves the recess');
const DISC = lengthOf('disc_diameter', 'diameter of the fastener’s rounded end');
const BIT_STEP = optional(lengthOf('bit_step', 'from one bit of your set to the next'), '1/8 in');
const PLATE = lengthOf('fastener_thickness', 'thickness of the fastener');
const BELOW = optional(lengthOf('below', 'how far it lies below the surface'), '1/64 in');
const TONGUE = lengthOf('tongue', 'length of the button’s tongue, shoulder to tip');
const GAP = lengthOf('gap', 'room left between the button’s shoulder and the apron when fitted');
const LEAST_HOLD = optional(
  lengthOf('least_hold', 'how much of the tongue must stay in the groove'),
  'a third of the tongue',
);

const PRACTICE = 'common practice, no source';
const HOLD_SHARE = 1 / 3;
const USUAL_BIT_STEP = 1 / 8;

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
 * Angle each way that a two-hole swivel fastener can turn in its recess before its neck meets the
 * corner where the recess opens through the face of the apron.
 * @param recessDiameter in
 * @param edgeDistance in, middle of the recess to that face; less than half the diameter
 * @param neckWidth in, less than the opening
 * @returns degrees: arccos(edge/R) − arcsin(neck/2R), R half the diameter
 * @throws Fault `kind`, `range`
 * Source: geometry; the screw is taken to sit in the middle of the recess.
 */
export function swivelSwing(
  recessDiameter: number,
  edgeDistance: number,
  neckWidth: number,
): number {
  const radius = positive(RECESS, recessDiameter) / 2;
  const edge = notNegative(EDGE, edgeDistance);
  const half = notNegative(NECK, neckWidth) / 2;
  if (edge >= radius) {
    throw new Fault({
      class: 'range',
      argument: EDGE.name,
      got: edge,
      quantity: 'length',
      takes: 'less than {n}, half the recess, so that it opens through the face',
      bounds: [radius],
    });
  }
  const opening = Math.sqrt(radius ** 2 - edge ** 2);
  if (half > opening) {
    throw new Fault({
      class: 'range',
      argument: NECK.name,
      got: 2 * half,
      quantity: 'length',
      takes: '{n} or less, the width of the opening',
      bounds: [2 * opening],
      hint: 'Use a larger bit, or move the recess closer to the face.',
    });
  }
  const radians = Math.acos(edge / radius) - Math.asin(half / radius);
  return Math.max(0, radians * 180) / Math.PI;
}

/**
 * Bit for the recess of a fastener's rounded end: the smallest of the set that takes it.
 * @param discDiameter in
 * @param bitStep in, 1/64 to 1; 1/8 when left out
 * @returns in, a multiple of `bitStep`
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function recessDiameter(discDiameter: number, bitStep = USUAL_BIT_STEP): number {
  const step = between(BIT_STEP, bitStep, 1 / 64, 1);
  return ceilSettled(positive(DISC, discDiameter) / step) * step;
}

/**
 * Depth of the recess, so that the top comes down on the apron and not on the fastener.
 * @param fastenerThickness in
 * @param below in; 1/64 when left out
 * @returns in: thickness + below
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function recessDepth(fastenerThickness: number, below = 1 / 64): number {
  return positive(PLATE, fastenerThickness) + notNegative(BELOW, below);
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
    name: 'SWIVEL_SWING',
    task: 'Fastenings',
    answers: 'How far a two-hole swivel fastener can turn each way in its recess.',
    args: [RECESS, EDGE, NECK],
    result: { quantity: 'angle', means: 'degrees each way, for SWIVEL_TRAVEL' },
    source: 'geometry of a round recess that opens through a face',
    example: '=SWIVEL_SWING(3/4, 3/16, 3/8)',
    notes: 'The screw sits in the middle of the recess. Try one before you drill them all.',
    run: swivelSwing,
  },
  {
    name: 'RECESS_DIAMETER',
    task: 'Fastenings',
    answers: 'Which bit drills the recess for the rounded end of a fastener.',
    args: [DISC, BIT_STEP],
    result: { quantity: 'length', means: 'diameter of the bit, the smallest that takes it' },
    source: PRACTICE,
    example: '=RECESS_DIAMETER(0.7)',
    run: recessDiameter,
  },
  {
    name: 'RECESS_DEPTH',
    task: 'Fastenings',
    answers: 'How deep the recess is drilled so that the top does not ride on the fastener.',
    args: [PLATE, BELOW],
    result: { quantity: 'length', means: 'depth of the recess' },
    source: PRACTICE,
    example: '=RECESS_DEPTH(1/8)',
    run: recessDepth,
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
