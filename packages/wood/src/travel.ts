import { lengthOf, numberOf, optional, textOf } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled } from './exact.ts';
import { Fault } from './fault.ts';
import { between, notNegative, positive, words } from './guards.ts';
import { notKnown } from './nearest.ts';

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

const GROOVE_DEPTH = optional(
  lengthOf('groove_depth', 'depth of the groove or slot the tongue lies in'),
  'as deep as the tongue is long',
);
const POINTS = numberOf(
  'angle',
  'angle',
  'degrees between the fastener and the way the top moves: 0 in line with it, 90 across it',
);
const WAY = optional(
  textOf(
    'way',
    '"out" for the way the fastener points, "in" for the way back, "each" for the lesser of both',
  ),
  '"each"',
);
const SLOT = lengthOf('slot_length', 'length of the slot, end to end, along the movement');
const IN_SLOT = lengthOf('screw_diameter', 'diameter of the screw in the slot');

const GEOMETRY = 'geometry, no source';
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

const WAYS = ['each', 'out', 'in'] as const;
const TAKES_WAY = '"out", "in" or "each"';

/** Noise of cosines: what is no travel is none. */
const settledTravel = (travel: number): number => (travel < 1e-12 ? 0 : travel);

/**
 * Travel that a two-hole swivel fastener allows along the movement, fitted at any angle to it: its
 * outer hole runs on a circle about the other, and only what it does along the movement counts.
 * @param holeSpacing in, middle to middle
 * @param swing degrees each way, 0 to 90
 * @param angle degrees between the fastener and the movement when it is fitted, 0 to 90
 * @param way `out`: the way it points; `in`: back; `each`: the lesser of both
 * @returns in: the most of ±holeSpacing x (cos(angle + δ) − cos(angle)) for δ from −swing to swing; none
 * outwards where it points along the movement
 * @throws Fault `kind`, `range`, `unknown`
 * Source: geometry, no source. The hole also shifts square to the movement; the play of the screws in
 * their holes has to take that. Near 90° it is a few hundredths of an inch.
 */
export function swivelReach(
  holeSpacing: number,
  swing: number,
  angle: number,
  way: string = 'each',
): number {
  const arm = positive(HOLE_SPACING, holeSpacing);
  const turn = between(SWING, swing, 0, 90);
  const from = between(POINTS, angle, 0, 90);
  const asked = words(WAY, way, TAKES_WAY).toLowerCase();
  if (!WAYS.some((one) => one === asked)) throw notKnown(WAY, way, TAKES_WAY, [...WAYS]);
  const along = (degrees: number): number => arm * Math.cos((degrees * Math.PI) / 180);
  // Turned past the line of the movement, the hole comes back again.
  const out = settledTravel(along(Math.max(0, from - turn)) - along(from));
  const back = settledTravel(along(from) - along(Math.min(180, from + turn)));
  if (asked === 'out') return out;
  return asked === 'in' ? back : Math.min(out, back);
}

/**
 * Travel that a screw in the middle of a slot allows along the slot, as far each way. Square to the
 * slot there is none.
 * @param slotLength in, end to end
 * @param screwDiameter in, no more than the slot is long
 * @returns in, both ways together: slotLength − screwDiameter
 * @throws Fault `kind`, `range`
 * Source: geometry, no source.
 */
export function slotTravel(slotLength: number, screwDiameter: number): number {
  const slot = positive(SLOT, slotLength);
  return slot - between(IN_SLOT, positive(IN_SLOT, screwDiameter), 0, slot);
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
 * Travel that the tongue of a button or clip in a groove allows about the place where it was fitted,
 * as far each way. Out of the groove it goes until too little of it holds, into it until the
 * shoulder meets the apron or the tip meets the bottom.
 * @param tongue in, shoulder to tip
 * @param gap in, shoulder to apron when fitted, less than the tongue
 * @param leastHold in, tongue that must stay in the groove; a third of the tongue when left out
 * @param grooveDepth in; as deep as the tongue is long when left out
 * @returns in, both ways together: 2 x the least of the gap, tongue − gap − leastHold and
 * grooveDepth − (tongue − gap)
 * @throws Fault `kind`; `range`, also when the tongue holds less than that from the start, or does
 * not go as deep as it is fitted
 * Source: geometry; that a third of the tongue should hold is common practice, no source.
 */
export function buttonTravel(
  tongue: number,
  gap: number,
  leastHold = tongue * HOLD_SHARE,
  grooveDepth = tongue,
): number {
  const long = positive(TONGUE, tongue);
  const open = notNegative(GAP, gap);
  const hold = notNegative(LEAST_HOLD, leastHold);
  const deep = positive(GROOVE_DEPTH, grooveDepth);
  const fitted = long - open;
  if (fitted < hold) {
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
  if (deep - fitted < -1e-9) {
    throw new Fault({
      class: 'range',
      argument: GROOVE_DEPTH.name,
      got: deep,
      quantity: 'length',
      takes: '{n} or more, what of the tongue is in it when fitted',
      bounds: [fitted],
      hint: 'Cut the groove deeper, or make the tongue shorter.',
    });
  }
  return 2 * Math.max(0, Math.min(open, fitted - hold, deep - fitted));
}

export const TRAVEL_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SWIVEL_TRAVEL',
    task: 'Fastenings',
    answers:
      'How far a two-hole swivel fastener that points across the movement lets the top move.',
    args: [HOLE_SPACING, SWING],
    result: { quantity: 'length', means: 'travel from one side to the other' },
    source: PRACTICE,
    example: '=SWIVEL_TRAVEL(0.75, 30)',
    notes: '2 x hole_spacing x sin(swing). The fastener lies along the grain of the top.',
    run: swivelTravel,
  },
  {
    name: 'SWIVEL_REACH',
    task: 'Fastenings',
    answers: 'How far a two-hole swivel fastener lets the top move, by the way it points.',
    args: [HOLE_SPACING, SWING, POINTS, WAY],
    result: { quantity: 'length', means: 'travel that way; for "each" what it has both ways' },
    source: GEOMETRY,
    example: '=SWIVEL_REACH(0.75, 30, 90)',
    notes:
      'Across the movement it has hole_spacing x sin(swing) each way. In line with it, it has nothing the way it points, so nothing each way: on the aprons along the grain use slotted screws, buttons or clips, or let it point along the apron, set in a block.',
    run: swivelReach,
  },
  {
    name: 'SLOT_TRAVEL',
    task: 'Fastenings',
    answers: 'How far a screw in a slot lets the top move along the slot.',
    args: [SLOT, IN_SLOT],
    result: { quantity: 'length', means: 'travel from one side to the other, as far each way' },
    source: GEOMETRY,
    example: '=SLOT_TRAVEL(3/4, SCREW_DIAMETER(8))',
    notes:
      'slot_length - screw_diameter, with the screw in the middle of the slot. A slot that runs along the grain of the top lets nothing move.',
    run: slotTravel,
  },
  {
    name: 'SWIVEL_TRAVEL_IN_LINE',
    task: 'Fastenings',
    answers: 'How far a two-hole swivel fastener that points along the movement lets the top move.',
    args: [HOLE_SPACING, SWING],
    result: { quantity: 'length', means: 'travel toward the apron; there is none away from it' },
    source: PRACTICE,
    example: '=SWIVEL_TRAVEL_IN_LINE(0.75, 30)',
    notes:
      'hole_spacing x (1 - cos(swing)). That is so little, and one way only, that such a fastener belongs where the top does not move, or turned a quarter.',
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
    result: { quantity: 'length', means: 'diameter of the bit, the smallest it fits in' },
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
    answers: 'How far the tongue of a button or clip in a groove lets the top move.',
    args: [TONGUE, GAP, LEAST_HOLD, GROOVE_DEPTH],
    result: { quantity: 'length', means: 'travel from one side to the other, as far each way' },
    source: PRACTICE,
    example: '=BUTTON_TRAVEL(5/8, 3/16)',
    notes:
      'Twice the least of the gap, what the tongue can come out and what is left at the bottom of the groove.',
    run: buttonTravel,
  },
];
