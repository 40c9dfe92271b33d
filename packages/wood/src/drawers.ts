import { countOf, lengthOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { between, leftOver, notNegative, positive, whole } from './guards.ts';
import { BUILT_AT, CUT, changePerInch, HUMID_AT, SEASONS, USED_AT } from './seasonal.ts';

const OPENING_HEIGHT = lengthOf('opening_height', 'height of the opening for the drawer');
const LEAST_GAP = optional(
  lengthOf('least_gap', 'room to keep over the drawer even then'),
  '1/32 in (0.8 mm)',
);
const DRAWER_HEIGHT = lengthOf('drawer_height', 'height of its sides or its front, as it is cut');
const OPENING_WIDTH = lengthOf('opening_width', 'width of the opening for the drawer');
const CLEARANCE = optional(
  lengthOf('clearance', 'room for the runner at each side'),
  '1/2 in (12.7 mm), as most side runners need',
);
const DRAWERS = optional(countOf('drawers', 'how many stand side by side'), '1');
const DIVIDER = optional(lengthOf('divider', 'thickness of what stands between two'), '0');

const USUAL_GAP = 1 / 32;
const USUAL_CLEARANCE = 0.5;
const MOST_DRAWERS = 100;

/**
 * Highest drawer side or front that does not stick in the most humid season.
 * @param openingHeight in
 * @param species any usual name; its grain runs along the drawer
 * @param moistureFrom %, at which it is cut
 * @param moistureTo %, in the most humid season
 * @param leastGap in, 1/32 when left out
 * @param cut as of MOVEMENT
 * @returns in: (openingHeight − leastGap) / (1 + growth of an inch)
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Wood Handbook equation 13-2, solved for the width. The gap is common practice, no source.
 */
export function drawerHeight(
  openingHeight: number,
  species: string,
  moistureFrom: number,
  moistureTo: number,
  leastGap: number = USUAL_GAP,
  cut: string | number = 'flat',
): number {
  const gap = notNegative(LEAST_GAP, leastGap);
  const taken = [{ argument: LEAST_GAP, value: gap, times: 1 }];
  const room = leftOver(positive(OPENING_HEIGHT, openingHeight), taken, 'a drawer is left');
  return room / (1 + Math.max(0, changePerInch(species, moistureFrom, moistureTo, cut)));
}

/**
 * Gap over a drawer in a season.
 * @param openingHeight in
 * @param height in, of the drawer as it is cut
 * @param species any usual name
 * @param moistureFrom %, at which it is cut
 * @param moistureTo %, in the season asked about
 * @param cut as of MOVEMENT
 * @returns in
 * @throws Fault `kind`, `unknown`; `range`, also when it sticks
 * Source: Wood Handbook equation 13-2.
 */
export function drawerGap(
  openingHeight: number,
  height: number,
  species: string,
  moistureFrom: number,
  moistureTo: number,
  cut: string | number = 'flat',
): number {
  const opening = positive(OPENING_HEIGHT, openingHeight);
  const cutTo = positive(DRAWER_HEIGHT, height);
  const factor = 1 + changePerInch(species, moistureFrom, moistureTo, cut);
  const gap = opening - cutTo * factor;
  if (gap >= -1e-9) return Math.max(0, gap);
  throw new Fault({
    class: 'range',
    argument: DRAWER_HEIGHT.name,
    got: cutTo,
    quantity: 'length',
    takes: '{n} at the most, or it sticks in this season',
    bounds: [opening / factor],
    hint: 'DRAWER_HEIGHT gives the height that fits.',
  });
}

/**
 * Width of a drawer between its runners, outside to outside.
 * @param openingWidth in
 * @param clearance in at each side, 1/2 when left out
 * @param drawers count, 1 when left out
 * @param divider in, 0 when left out
 * @returns in
 * @throws Fault `kind`; `range` when no drawer is left
 * Source: 1/2 in at each side is common practice, no source; the runner's own sheet goes before it.
 */
export function drawerWidth(
  openingWidth: number,
  clearance: number = USUAL_CLEARANCE,
  drawers = 1,
  divider = 0,
): number {
  const count = whole(DRAWERS, drawers, 1, MOST_DRAWERS);
  const taken = [
    { argument: CLEARANCE, value: between(CLEARANCE, clearance, 0, 1000), times: 2 * count },
    { argument: DIVIDER, value: notNegative(DIVIDER, divider), times: count - 1 },
  ];
  return leftOver(positive(OPENING_WIDTH, openingWidth), taken, 'a drawer is left') / count;
}

export const DRAWER_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'DRAWER_HEIGHT',
    task: 'Drawers',
    answers: 'How high to cut a solid drawer side or front so that it does not stick in summer.',
    args: [OPENING_HEIGHT, SPECIES_ARGUMENT, BUILT_AT, HUMID_AT, LEAST_GAP, CUT],
    result: { quantity: 'length', means: 'tallest side or front' },
    source: `${SEASONS}, solved for the width; the gap is common practice, no source`,
    example: '=DRAWER_HEIGHT(6, "red maple", 7, 12)',
    notes:
      'Sides and front swell in height; length hardly changes. A case whose sides have upright grain keeps its opening. Plywood and metal drawers need only the gap.',
    run: drawerHeight,
  },
  {
    name: 'DRAWER_GAP',
    task: 'Drawers',
    answers: 'How much gap there is over a solid drawer in a season.',
    args: [OPENING_HEIGHT, DRAWER_HEIGHT, SPECIES_ARGUMENT, BUILT_AT, USED_AT, CUT],
    result: { quantity: 'length', means: 'gap between drawer and case' },
    source: SEASONS,
    example: '=DRAWER_GAP(6, 5.875, "red maple", 7, 12)',
    notes:
      'A solid bottom moves too: lay its grain from side to side, glue it at the front only, and leave at the back what MOVEMENT says for its depth.',
    run: drawerGap,
  },
  {
    name: 'DRAWER_WIDTH',
    task: 'Drawers',
    answers: 'How wide a drawer is between its runners.',
    args: [OPENING_WIDTH, CLEARANCE, DRAWERS, DIVIDER],
    result: { quantity: 'length', means: 'width of the box, outside to outside' },
    source: 'common practice, no source',
    example: '=DRAWER_WIDTH(18)',
    notes:
      'Runners differ: use the figure on their sheet. A drawer that runs on wood needs about 1/64 in (0.4 mm) at each side. TIP_LOAD_DRAWERS says what open drawers do to the cabinet.',
    run: drawerWidth,
  },
];
