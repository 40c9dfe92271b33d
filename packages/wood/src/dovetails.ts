import { countOf, lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled } from './exact.ts';
import { SPECIES_ARGUMENT, woodClassOf } from './find-species.ts';
import { between, leftOver, notNegative, positive, sensibleCount, whole } from './guards.ts';
import { rests } from './rests.ts';

const WIDTH = lengthOf('width', 'width of the board that has the tails');
const TAILS = countOf('tails', 'how many tails');
const PIN = lengthOf(
  'pin',
  'gap between two tails at the end of the board, where a pin is narrowest',
);
const HALF_PIN = optional(
  lengthOf('half_pin', 'what is left beside the outer tails, at the end of the board'),
  'half a pin and 1/8 in (3 mm) more, so that it does not split off',
);
const MARK = countOf('mark', 'which line, from one edge: 1 is where the first tail begins');
const WIDEST_TAIL = lengthOf('widest_tail', 'widest tail wanted');
const TAIL = lengthOf('tail', 'width of a tail at the end of the board');
const THICKNESS = lengthOf('thickness', 'thickness of the board that has the pins');
const ANGLE = numberOf(
  'angle',
  'angle',
  'slope of the tails, away from square, in degrees, 0 to 30',
);

const MOST_TAILS = 1000;
const MORE_AT_EDGE = 1 / 8;

interface Layout {
  readonly tail: number;
  readonly pin: number;
  readonly half: number;
}

function layout(width: number, tails: number, pin: number, halfPin: number | undefined): Layout {
  const count = whole(TAILS, tails, 1, MOST_TAILS);
  const gap = notNegative(PIN, pin);
  const half = halfPin === undefined ? gap / 2 + MORE_AT_EDGE : notNegative(HALF_PIN, halfPin);
  const taken = [
    { argument: PIN, value: gap, times: count - 1 },
    { argument: HALF_PIN, value: half, times: 2 },
  ];
  const tail = leftOver(positive(WIDTH, width), taken, 'tails are left') / count;
  return { tail, pin: gap, half };
}

/**
 * Width of each of some equal tails at the end of a board.
 * @param width in
 * @param tails count
 * @param pin in, where it is narrowest
 * @param halfPin in at each edge; pin / 2 + 1/8 when left out
 * @returns in
 * @throws Fault `kind`; `range` when no tail is left
 * Source: common practice, no source.
 */
export function dovetailTail(
  width: number,
  tails: number,
  pin: number,
  halfPin: number | undefined = undefined,
): number {
  return layout(width, tails, pin, halfPin).tail;
}

/**
 * Where a line of the layout stands on the end of the board.
 * @param width in
 * @param tails count
 * @param pin in, where it is narrowest
 * @param mark 1 to 2 x tails: odd lines begin a tail, even ones end it
 * @param halfPin in at each edge; pin / 2 + 1/8 when left out
 * @returns in from the edge
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function dovetailMark(
  width: number,
  tails: number,
  pin: number,
  mark: number,
  halfPin: number | undefined = undefined,
): number {
  const { tail, pin: gap, half } = layout(width, tails, pin, halfPin);
  const line = whole(MARK, mark, 1, 2 * tails);
  const before = Math.floor((line - 1) / 2);
  return half + before * (tail + gap) + (line % 2 === 0 ? tail : 0);
}

/**
 * Fewest equal tails none of which is wider than wanted.
 * @param width in
 * @param pin in, where it is narrowest
 * @param widestTail in
 * @param halfPin in at each edge; pin / 2 + 1/8 when left out
 * @returns count
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function dovetailCount(
  width: number,
  pin: number,
  widestTail: number,
  halfPin: number | undefined = undefined,
): number {
  const one = layout(width, 1, pin, halfPin);
  const most = positive(WIDEST_TAIL, widestTail);
  const count = Math.max(1, ceilSettled((one.tail + one.pin) / (most + one.pin)));
  return sensibleCount(count, WIDEST_TAIL, most, 'tails');
}

const SLOPES = { softwood: 1 / 6, hardwood: 1 / 8, imported: 1 / 8 } as const;

/**
 * Slope of dovetails by the wood.
 * @param species any usual name
 * @returns degrees: 1 in 6 for softwoods, 1 in 8 for hardwoods
 * @throws Fault `kind`, `unknown`
 * Source: shop practice, from memory. A building construction textbook wants more splay in hard wood.
 */
export function dovetailAngle(species: string): number {
  const slope = SLOPES[woodClassOf(species)];
  rests({
    of: `dovetails in such a wood: slope, 1 in ${1 / slope}`,
    value: slope,
    quantity: 'ratio',
    how: 'memory',
    source: 'shop practice',
    note: 'A building construction textbook, read, wants more slope in hard wood than in soft',
  });
  return (Math.atan(slope) * 180) / Math.PI;
}

/**
 * Width of a tail at its base line, where it is narrowest.
 * @param tail in, at the end of the board
 * @param thickness in, of the board with the pins
 * @param angle degrees, 0 to 30
 * @returns in: tail − 2 x thickness x tan(angle)
 * @throws Fault `kind`; `range` when the tail comes to a point
 * Source: geometry of a triangle.
 */
export function dovetailBase(tail: number, thickness: number, angle: number): number {
  const lean = Math.tan((between(ANGLE, angle, 0, 30) * Math.PI) / 180);
  const taken = [{ argument: THICKNESS, value: positive(THICKNESS, thickness), times: 2 * lean }];
  return leftOver(positive(TAIL, tail), taken, 'the tail has a base');
}

const PRACTICE = 'common practice, no source';

export const DOVETAIL_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'DOVETAIL_COUNT',
    task: 'Joints',
    answers: 'How many equal tails a board takes when none may be wider than a given width.',
    args: [WIDTH, PIN, WIDEST_TAIL, HALF_PIN],
    result: { quantity: 'count', means: 'fewest tails' },
    source: PRACTICE,
    example: '=DOVETAIL_COUNT(6, 1/4, 1.25)',
    run: dovetailCount,
  },
  {
    name: 'DOVETAIL_TAIL',
    task: 'Joints',
    answers: 'How wide each tail is when all are equal.',
    args: [WIDTH, TAILS, PIN, HALF_PIN],
    result: { quantity: 'length', means: 'at the end of the board, where a tail is widest' },
    source: PRACTICE,
    example: '=DOVETAIL_TAIL(6, 4, 1/4)',
    notes:
      'Construction textbooks call pins as wide as the tails the strongest form; narrow pins look finer. No pin narrower than your narrowest chisel.',
    run: dovetailTail,
  },
  {
    name: 'DOVETAIL_MARK',
    task: 'Joints',
    answers: 'Where to mark each line of the tails on the end of the board.',
    args: [WIDTH, TAILS, PIN, MARK, HALF_PIN],
    result: { quantity: 'length', means: 'from one edge of the board' },
    source: PRACTICE,
    example: '=DOVETAIL_MARK(6, 4, 1/4, 3)',
    notes: 'Odd marks begin a tail, even ones end it; there are twice as many as tails.',
    run: dovetailMark,
  },
  {
    name: 'DOVETAIL_ANGLE',
    task: 'Joints',
    answers: 'What slope dovetails get in a wood.',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'angle', means: 'away from square' },
    source: 'shop practice, from memory: 1 in 6 in softwood, 1 in 8 in hardwood',
    example: '=DOVETAIL_ANGLE("white oak")',
    notes:
      'Sources differ: a building construction textbook, read, wants more slope in hard wood than in soft.',
    run: dovetailAngle,
  },
  {
    name: 'DOVETAIL_BASE',
    task: 'Joints',
    answers: 'How wide a tail is at its base line.',
    args: [TAIL, THICKNESS, ANGLE],
    result: { quantity: 'length', means: 'where the tail is narrowest' },
    source: 'geometry of a triangle',
    example: '=DOVETAIL_BASE(1.25, 3/4, DOVETAIL_ANGLE("white oak"))',
    run: dovetailBase,
  },
];
