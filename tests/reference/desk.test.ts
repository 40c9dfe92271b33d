import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ownWood } from '../hostile/tables/own-wood.ts';
import { bookWith, type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  finishOf,
  moneyOf,
  panelOf,
  rateOf,
  sagPoint,
  seasonsOf,
  stressOf,
  tenonWide,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

/** No. 8: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 8;
const GRITS = 3;
/** lb/ft³ of birch plywood: Handbook of Finnish plywood, from memory. */
const PLYWOOD = 42.5;

/** What a desk comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function deskOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const wood = ownWood(wordOf(inputs, 'species'));
  const [length, width, thick] = [at('top_length'), at('top_width'), at('top_thickness')];
  const [leg, setback, drawers] = [at('leg_size'), at('apron_setback'), at('drawer_count')];
  const apron = { thick: at('apron_thickness'), wide: at('apron_width') };
  const long = length - 2 * (at('overhang_end') + leg);
  const short = width - 2 * (at('overhang_side') + leg);
  const rail = { thick: at('rail_thickness'), deep: leg - setback };
  const open = {
    wide: (long - (drawers - 1) * at('divider')) / drawers,
    high: apron.wide - 2 * rail.thick,
    deep: width - 2 * at('overhang_side') - 2 * setback - apron.thick - at('front_thickness'),
  };
  const behind = open.deep + at('front_thickness') - rail.deep;
  const { dry, humid } = seasonsOf(inputs);
  const rate = rateOf(inputs);
  const now = at('moisture_build');
  // As high as it may be, so that what it swells to by the humid season leaves the least gap.
  const room = open.high - at('front_gap');
  const front = (room - at('front_gap_least')) / (1 + rate * Math.max(0, humid - now));
  const gapNow = room - front;
  const side = at('side_thickness');
  const box = open.wide - 2 * at('slide_clearance');
  const inside = box - 2 * side;
  const slide = at('slide_length');
  const isDovetailed = wordOf(inputs, 'box_joint') === 'dovetails';
  const bottom = {
    wide: inside + 2 * at('bottom_groove'),
    deep: slide - 2 * side + 2 * at('bottom_groove'),
  };
  // A tail, a pin, a tail: half a pin and an eighth are left beside the outer ones.
  const [pin, high] = [at('pin'), at('box_height')];
  const between = high - 2 * (pin / 2 + 1 / 8);
  const tails = up((between + pin) / (at('widest_tail') + pin));
  const base = weighed(
    inputs,
    4 * leg ** 2 * (at('desk_height') - thick) +
      apron.thick * apron.wide * (long + 2 * short) +
      2 * rail.thick * rail.deep * long +
      (drawers - 1) * at('divider') * open.high * (rail.deep + behind) +
      2 * at('hanger') * open.high * short,
  );
  const drawer =
    weighed(
      inputs,
      at('front_thickness') * (open.wide - 2 * at('front_gap')) * front +
        2 * side * high * (slide + inside),
    ) +
    (PLYWOOD * bottom.wide * bottom.deep * at('bottom_thickness')) / 1728;
  const top = weighed(inputs, length * width * thick);
  const full = drawers * (drawer + at('drawer_load'));
  const feet = width - 2 * at('overhang_side');
  const panel = panelOf(inputs, length, width);
  const areaTop = 2 * length * width + 2 * thick * (length + width);
  const finish = finishOf(
    inputs,
    areaTop +
      16 * leg * (at('desk_height') - thick) +
      2 * (apron.thick + apron.wide) * (long + 2 * short) +
      4 * (rail.thick + rail.deep) * long +
      drawers * (2 * (open.wide - 2 * at('front_gap')) * front + 4 * high * (slide + box)),
  );
  const each = (isDovetailed ? 4 * tails * at('tail_each') : 1) + 2;
  const hours =
    at('hours_boards') +
    (panel.panel_boards ?? 0) * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (areaTop / at('sand_rate')) * GRITS +
    at('hours_base') +
    10 * at('joint_each') +
    drawers * each +
    at('hours_fit') +
    at('coats') * at('coat_each') +
    at('hours_deliver');
  const held = feet - setback - rail.deep / 2 - setback - apron.thick / 2;
  const travel = Math.max(Math.abs(rate * (dry - now)), Math.abs(rate * (humid - now))) * held;
  return {
    ...panel,
    ...finish,
    ...moneyOf(inputs, hours, planCost, {
      hardware:
        at('fastener_count') * at('fastener_price') +
        drawers * (at('slide_price') + at('pull_price')),
      cans: finish.finish_cans ?? 0,
      glue: panel.glue_volume ?? 0,
    }),
    slide_pairs: drawers,
    pull_count: drawers * at('pulls_each'),
    knee_room: at('desk_height') - thick - apron.wide,
    clear_long: long,
    clear_short: short,
    apron_long: long + 2 * at('tenon_length'),
    apron_short: short + 2 * at('tenon_length'),
    hanger_middle: behind,
    opening_width: open.wide,
    opening_height: open.high,
    opening_depth: open.deep,
    front_height: front,
    front_gap_now: gapNow,
    front_gap_dry: gapNow - front * rate * (dry - now),
    box_width: box,
    box_inside: inside,
    // Front and back sit half way into rabbeted sides.
    box_end: isDovetailed ? box : box - side,
    bottom_width: bottom.wide,
    bottom_depth: bottom.deep,
    tails,
    tail_width: (between - (tails - 1) * pin) / tails,
    // 1 in 8 in hardwood: shop practice, from memory.
    tail_angle: (Math.atan(1 / 8) * 180) / Math.PI,
    top_weight: top,
    base_weight: base,
    drawers_weight: drawers * drawer,
    desk_weight: top + base + drawers * drawer,
    people_needed: up((top + base + drawers * drawer) / at('lift_alone')),
    // About the front feet: the case holds with half of its depth, what is out pulls with the middle of the drawers.
    tip_drawers: Math.max(0, ((top + base) * (feet / 2) - full * (slide / 2)) / slide),
    desk_sag: sagPoint(long, at('person_load'), apron.thick, apron.wide, wood.stiffness),
    apron_stress: stressOf((at('person_load') * long) / 4, apron.thick, apron.wide),
    stress_allowed: wood.strength / 4,
    tenon_width: tenonWide(apron.wide),
    held_across: held,
    screw_travel: travel,
    slot_length: SCREW + 2 * travel + at('slot_spare'),
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up(((panel.glue_stages ?? 0) * at('glue_wait') + at('coats') * at('recoat_hours')) / 24),
  };
}

describeSizes('desk', 'the desk', (inputs, book) => deskOf(inputs, numberIn(book, 'plan_cost')), {
  sizes: [
    ['as it ships', {}],
    [
      'with one drawer and rabbets, in walnut',
      { drawer_count: '1', top_length: '40', box_joint: 'rabbets', species: 'black walnut' },
    ],
    [
      'long, with three drawers, quarter-sawn oak',
      {
        drawer_count: '3',
        top_length: '72',
        species: 'white oak',
        cut: 'quarter',
        rough_quarters: '6/4',
        top_thickness: '1 1/4',
      },
    ],
    [
      'deep, with high boxes',
      { top_width: '32', slide_length: '20', apron_width: '6 1/2', box_height: '4' },
    ],
    [
      'in a damp house, of rift-sawn ash',
      { species: 'white ash', cut: 'rift', humid_humidity: '80', moisture_build: '10' },
    ],
  ],
  metric: { top_length: '1.4 m', top_width: '700' },
});

describeBookItself('desk', 'the desk', [
  ['knees', { apron_width: '6 1/2' }, '22 in'],
  ['season', { moisture_build: '14' }, '14 %'],
  ['planed', { top_thickness: '1 1/4' }, '1 1/16 in'],
  ['parts', { apron_thickness: '1 1/8' }, '1 1/16 in'],
  ['legfit', { hanger: '1 1/4' }, 'hangers of 1 1/4 in'],
  ['tenon', { tenon_length: '1 1/4' }, 'mortises meet inside the leg'],
  ['opening', { drawer_count: '4', top_length: '34' }, '6 in by 1 1/2 in'],
  ['box', { box_height: '3 3/4' }, '3 3/4 in high'],
  ['box', { slide_length: '22' }, '22 in long'],
  ['behind', { box_up: '3/4', front_gap_least: '1/8', box_height: '3 1/8' }, 'make the box lower'],
  ['grooves', { bottom_groove: '3/8' }, '3/8 in deep'],
  ['tails', { pin: '1' }, 'wider tails'],
  ['pulls', { drawer_load: '60' }, 'tips the desk'],
  ['sticks', { humid_humidity: '90', apron_width: '6 1/2' }, 'quarter-sawn fronts'],
  [
    'sag',
    { apron_width: '3 1/8', top_length: '84', box_height: '1 1/2', box_up: '1/16' },
    '250 lb',
  ],
  ['through', { top_screw: '1 1/2' }, '1 1/2 in'],
  ['bite', { top_screw: '3/4' }, '1/4 in'],
]);

it('says heights and tails as fine as the gaps beside them: in sixteenths a front filled its opening', () => {
  const sizes = readFileSync(new URL('data/guide-sizes.json', import.meta.url), 'utf8');
  const { most } = JSON.parse(sizes).desk.us;
  const book = bookWith('desk', most);
  for (const name of ['front_height', 'tail_width']) {
    const text = book.named(name)?.shown.text ?? '';
    const [, whole = '0', over = '0', under = '1'] = /^(\d+)?(?: ?(\d+)\/(\d+))?$/.exec(text) ?? [];
    const said = Number(whole) + Number(over) / Number(under);
    expect(Math.abs(said - numberIn(book, name)), `${name} ${text}`).toBeLessThanOrEqual(1 / 64);
  }
});
