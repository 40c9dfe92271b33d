import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { ownWood } from '../hostile/tables/own-wood.ts';
import { bookWith, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  planedOf,
  rateOf,
  rippedTo,
  seasonsOf,
  stressOf,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';

/** lb/ft³: Wood Handbook, table 12-1 (MDF: the middle of its range and some water); hardwood plywood from memory. */
const SHEETS: Readonly<Record<string, number>> = { 'hardwood plywood': 38, MDF: 47 };

/** Boards that make a panel: n lose n - 1 joints, and none is wider than the widest. */
const boardsFor = (inputs: Inputs, width: number): { count: number; each: number } => {
  const [loss, widest] = [numberOf(inputs, 'joint_loss'), numberOf(inputs, 'widest_board')];
  const count = up((width - loss) / (widest - loss));
  return { count, each: rippedTo(inputs, (width + (count - 1) * loss) / count) };
};

/** What a bookcase comes to by its inputs alone, in the units of the us. */
function bookcaseOf(inputs: Inputs): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [width, depth, side] = [at('case_width'), at('case_depth'), at('side_thickness')];
  const wood = ownWood(wordOf(inputs, 'species'));
  const isFixed = wordOf(inputs, 'shelf_kind') === 'fixed';
  const shelves = at('shelf_count');
  const clear = width - 2 * side;
  const tall = at('case_height') - at('top_thickness');
  const inside = tall - at('kick_height') - side;
  const shelfDepth = depth - at('back_thickness');
  const load = at('book_load');
  const inertia = (shelfDepth * at('shelf_thickness') ** 3) / 12;
  // 5 w L⁴ / 384 E I: Wood Handbook, equation 9-2, bending term.
  const sag = (5 * load * clear ** 4) / (384 * wood.stiffness * inertia);
  const top = depth + at('top_out_front');
  const rate = rateOf(inputs);
  const { dry, humid } = seasonsOf(inputs);
  const [sides, inner, upper] = [depth, shelfDepth, top].map((one) => boardsFor(inputs, one));
  const shelf = isFixed ? clear + 2 * at('dado_depth') : clear - 2 * at('shelf_play');
  // Boards are glued before their panel is trimmed.
  const line = (boards: { count: number } | undefined, long: number): number =>
    ((boards?.count ?? 0) - 1) * (long + at('trim_length')) * planedOf(inputs);
  const panels =
    2 * line(sides, tall) +
    shelves * line(inner, shelf) +
    line(inner, clear + 2 * at('dado_depth')) +
    line(upper, width + 2 * at('top_out_end'));
  // Both cheeks of a dado at either end of the bottom, and of shelves that are fixed.
  const dadoes = 2 * 2 * at('dado_depth') * depth * (1 + (isFixed ? shelves : 0));
  return {
    clear_width: clear,
    side_height: tall,
    inside_height: inside,
    shelf_space: (inside - shelves * at('shelf_thickness')) / (shelves + 1),
    back_width: clear + 2 * at('back_rabbet'),
    back_length: tall - at('kick_height'),
    shelf_depth: shelfDepth,
    shelf_length: shelf,
    // 225 in² to the ounce, as glue makers' sheets have it.
    glue_volume: (panels + dadoes) / 225,
    side_boards: sides?.count ?? 0,
    side_board_width: sides?.each ?? 0,
    shelf_boards: inner?.count ?? 0,
    shelf_board_width: inner?.each ?? 0,
    top_board_width: upper?.each ?? 0,
    shelf_load: load * clear,
    books_load: load * clear * (shelves + 1),
    sag_first: sag,
    // Half as much again for dry wood: NDS 3.5.2.
    sag_lasting: 1.5 * sag,
    sag_allowed: clear / at('sag_share'),
    // The same equation, solved for the span.
    span_longest: Math.cbrt((384 * wood.stiffness * inertia) / (5 * 1.5 * load * at('sag_share'))),
    shelf_stress: stressOf((load * clear ** 2) / 8, shelfDepth, at('shelf_thickness')),
    stress_allowed: wood.strength / 4,
    pin_count: isFixed ? 0 : 4 * shelves,
    movement_swing: top * rate * (humid - dry),
    side_swing: depth * rate * (humid - dry),
    movement_from_build_dry: top * rate * (dry - at('moisture_build')),
    movement_from_build_humid: top * rate * (humid - at('moisture_build')),
  };
}

/** Boxes of solid wood with their middles from the front of the top, as they are before joints are cut. */
function weighedByHand(inputs: Inputs): { weight: number; middle: number } {
  const at = (name: string): number => numberOf(inputs, name);
  const known = bookcaseOf(inputs);
  const got = (name: string): number => known[name] ?? Number.NaN;
  const front = at('top_out_front');
  const [depth, side, clear] = [at('case_depth'), at('side_thickness'), got('clear_width')];
  const shelf = got('shelf_depth');
  const isFixed = wordOf(inputs, 'shelf_kind') === 'fixed';
  const [bottom, board] = [shelf * side, shelf * at('shelf_thickness')];
  const boxes: readonly (readonly [volume: number, middle: number])[] = [
    [
      (at('case_width') + 2 * at('top_out_end')) * (depth + front) * at('top_thickness'),
      (depth + front) / 2,
    ],
    [2 * side * depth * got('side_height'), front + depth / 2],
    // What lies in a dado is cut out of the side.
    [bottom * clear, front + shelf / 2],
    [at('shelf_count') * board * (isFixed ? clear : got('shelf_length')), front + shelf / 2],
    [side * at('kick_height') * clear, front + at('kick_back') + side / 2],
    [side * at('rail_width') * clear, front + shelf - side / 2],
    [
      -2 * at('back_rabbet') * at('back_thickness') * got('side_height'),
      front + depth - at('back_thickness') / 2,
    ],
  ];
  const solid = boxes.reduce((sum, [volume]) => sum + volume, 0);
  const back = got('back_width') * got('back_length') * at('back_thickness');
  const moment = boxes.reduce((sum, [volume, middle]) => sum + volume * middle, 0);
  const behind = front + depth - at('back_thickness') / 2;
  const density = SHEETS[wordOf(inputs, 'back_sheet')] ?? Number.NaN;
  return {
    weight: weighed(inputs, solid) + (back * density) / 1728,
    middle: (moment + back * behind) / (solid + back) - front,
  };
}

/** About the front feet: what pulls it over, by what holds it down. */
function tippingOf(inputs: Inputs, book: Workbook): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const height = Math.min(at('case_height'), 56);
  const over = at('climb_load') * at('climb_out') + at('climb_pull') * height;
  const holds = numberIn(book, 'case_weight') * numberIn(book, 'feet_to_middle');
  return { tip_climb: over / holds };
}

const CASES: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  ['with adjustable shelves', { shelf_kind: 'adjustable', case_height: '48', pin_holes: '10' }],
  [
    'low and wide, in walnut with thick shelves',
    {
      case_width: '48',
      case_height: '36',
      shelf_count: '1',
      species: 'black walnut',
      rough_quarters: '5/4',
      shelf_thickness: '1',
      book_load: '35 lb/ft',
    },
  ],
  [
    'narrow and deep, quarter-sawn, with an MDF back',
    {
      case_width: '20',
      case_depth: '14',
      cut: 'quarter',
      species: 'sugar maple',
      back_sheet: 'MDF',
      top_out_front: '1',
      dado_depth: '3/8',
    },
  ],
  [
    'without shelves, rift-sawn ash',
    {
      shelf_count: '0',
      case_height: '2\' 6"',
      species: 'white ash',
      cut: 'rift',
      moisture_build: '9',
      climb_pull: '0',
    },
  ],
];

describe('the bookcase, against the same bookcase worked out by hand', () => {
  it.each(CASES)('%s', (_, entries) => {
    const book = bookWith('bookcase', entries);
    const inputs = inputsOf(book);
    expectHeld(book, { ...bookcaseOf(inputs), ...tippingOf(inputs, book) });
    // Dowel holes, pocket holes and pin holes are left out by hand: less than a 50th of the wood.
    const { weight, middle } = weighedByHand(inputs);
    expect(Math.abs(numberIn(book, 'case_weight') / weight - 1)).toBeLessThan(0.02);
    expect(Math.abs(numberIn(book, 'feet_to_middle') / middle - 1)).toBeLessThan(0.02);
    expect(numberIn(book, 'parts_overlap')).toBe(0);
    expect(numberIn(book, 'parts_loose')).toBe(0);
  });

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith('bookcase', { case_width: '800', case_height: '1.8 m' }, 'metric');
    expectHeld(book, bookcaseOf(inputsOf(book)));
    expect(book.problems()).toEqual([]);
  });
});

describeBookItself('bookcase', 'the bookcase', [
  ['tall', { shelf_count: '6' }, 'the tallest book is 12 in'],
  ['space', { shelf_count: '10', case_height: '40' }, 'leave 3 in'],
  ['planed', { side_thickness: '1' }, '13/16 in'],
  ['dado', { dado_depth: '1/2' }, '1/2 in deep'],
  ['sag', { case_width: '48' }, 'Under books'],
  ['heavy', { case_width: '60', book_load: '60 lb/ft' }, '200 lb'],
  ['strong', { case_width: '58', book_load: '115 lb/ft', shelf_thickness: '1/2' }, '3,575 psi'],
  ['bow', { shelf_kind: 'adjustable' }, '67 1/2 in'],
  ['pins', { shelf_kind: 'adjustable', pin_depth: '3/4' }, '3/4 in deep'],
  ['anchor', { anchored: 'no' }, 'fasten it through the wall rail'],
  ['tip', { anchored: 'no' }, '60 lb'],
  ['kick', { kick_back: '4', case_depth: '6', back_thickness: '3/8' }, 'set back 4 in'],
]);
