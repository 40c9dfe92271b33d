import { lengthOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, roundSettled } from './exact.ts';
import { Fault } from './fault.ts';
import {
  atLeast,
  between,
  leftOver,
  notNegative,
  positive,
  sensibleCount,
  upTo,
} from './guards.ts';
import { rests } from './rests.ts';

const STOCK = lengthOf('thickness', 'thickness of the thinner part at the joint');
const BIT_STEP = optional(
  lengthOf('bit_step', 'step of the chisels or bits you have: 1/16 in, 1 mm'),
  'exactly a third',
);
const TENON_THICKNESS = lengthOf('tenon_thickness', 'thickness of the tenon');
const INTO = lengthOf('into', 'depth of wood the mortise can go into');
const LEAVE = optional(lengthOf('leave', 'wood to leave beyond the mortise'), '1/4 in (6.4 mm)');
const RAIL_WIDTH = lengthOf('rail_width', 'width of the rail or apron');
const GROOVE = optional(lengthOf('groove_depth', 'depth of a groove along the rail'), 'no groove');
const TENON_WIDTH = lengthOf('tenon_width', 'width of all that is tenoned, shoulder to shoulder');
const LEG_SIZE = lengthOf('leg_size', 'side of the square leg');
const TENON_LENGTH = lengthOf('tenon_length', 'length of the tenon');
const FROM_FACE = lengthOf('face_to_tenon', 'outer face of the leg to the near side of the tenon');
const OTHER_LENGTH = optional(
  lengthOf('other_length', 'length of the tenon that comes from the other side'),
  'the same length',
);
const OTHER_THICKNESS = optional(
  lengthOf('other_thickness', 'thickness of that tenon'),
  'the same thickness',
);
const OTHER_FROM_FACE = optional(
  lengthOf('other_face_to_tenon', 'outer face of the leg on that side to that tenon'),
  'the same distance',
);

/** Wood to leave beyond a mortise and beside it, in: common practice, no source. */
export const USUAL_LEAVE = 1 / 4;
/** Mortise deeper than its tenon is long, for glue and chips, in: a woodworking school's handout. */
export const SPARE_DEPTH = 1 / 8;
/** Wood to leave between two mortises, in: common practice, no source. */
export const LEAST_APART = 1 / 8;
const DEEPEST = 5;
const SHALLOWEST = 3;
const WIDEST = 6;

const NOYES = 'Noyes, Handwork in Wood, chapter 7';
const rule = (of: string, value: number, source = 'a woodworking school’s handout after Moxon') =>
  rests({ of, value, quantity: 'number', how: 'read', source });

const HANDOUT =
  'rules of a woodworking school’s handout after Moxon, read; a building construction textbook, read';

/**
 * Thickness of a tenon: a third of its part, to the nearest chisel or bit.
 * @param thickness in, of the thinner part at the joint
 * @param bitStep in; exactly a third when left out
 * @returns in
 * @throws Fault `kind`; `range`, also when no such bit is near a third
 * Source: woodworking school handout (1/3); construction textbook (1/3 to 1/4).
 */
export function tenonThickness(thickness: number, bitStep: number | undefined = undefined): number {
  const stock = positive(STOCK, thickness);
  rule('tenon: share of its part’s thickness', 1 / 3);
  if (bitStep === undefined) return stock / 3;
  const finest = atLeast(BIT_STEP, bitStep, 1 / 1000);
  const step = upTo(BIT_STEP, finest, stock / 3, 'A third of the part is thinner than one step.');
  return roundSettled(stock / 3 / step) * step;
}

/**
 * Length of a tenon by the wood there is for its mortise.
 * @param tenonThickness in
 * @param into in, wood along the tenon
 * @param leave in, to stay beyond the mortise; 1/4 when left out
 * @returns in: the mortise is as deep as `into` less `leave`, at most 5 tenon thicknesses, and 1/8 deeper
 * than the tenon
 * @throws Fault `kind`; `range`, also when the mortise would be shallower than 3 thicknesses
 * Source: woodworking school handout: mortise 3 to 5 times its width deep, tenon about 1/8 in shorter.
 * What to leave is common practice, no source.
 */
export function tenonLength(
  tenonThickness: number,
  into: number,
  leave: number = USUAL_LEAVE,
): number {
  const thick = positive(TENON_THICKNESS, tenonThickness);
  const kept = notNegative(LEAVE, leave);
  const wood = positive(INTO, into);
  rule('mortise: most times as deep as wide', DEEPEST);
  rule('mortise: least times as deep as wide', SHALLOWEST);
  const deep = Math.min(DEEPEST * thick, wood - kept);
  if (deep >= SHALLOWEST * thick - 1e-9 && deep > SPARE_DEPTH) return deep - SPARE_DEPTH;
  throw new Fault({
    class: 'range',
    argument: INTO.name,
    got: wood,
    quantity: 'length',
    takes: '{n} or more, for a mortise 3 times as deep as it is wide',
    bounds: [Math.max(SHALLOWEST * thick, SPARE_DEPTH) + kept],
    hint: 'A thinner tenon, a thicker leg, or a tenon right through it.',
  });
}

/**
 * Width of what is tenoned at the end of a rail.
 * @param railWidth in
 * @param grooveDepth in, of a groove along the rail; 0 when left out
 * @returns in: two thirds of the rail; half of it less the groove where it is grooved
 * @throws Fault `kind`; `range` when nothing is left beside the groove
 * Source: woodworking school handout (2/3 of the rail); Noyes, Handwork in Wood (grooved: half the rail
 * less the groove).
 */
export function tenonWidth(railWidth: number, grooveDepth = 0): number {
  const rail = positive(RAIL_WIDTH, railWidth);
  const groove = notNegative(GROOVE, grooveDepth);
  if (groove === 0) {
    rule('tenon: share of its rail’s width', 2 / 3);
    return (rail * 2) / 3;
  }
  rule('tenon of a grooved rail: share of its width, less the groove', 1 / 2, NOYES);
  const taken = [{ argument: GROOVE, value: groove, times: 1 }];
  return leftOver(rail / 2, taken, 'a tenon is left beside the groove');
}

/**
 * Tenons side by side into which a wide one is divided.
 * @param tenonWidth in
 * @param tenonThickness in
 * @returns count: none is wider than 6 times its thickness
 * @throws Fault `kind`, `range`
 * Source: woodworking school handout (6 times); the construction textbook says 5.
 */
export function tenonCount(tenonWidth: number, tenonThickness: number): number {
  const width = positive(TENON_WIDTH, tenonWidth);
  const thick = positive(TENON_THICKNESS, tenonThickness);
  rule('tenon: most times as wide as thick', WIDEST);
  const count = ceilSettled(width / (WIDEST * thick));
  return sensibleCount(Math.max(1, count), TENON_THICKNESS, thick, 'tenons');
}

/**
 * Wood between two tenons that enter a square leg from neighbouring sides, both in the middle of their
 * height.
 * @param legSize in
 * @param tenonLength in
 * @param tenonThickness in
 * @param faceToTenon in, outer face of the leg to the near side of the tenon
 * @param otherLength in; as long when left out
 * @param otherThickness in; as thick when left out
 * @param otherFaceToTenon in; as far when left out
 * @returns in; 0 where they meet
 * @throws Fault `kind`; `range` when a tenon comes out of the leg
 * Source: geometry of two rectangles.
 */
export function tenonsApart(
  legSize: number,
  tenonLength: number,
  tenonThickness: number,
  faceToTenon: number,
  otherLength: number = tenonLength,
  otherThickness: number = tenonThickness,
  otherFaceToTenon: number = faceToTenon,
): number {
  const leg = positive(LEG_SIZE, legSize);
  const comesOut = 'It would come out of the leg.';
  const length = upTo(TENON_LENGTH, tenonLength, leg, comesOut);
  const other = upTo(OTHER_LENGTH, otherLength, leg, comesOut);
  const far = farSide(leg, TENON_THICKNESS, tenonThickness, FROM_FACE, faceToTenon);
  const otherFar = farSide(leg, OTHER_THICKNESS, otherThickness, OTHER_FROM_FACE, otherFaceToTenon);
  // Each tenon ends a way short of the outer face that the other one lies beside.
  const between1 = leg - length - otherFar;
  const between2 = leg - other - far;
  if (between1 <= 0 && between2 <= 0) return 0;
  return Math.hypot(Math.max(0, between1), Math.max(0, between2));
}

type Argument = typeof TENON_THICKNESS;

function farSide(
  leg: number,
  thickness: Argument,
  thick: number,
  face: Argument,
  near: number,
): number {
  const from = notNegative(face, near);
  if (from >= leg) between(face, from, 0, leg, 'It would lie beside the leg.');
  return from + upTo(thickness, thick, leg - from, 'It would come out of the leg’s side.');
}

export const MORTISE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'TENON_THICKNESS',
    task: 'Joints',
    answers: 'How thick a tenon is.',
    args: [STOCK, BIT_STEP],
    result: { quantity: 'length', means: 'thickness of the tenon' },
    source: HANDOUT,
    example: '=TENON_THICKNESS(7/8, 1/16)',
    notes:
      'A third of the part; textbooks allow a quarter. In a leg thicker than the apron it may be thicker. Use the chisel or bit nearest to it, and fit the tenon to the mortise.',
    run: tenonThickness,
  },
  {
    name: 'TENON_LENGTH',
    task: 'Joints',
    answers: 'How long a tenon can be in the wood its mortise goes into.',
    args: [TENON_THICKNESS, INTO, LEAVE],
    result: {
      quantity: 'length',
      means: 'length of the tenon, 1/8 in (3 mm) less than its mortise',
    },
    source: `${HANDOUT}; what to leave is common practice, no source`,
    example: '=TENON_LENGTH(3/8, 2.5)',
    notes:
      'Mortises are 3 to 5 times as deep as they are wide. Where another tenon comes in from the side, into ends at that one: see TENONS_APART.',
    run: tenonLength,
  },
  {
    name: 'TENON_WIDTH',
    task: 'Joints',
    answers: 'How wide the tenon of a rail is.',
    args: [RAIL_WIDTH, GROOVE],
    result: { quantity: 'length', means: 'width of the tenon' },
    source:
      'a woodworking school’s handout: two thirds of the rail, read; Noyes, Handwork in Wood: half of it less the groove where there is one, read',
    example: '=TENON_WIDTH(3.5)',
    notes:
      'The rest is shoulder, or a haunch as long as the tenon is thick, which keeps the rail from twisting. Wider than 6 times its thickness, split it: see TENON_COUNT.',
    run: tenonWidth,
  },
  {
    name: 'TENON_COUNT',
    task: 'Joints',
    answers: 'How many tenons, side by side, a wide rail needs.',
    args: [TENON_WIDTH, TENON_THICKNESS],
    result: { quantity: 'count', means: 'tenons' },
    source: `${HANDOUT}: 6 times and 5 times its thickness are the widest`,
    example: '=TENON_COUNT(6, 3/8)',
    notes: 'A wide tenon shrinks away from its glue, and its mortise weakens the leg.',
    run: tenonCount,
  },
  {
    name: 'TENONS_APART',
    task: 'Joints',
    answers: 'How much wood is left between two tenons that meet in a corner of a leg.',
    args: [
      LEG_SIZE,
      TENON_LENGTH,
      TENON_THICKNESS,
      FROM_FACE,
      OTHER_LENGTH,
      OTHER_THICKNESS,
      OTHER_FROM_FACE,
    ],
    result: { quantity: 'length', means: 'least wood between them; 0 where they meet' },
    source: 'geometry of two rectangles',
    example: '=TENONS_APART(2.5, 1, 3/8, 3/4)',
    notes:
      'At 0 shorten one, move both outward, or miter their ends: then a tenon may be as long as the leg less face_to_tenon. Leave 1/8 in (3 mm) or more between mortises: common practice, no source.',
    run: tenonsApart,
  },
];
