import { countOf, lengthOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { between, mostOf, positive, whole } from './guards.ts';

const LENGTH = lengthOf('length', 'longest way across; for a circle, its diameter');
const WIDTH = lengthOf('width', 'shortest way across; for a circle, its diameter');
const BOARDS = optional(
  countOf('boards', 'equal boards side by side along the length, each as long as it needs to be'),
  '1: a rectangle',
);
const BOARDS_ALL = countOf('boards', 'how many equal boards side by side, along the length');
const BOARD = countOf('board', 'which of them, from one edge: 1, 2, …');
const CHORD = lengthOf('chord', 'straight from end to end of the arc');
const RISE = lengthOf('rise', 'from the middle of that line up to the arc');

const MOST_BOARDS = 1000;
const SHALLOWEST = 1e-6;

const sizes = (length: number, width: number): readonly [number, number] => [
  positive(LENGTH, length),
  positive(WIDTH, width),
];

/**
 * Area of an oval, or of a circle.
 * @param length in
 * @param width in, the same for a circle
 * @returns in²: π/4 x length x width
 * @throws Fault `kind`, `range`
 * Source: geometry of the ellipse.
 */
export function ovalArea(length: number, width: number): number {
  const [long, wide] = sizes(length, width);
  return (Math.PI / 4) * long * wide;
}

/**
 * Way around an oval, or a circle.
 * @param length in
 * @param width in, the same for a circle
 * @returns in, by means of arithmetic and geometric means, to the last digits
 * @throws Fault `kind`, `range`
 * Source: geometry of the ellipse (Gauss).
 */
export function ovalEdge(length: number, width: number): number {
  const [one, other] = sizes(length, width);
  const [long, wide] = [Math.max(one, other), Math.min(one, other)];
  let [a, b, weight] = [1, wide / long, 0.5];
  let taken = weight * (1 - b ** 2);
  while (a - b > 1e-15) {
    const half = (a - b) / 2;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    weight *= 2;
    taken += weight * half ** 2;
  }
  return b > 0 ? (Math.PI * long * (1 - taken)) / a : 2 * long;
}

/**
 * How far apart the two pins stand by which an oval is drawn with a string.
 * @param length in
 * @param width in, no longer than the length
 * @returns in: √(length² − width²); 0 for a circle. The string's loop is longer by the length
 * @throws Fault `kind`, `range`
 * Source: geometry of the ellipse.
 */
export function ovalPins(length: number, width: number): number {
  const long = positive(LENGTH, length);
  const wide = between(WIDTH, positive(WIDTH, width), 0, long);
  return Math.sqrt(Math.max(0, long ** 2 - wide ** 2));
}

/** How long one of some equal boards has to be; the widest place of the oval that it covers. */
function boardOf(length: number, boards: number, board: number): number {
  // Where it lies across, from the middle, in half widths: 0 where it covers the middle.
  const [from, to] = [(2 * (board - 1)) / boards - 1, (2 * board) / boards - 1];
  const nearest = from <= 0 && to >= 0 ? 0 : Math.min(Math.abs(from), Math.abs(to));
  return length * Math.sqrt(1 - nearest ** 2);
}

/**
 * Length of one of the boards from which an oval or round top is glued.
 * @param length in
 * @param boards count, equal, along the length
 * @param board which one, 1 to boards
 * @returns in, to the line
 * @throws Fault `kind`, `range`
 * Source: geometry of the ellipse: length x √(1 − y²), y where the board is nearest to the middle.
 */
export function ovalBoard(length: number, boards: number, board: number): number {
  const count = whole(BOARDS_ALL, boards, 1, MOST_BOARDS);
  return boardOf(positive(LENGTH, length), count, whole(BOARD, board, 1, count));
}

/**
 * Share of the wood that is cut away around an oval or round top.
 * @param boards equal boards along the length, each as long as {@link ovalBoard} says; 1 when left out
 * @returns share, 0 to 0.22
 * @throws Fault `kind`, `range`
 * Source: geometry of the ellipse; 1 − π/4 from one rectangle.
 */
export function ovalWaste(boards = 1): number {
  const count = whole(BOARDS, boards, 1, MOST_BOARDS);
  let lengths = 0;
  for (let board = 1; board <= count; board += 1) lengths += boardOf(1, count, board);
  return 1 - (Math.PI / 4) * (count / lengths);
}

/** A chord and a rise that make an arc. */
const arc = (chord: number, rise: number): readonly [number, number] => {
  const across = positive(CHORD, chord);
  return [across, between(RISE, positive(RISE, rise), across * SHALLOWEST, mostOf('length'))];
};

/**
 * Radius of an arc through two ends and its highest point.
 * @param chord in
 * @param rise in
 * @returns in: (chord² / 4 + rise²) / (2 rise)
 * @throws Fault `kind`, `range`
 * Source: geometry of the circle.
 */
export function arcRadius(chord: number, rise: number): number {
  const [across, up] = arc(chord, rise);
  return (across ** 2 / 4 + up ** 2) / (2 * up);
}

/**
 * Length of that arc, along it.
 * @param chord in
 * @param rise in; more than half the chord goes on around the circle
 * @returns in: radius x 4 x atan(2 rise / chord)
 * @throws Fault `kind`, `range`
 * Source: geometry of the circle.
 */
export function arcLength(chord: number, rise: number): number {
  const [across, up] = arc(chord, rise);
  return arcRadius(chord, rise) * 4 * Math.atan2(2 * up, across);
}

const ELLIPSE = 'geometry of the ellipse';
const CIRCLE = 'geometry of the circle';

export const CURVE_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'OVAL_AREA',
    task: 'Angles and curves',
    answers: 'What area an oval or round top has.',
    args: [LENGTH, WIDTH],
    result: { quantity: 'area', means: 'area of one face' },
    source: ELLIPSE,
    example: '=OVAL_AREA(72, 42)',
    run: ovalArea,
  },
  {
    name: 'OVAL_EDGE',
    task: 'Angles and curves',
    answers: 'How far it is around an oval or round top, as for edging.',
    args: [LENGTH, WIDTH],
    result: { quantity: 'length', means: 'along the edge' },
    source: `${ELLIPSE}, by means of means (Gauss)`,
    example: '=OVAL_EDGE(72, 42)',
    run: ovalEdge,
  },
  {
    name: 'OVAL_PINS',
    task: 'Angles and curves',
    answers: 'How far apart the pins stand to draw an oval with a string.',
    args: [LENGTH, WIDTH],
    result: { quantity: 'length', means: 'pin to pin, on the long middle line' },
    source: ELLIPSE,
    example: '=OVAL_PINS(72, 42)',
    notes:
      'The string, tied into a loop around both pins, is as long as the oval and the pins’ distance together.',
    run: ovalPins,
  },
  {
    name: 'OVAL_BOARD',
    task: 'Angles and curves',
    answers: 'How long each board of an oval or round top has to be.',
    args: [LENGTH, BOARDS_ALL, BOARD],
    result: { quantity: 'length', means: 'to the line; add for trimming' },
    source: ELLIPSE,
    example: '=OVAL_BOARD(48, 9, 1)',
    notes: 'Boards lie along the length and are equally wide: together as wide as the top.',
    run: ovalBoard,
  },
  {
    name: 'OVAL_WASTE',
    task: 'Angles and curves',
    answers: 'What share of the wood is cut away around an oval or round top.',
    args: [BOARDS],
    result: { quantity: 'ratio', means: '0 to 1, of the boards that go into it' },
    source: `${ELLIPSE}; from one rectangle 1 less a quarter of pi`,
    example: '=OVAL_WASTE(9)',
    notes: 'The same for every oval and circle. Waste from milling and defects is extra.',
    run: ovalWaste,
  },
  {
    name: 'ARC_RADIUS',
    task: 'Angles and curves',
    answers: 'What radius an arc with a given rise has.',
    args: [CHORD, RISE],
    result: { quantity: 'length', means: 'radius' },
    source: CIRCLE,
    example: '=ARC_RADIUS(48, 3)',
    run: arcRadius,
  },
  {
    name: 'ARC_LENGTH',
    task: 'Angles and curves',
    answers: 'How long an arc with a given rise is along its curve.',
    args: [CHORD, RISE],
    result: { quantity: 'length', means: 'along the arc' },
    source: CIRCLE,
    example: '=ARC_LENGTH(48, 3)',
    run: arcLength,
  },
];
