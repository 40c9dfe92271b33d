import { lengthOf, numberOf, optional, rangeOf } from './arguments.ts';
import type { FunctionDescription, RangeArgument } from './describe.ts';
import { Fault } from './fault.ts';
import {
  atLeast,
  between,
  cells,
  eitherSign,
  type Guarded,
  notNegative,
  positive,
} from './guards.ts';
import { centreOf, outlineOf, type Point } from './outline.ts';

const WEIGHT = numberOf('mass', 'weight', 'weight of the whole piece');
const FEET_TO_MIDDLE = lengthOf(
  'feet_to_middle',
  'from a line through the near feet, square to it, to below the center of gravity',
);
const LOAD = numberOf('force', 'load', 'load straight down, such as a person who leans or climbs');
const FEET_TO_LOAD = lengthOf(
  'feet_to_load',
  'from the same line, square to it, out to the load; below 0 where the load is inside the feet',
);
const PUSH = optional(numberOf('force', 'push', 'sideways push over that edge'), 'no push');
const PUSH_HEIGHT = optional(lengthOf('push_height', 'floor to where it is pushed'), '0');
const FEET_X = rangeOf('length', 'feet_x', 'where each foot stands along the piece, a cell each');
const FEET_Y = rangeOf('length', 'feet_y', 'where each foot stands across it, as many cells');
const TOP_X = rangeOf('length', 'top_x', 'corners of the top along the piece, a cell each');
const TOP_Y = rangeOf('length', 'top_y', 'corners of the top across it, as many cells');
const MIDDLE_X = optional(
  lengthOf('middle_x', 'center of gravity, along the piece'),
  'the middle of the top',
);
const MIDDLE_Y = optional(
  lengthOf('middle_y', 'center of gravity, across the piece'),
  'the middle of the top',
);
const CASE_WEIGHT = numberOf('mass', 'case_weight', 'weight of all that stays shut');
const CASE_DEPTH = lengthOf('case_depth', 'front to back of the case');
const DRAWERS_WEIGHT = numberOf(
  'mass',
  'drawers_weight',
  'weight of the drawers that are open, with what is in them',
);
const DRAWER_LENGTH = lengthOf('drawer_length', 'front to back of a drawer');
const PULLED_OUT = lengthOf('pulled_out', 'how far those drawers are out');
const FEET_BACK = optional(
  lengthOf('feet_back', 'front of the case back to its front feet'),
  'feet flush with the front',
);

/** Less than this is no weight, and nothing a piece could stand on. */
const LIGHTEST = 1e-3;
const SHORTEST_LEVER = 1e-3;

const heavy = (weight: unknown): number => atLeast(WEIGHT, positive(WEIGHT, weight), LIGHTEST);

const lever = (argument: Guarded, value: unknown, hint?: string): number =>
  atLeast(argument, hint === undefined ? positive(argument, value) : value, SHORTEST_LEVER, hint);

/** What would tip it over what holds it, both about one line of feet. */
function shareAbout(
  weight: number,
  arm: number,
  load: { readonly force: number; readonly out: number },
  push: { readonly force: number; readonly height: number },
): number {
  const tips = load.force * Math.max(0, load.out) + push.force * push.height;
  const holds = weight * arm + load.force * Math.max(0, -load.out);
  return tips / holds;
}

/**
 * Share of what it takes to tip a piece over one line of its feet that a load and a push use up.
 * @param weight lb
 * @param feetToMiddle in, square to the line of feet
 * @param load lbf, straight down
 * @param feetToLoad in, square to the line of feet, outwards; inside it helps to hold
 * @param push lbf, level, outwards; 0 when left out
 * @param pushHeight in above the floor; 0 when left out
 * @returns a share: 1 is where the far feet lift, more than 1 tips
 * @throws Fault `kind`, `range`
 * Source: balance of moments about the line of feet (textbook statics): (load x feetToLoad + push x
 * pushHeight) / (weight x feetToMiddle).
 */
export function tipShare(
  weight: number,
  feetToMiddle: number,
  load: number,
  feetToLoad: number,
  push = 0,
  pushHeight = 0,
): number {
  return shareAbout(
    heavy(weight),
    lever(FEET_TO_MIDDLE, feetToMiddle, 'With its weight outside its feet a piece tips by itself.'),
    { force: notNegative(LOAD, load), out: eitherSign(FEET_TO_LOAD, feetToLoad) },
    { force: notNegative(PUSH, push), height: notNegative(PUSH_HEIGHT, pushHeight) },
  );
}

/** Points from two ranges, cell by cell; where both cells are empty there is none. */
function pointsOf(
  along: Guarded,
  xs: RangeArgument,
  across: Guarded,
  ys: RangeArgument,
): readonly Point[] {
  const [alongCells, acrossCells] = [cells(along, xs), cells(across, ys)];
  if (alongCells.length !== acrossCells.length) {
    throw new Fault({
      class: 'range',
      argument: across.name,
      got: acrossCells.length,
      quantity: 'count',
      takes: `as many cells as ${along.name}, which has {n}`,
      bounds: [alongCells.length],
    });
  }
  return alongCells.flatMap((x, i) => {
    const y = acrossCells[i];
    if (x === undefined && y === undefined) return [];
    return [[eitherSign(along, x), eitherSign(across, y)] as const];
  });
}

/** The lines on which a piece can tip: neighbours in the outline of its feet, counter-clockwise. */
function feetOutline(feet: readonly Point[]): readonly Point[] {
  const outline = outlineOf(feet);
  if (outline.length >= 3) return outline;
  throw new Fault({
    class: 'range',
    argument: FEET_X.name,
    got: feet.length,
    quantity: 'count',
    takes: 'three feet or more that do not stand in one line',
  });
}

/** A line of feet: a point of it, and square to it the way out. */
function lineBetween(from: Point, to: Point): (point: Point) => number {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  return ([x, y]) => ((x - from[0]) * dy - (y - from[1]) * dx) / length;
}

/**
 * The greatest share over all lines of feet of a piece, with the load at the worst place of its top.
 * @param weight lb
 * @param feetX in, from anywhere
 * @param feetY in
 * @param topX in, corners of the top from the same place; of a round top some points of its edge
 * @param topY in
 * @param load lbf, straight down anywhere on the top
 * @param push lbf, level, any way; 0 when left out
 * @param pushHeight in above the floor; 0 when left out
 * @param middleX in; of the top's outline when left out
 * @param middleY in; of the top's outline when left out
 * @returns a share as of {@link tipShare}; 0 where nothing overhangs and nobody pushes
 * @throws Fault `kind`; `range`, also where the middle of the weight is not between the feet
 * Source: balance of moments about each side of the outline of the feet (textbook statics).
 */
export function tipShareWorst(
  weight: number,
  feetX: RangeArgument,
  feetY: RangeArgument,
  topX: RangeArgument,
  topY: RangeArgument,
  load: number,
  push = 0,
  pushHeight = 0,
  middleX?: number,
  middleY?: number,
): number {
  const mass = heavy(weight);
  const feet = feetOutline(pointsOf(FEET_X, feetX, FEET_Y, feetY));
  const top = pointsOf(TOP_X, topX, TOP_Y, topY);
  const force = notNegative(LOAD, load);
  const pushed = { force: notNegative(PUSH, push), height: notNegative(PUSH_HEIGHT, pushHeight) };
  const centre = centreOf(top);
  const middle: Point = [
    middleX === undefined ? centre[0] : eitherSign(MIDDLE_X, middleX),
    middleY === undefined ? centre[1] : eitherSign(MIDDLE_Y, middleY),
  ];
  const shares = feet.map((from, i) => {
    const out = lineBetween(from, feet[(i + 1) % feet.length] ?? from);
    const arm = -out(middle);
    if (arm < SHORTEST_LEVER) throw outsideFeet(middle);
    const farthest = top.reduce((most, point) => Math.max(most, out(point)), -Infinity);
    return shareAbout(mass, arm, { force, out: farthest }, pushed);
  });
  return Math.max(...shares);
}

function outsideFeet(middle: Point): Fault {
  return new Fault({
    class: 'range',
    argument: MIDDLE_X.name,
    got: middle[0],
    quantity: 'length',
    takes: 'a middle of the weight that lies between the feet',
    hint: 'As it stands it tips over by itself.',
  });
}

/**
 * Load on the front of open drawers that tips a cabinet forward over its front feet.
 * @param caseWeight lb, all that stays shut; its middle halfway into the depth
 * @param caseDepth in
 * @param drawersWeight lb, of the open drawers with what is in them, spread evenly
 * @param drawerLength in
 * @param pulledOut in
 * @param feetBack in, front of the case to the front feet; 0 when left out
 * @returns lbf; 0 where it tips by itself
 * @throws Fault `kind`, `range`
 * Source: balance of moments about the front feet (textbook statics).
 */
export function tipLoadDrawers(
  caseWeight: number,
  caseDepth: number,
  drawersWeight: number,
  drawerLength: number,
  pulledOut: number,
  feetBack = 0,
): number {
  const depth = positive(CASE_DEPTH, caseDepth);
  const length = positive(DRAWER_LENGTH, drawerLength);
  const shut = positive(CASE_WEIGHT, caseWeight);
  const open = notNegative(DRAWERS_WEIGHT, drawersWeight);
  const out = lever(PULLED_OUT, pulledOut);
  const back = between(FEET_BACK, feetBack, 0, depth);
  const holds = shut * (depth / 2 - back) + open * (length / 2 - out - back);
  return Math.max(0, holds) / (out + back);
}

const STATICS = 'balance of moments, textbook statics';
const NO_TEST =
  'It adds up loads as furniture tests do (a load at the edge of a table, a child at an open drawer), but it is not one of them and shows no standard to be met. An estimate, not an approval.';

export const TIPPING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'TIP_SHARE',
    task: 'Strength and stability',
    answers: 'How close a load and a push come to tipping a piece over one edge.',
    args: [WEIGHT, FEET_TO_MIDDLE, LOAD, FEET_TO_LOAD, PUSH, PUSH_HEIGHT],
    result: { quantity: 'ratio', means: 'over 1 it tips; 0.5 is half of what it can take' },
    source: STATICS,
    example: '=TIP_SHARE(150, 15, 60, 6, 10, 30)',
    notes: `(load x feet_to_load + push x push_height) / (weight x feet_to_middle); a load inside the feet holds instead. Check each side. ${NO_TEST}`,
    run: tipShare,
  },
  {
    name: 'TIP_SHARE_WORST',
    task: 'Strength and stability',
    answers:
      'How close a load and a push come to tipping a piece over its weakest edge, with the load at the worst place on the top.',
    args: [WEIGHT, FEET_X, FEET_Y, TOP_X, TOP_Y, LOAD, PUSH, PUSH_HEIGHT, MIDDLE_X, MIDDLE_Y],
    result: { quantity: 'ratio', means: 'over 1 it tips; 0.5 is half of what it can take' },
    source: `${STATICS}, about each side of the outline of the feet`,
    example: '=TIP_SHARE_WORST(120, {6;78;78;6}, {6;6;36;36}, {0;84;84;0}, {0;0;42;42}, 150)',
    notes: `Three feet or more, and a top of any shape; for a round top give points on its edge. Without a push, load divided by the answer is the least load that tips it. ${NO_TEST}`,
    run: tipShareWorst,
  },
  {
    name: 'TIP_LOAD_DRAWERS',
    task: 'Strength and stability',
    answers: 'What load on the front of its open drawers tips a cabinet forward.',
    args: [CASE_WEIGHT, CASE_DEPTH, DRAWERS_WEIGHT, DRAWER_LENGTH, PULLED_OUT, FEET_BACK],
    result: { quantity: 'force', means: 'load straight down; 0 where it tips by itself' },
    source: `${STATICS}, about the front feet`,
    example: '=TIP_LOAD_DRAWERS(120, 20, 20, 18, 14)',
    notes: `Falling chests kill children: anchor to the wall whatever has drawers or is tall, and check it with all drawers open and filled. ASTM F2057 hangs 60 lb on an open drawer of clothing storage, and tests more than that. ${NO_TEST}`,
    run: tipLoadDrawers,
  },
];
