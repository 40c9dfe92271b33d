import { countOf, lengthOf, numberOf, optional, textOf } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { between, notNegative, oneOf, positive, whole } from './guards.ts';

const SIDES = countOf('sides', 'how many equal sides go around, 3 or more');
const SLOPE = numberOf(
  'angle',
  'slope',
  'how far each side leans, in degrees: 0 upright as in a box, 90 flat as in a picture frame',
);
const JOINT = optional(
  textOf('joint', '"mitre" where both ends are beveled alike, "butt" where one end lies on a face'),
  '"mitre"',
);
const HEIGHT = lengthOf('height', 'floor to the top of the leg, straight up');
const SPLAY_FRONT = numberOf(
  'angle',
  'splay_front',
  'how far it leans as seen from the front, in degrees, 0 to 60',
);
const SPLAY_SIDE = numberOf(
  'angle',
  'splay_side',
  'how far it leans as seen from the side, in degrees, 0 to 60',
);
const SIZE_START = lengthOf('size_start', 'size where the taper begins');
const SIZE_END = lengthOf('size_end', 'size at its end');
const TAPER_LENGTH = lengthOf('length', 'length of the taper');
const AT = lengthOf('at', 'from where it begins to that point');
const TAPERED = optional(countOf('tapered', 'opposite faces that are tapered, 1 or 2'), '1');

const MOST_SIDES = 1000;
const STEEPEST = 60;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;
const tangent = (angle: number): number => Math.tan(radians(angle));

/** Half of the turn from one side to the next, seen from above, in radians. */
const halfTurn = (sides: number): number => Math.PI / whole(SIDES, sides, 3, MOST_SIDES);

/**
 * Angle of the end of each side of a ring of equal sides that lean, on its face.
 * @param sides 3 or more
 * @param slope degrees from upright, 0 to 90
 * @returns degrees away from a square cut, for the mitre gauge
 * @throws Fault `kind`, `range`
 * Source: spherical trigonometry: atan(tan(180°/sides) x sin(slope)).
 */
export function compoundMitre(sides: number, slope: number): number {
  const lean = radians(between(SLOPE, slope, 0, 90));
  return degrees(Math.atan(Math.tan(halfTurn(sides)) * Math.sin(lean)));
}

/**
 * Tilt of the blade for the ends of a ring of equal sides that lean.
 * @param sides 3 or more
 * @param slope degrees from upright, 0 to 90
 * @param joint "mitre" (when left out) or "butt"
 * @returns degrees away from upright: half the turn between two faces, or what it is over a right angle
 * @throws Fault `kind`, `range`, `unknown`
 * Source: spherical trigonometry: sin(mitre) = sin(180°/sides) x cos(slope); the turn between the faces
 * is twice that.
 */
export function compoundBevel(sides: number, slope: number, joint = 'mitre'): number {
  const lean = radians(between(SLOPE, slope, 0, 90));
  const bevel = degrees(Math.asin(Math.sin(halfTurn(sides)) * Math.cos(lean)));
  return oneOf(JOINT, spelled(joint), ['mitre', 'butt']) === 'mitre'
    ? bevel
    : Math.abs(90 - 2 * bevel);
}

/** American spelling is the same word. */
const spelled = (joint: unknown): unknown =>
  typeof joint === 'string' ? joint.replace(/miter/i, 'mitre') : joint;

/** Both tangents of a leg that leans two ways. */
function leans(splayFront: number, splaySide: number): readonly [front: number, side: number] {
  return [
    // Adding nothing turns a negative zero, which leans the other way, into plain zero.
    tangent(between(SPLAY_FRONT, splayFront, 0, STEEPEST)) + 0,
    tangent(between(SPLAY_SIDE, splaySide, 0, STEEPEST)) + 0,
  ];
}

/**
 * Angle between a splayed leg and the plumb line.
 * @param splayFront degrees seen from the front, 0 to 60
 * @param splaySide degrees seen from the side, 0 to 60
 * @returns degrees: atan √(tan² front + tan² side)
 * @throws Fault `kind`, `range`
 * Source: geometry of a line in space.
 */
export function splayAngle(splayFront: number, splaySide: number): number {
  return degrees(Math.atan(Math.hypot(...leans(splayFront, splaySide))));
}

/**
 * Way in which a splayed leg leans, seen from above: the line along which it leans by {@link splayAngle}.
 * @param splayFront degrees seen from the front, 0 to 60
 * @param splaySide degrees seen from the side, 0 to 60
 * @returns degrees from the front's edge, 0 to 90; 0 for a leg that does not lean
 * @throws Fault `kind`, `range`
 * Source: geometry of a line in space: atan2(tan side, tan front).
 */
export function splayTurn(splayFront: number, splaySide: number): number {
  const [front, side] = leans(splayFront, splaySide);
  return degrees(Math.atan2(side, front));
}

/**
 * Length of a splayed leg along its middle.
 * @param height in, straight up
 * @param splayFront degrees seen from the front, 0 to 60
 * @param splaySide degrees seen from the side, 0 to 60
 * @returns in: height x √(1 + tan² front + tan² side)
 * @throws Fault `kind`, `range`
 * Source: geometry of a line in space.
 */
export function splayLength(height: number, splayFront: number, splaySide: number): number {
  return positive(HEIGHT, height) * Math.hypot(1, ...leans(splayFront, splaySide));
}

/** What a taper takes off each face that is tapered. */
const takenOff = (start: number, end: number, tapered: number): number =>
  (positive(SIZE_START, start) - between(SIZE_END, notNegative(SIZE_END, end), 0, start)) /
  whole(TAPERED, tapered, 1, 2);

/**
 * Angle of a taper on each face.
 * @param sizeStart in
 * @param sizeEnd in, no larger
 * @param length in
 * @param tapered opposite faces, 1 or 2; 1 when left out
 * @returns degrees
 * @throws Fault `kind`, `range`
 * Source: geometry of a triangle.
 */
export function taperAngle(
  sizeStart: number,
  sizeEnd: number,
  length: number,
  tapered = 1,
): number {
  const off = takenOff(sizeStart, sizeEnd, tapered);
  return degrees(Math.atan2(off, positive(TAPER_LENGTH, length)));
}

/**
 * Size of a tapered part at a place.
 * @param sizeStart in
 * @param sizeEnd in, no larger
 * @param length in
 * @param at in from where the taper begins, 0 to length
 * @returns in
 * @throws Fault `kind`, `range`
 * Source: geometry of a triangle.
 */
export function taperSize(sizeStart: number, sizeEnd: number, length: number, at: number): number {
  const long = positive(TAPER_LENGTH, length);
  const share = between(AT, at, 0, long) / long;
  return Math.max(0, sizeStart - takenOff(sizeStart, sizeEnd, 1) * share);
}

const SPHERE = 'spherical trigonometry; checked against vectors in space';
const SPACE = 'geometry of a line in space';
const SAW =
  'Unplug the saw to set it. Try the setting on scrap all around: an error of a tenth of a degree is doubled at each joint.';

export const ANGLE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'COMPOUND_MITRE',
    task: 'Angles and curves',
    answers: 'At what angle to set the miter gauge for sides that lean.',
    args: [SIDES, SLOPE],
    result: { quantity: 'angle', means: 'away from a square cut' },
    source: SPHERE,
    example: '=COMPOUND_MITRE(4, 15)',
    notes: `With the face of the part flat on the table, and the blade tilted by COMPOUND_BEVEL. ${SAW}`,
    run: compoundMitre,
  },
  {
    name: 'COMPOUND_BEVEL',
    task: 'Angles and curves',
    answers: 'How far to tilt the blade for sides that lean.',
    args: [SIDES, SLOPE, JOINT],
    result: { quantity: 'angle', means: 'away from upright' },
    source: SPHERE,
    example: '=COMPOUND_BEVEL(4, 15)',
    notes: `Upright sides come to 180° / sides, flat ones to 0. ${SAW}`,
    run: compoundBevel,
  },
  {
    name: 'SPLAY_ANGLE',
    task: 'Angles and curves',
    answers: 'How far a leg that leans two ways is off plumb in all.',
    args: [SPLAY_FRONT, SPLAY_SIDE],
    result: { quantity: 'angle', means: 'between the leg and the plumb line' },
    source: SPACE,
    example: '=SPLAY_ANGLE(10, 7)',
    notes: 'Tilt the drill or its table by it, and turn the seat by SPLAY_TURN.',
    run: splayAngle,
  },
  {
    name: 'SPLAY_TURN',
    task: 'Angles and curves',
    answers: 'Along which line, drawn on the seat, a leg that leans two ways leans.',
    args: [SPLAY_FRONT, SPLAY_SIDE],
    result: { quantity: 'angle', means: 'from a line along the front edge' },
    source: SPACE,
    example: '=SPLAY_TURN(10, 7)',
    run: splayTurn,
  },
  {
    name: 'SPLAY_LENGTH',
    task: 'Angles and curves',
    answers: 'How long a leg that leans two ways is.',
    args: [HEIGHT, SPLAY_FRONT, SPLAY_SIDE],
    result: { quantity: 'length', means: 'along the middle of the leg' },
    source: SPACE,
    example: '=SPLAY_LENGTH(17, 10, 7)',
    notes: 'Its ends are cut at an angle: leave half its thickness or so at both.',
    run: splayLength,
  },
  {
    name: 'TAPER_ANGLE',
    task: 'Angles and curves',
    answers: 'At what angle a taper runs.',
    args: [SIZE_START, SIZE_END, TAPER_LENGTH, TAPERED],
    result: { quantity: 'angle', means: 'on each face that is tapered' },
    source: 'geometry of a triangle',
    example: '=TAPER_ANGLE(2.5, 1.5, 24)',
    notes:
      'Tapers start below the joint. Clamp the part in a jig, and keep hands out of line with the blade.',
    run: taperAngle,
  },
  {
    name: 'TAPER_SIZE',
    task: 'Angles and curves',
    answers: 'How thick a tapered part is at one point.',
    args: [SIZE_START, SIZE_END, TAPER_LENGTH, AT],
    result: { quantity: 'length', means: 'size there' },
    source: 'geometry of a triangle',
    example: '=TAPER_SIZE(2.5, 1.5, 24, 6)',
    run: taperSize,
  },
];
