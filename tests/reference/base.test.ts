import { ownWood } from '../hostile/tables/own-wood.ts';
import { type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  fastenersAlong,
  finishOf,
  moneyOf,
  planedOf,
  sagPoint,
  stressOf,
  tenonArea,
  tenonWide,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

const GRITS = 3;
const JOINTS = 8;

/** What a base comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function baseOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const wood = ownWood(wordOf(inputs, 'species'));
  const [length, width] = [at('top_length'), at('top_width')];
  const [leg, tenon] = [at('leg_size'), at('tenon_length')];
  const apron = { thick: at('apron_thickness'), wide: at('apron_width') };
  const [overEnd, overSide] = [at('overhang_end'), at('overhang_side')];
  const long = length - 2 * (overEnd + leg);
  const short = width - 2 * (overSide + leg);
  const legLength = at('table_height') - at('top_thickness');
  const wide = tenonWide(apron.wide);
  const section = tenonArea(wide, apron.thick / 3);
  // Mortises are an eighth deeper than their tenons.
  const legs = 4 * leg ** 2 * legLength - JOINTS * section * (tenon + 1 / 8);
  const aprons = 2 * apron.thick * apron.wide * (long + short) + JOINTS * section * tenon;
  const base = weighed(inputs, legs + aprons);
  const weight = base + at('top_weight');
  const load = at('person_load');
  const both = 2 * apron.thick;
  const area = 16 * leg * legLength + 4 * (apron.thick + apron.wide) * (long + short);
  const finish = finishOf(inputs, area + at('area_top'));
  const fasteners = 2 * fastenersAlong(inputs, long) + 2 * fastenersAlong(inputs, short);
  const own =
    at('hours_boards_base') +
    at('hours_mill_base') +
    JOINTS * at('joint_each') +
    (area / at('sand_rate')) * GRITS +
    at('hours_glue_base') +
    at('hours_fit');
  const hours = own + at('hours_top') + at('coats') * at('coat_each') + at('hours_deliver');
  const waits = at('wait_glue') + 2 * at('glue_wait') + at('coats') * at('recoat_hours');
  // Both cheeks of each tenon, 225 in² to the fluid ounce.
  const glue = (JOINTS * 2 * wide * tenon) / 225;
  const travel =
    Math.max(Math.abs(at('movement_from_build_dry')), Math.abs(at('movement_from_build_humid'))) /
    2;
  const inside = width - 2 * (overSide + at('apron_setback') + apron.thick);
  const child = (middle: number, over: number): number =>
    (at('climb_load') * (over + at('climb_out'))) / (weight * middle);
  return {
    ...finish,
    ...moneyOf(inputs, hours, planCost, {
      hardware: fasteners * at('fastener_price'),
      cans: finish.finish_cans ?? 0,
      glue: glue + at('glue_top'),
    }),
    planed_thickness: planedOf(inputs),
    knee_room: at('table_height') - at('top_thickness') - apron.wide,
    clear_long: long,
    clear_short: short,
    apron_long: long + 2 * tenon,
    apron_short: short + 2 * tenon,
    apron_inside: inside,
    leg_length: legLength,
    base_weight: base,
    table_weight: weight,
    people_carry: up(weight / at('lift_alone')),
    table_sag: sagPoint(long, load, both, apron.wide, wood.stiffness),
    sag_allowed: long / 360,
    apron_stress: stressOf((load * long) / 4, both, apron.wide),
    stress_allowed: wood.strength / 4,
    leg_slender: legLength / leg,
    tip_load_end: (weight * (length / 2 - overEnd)) / overEnd,
    tip_load_side: (weight * (width / 2 - overSide)) / overSide,
    tip_climb: Math.max(
      child(length / 2 - overEnd, overEnd),
      child(width / 2 - overSide, overSide),
    ),
    fastener_need: travel,
    fastener_need_long: (travel * inside) / width,
    fastener_need_short: (travel * (short - 2 * at('fastener_end'))) / width,
    fastener_count: fasteners,
    glue_volume: glue + at('glue_top'),
    hours_made_base: own,
    hours_total: hours,
    days_elapsed: up(hours / at('hours_a_day')) + up(waits / 24),
  };
}

describeSizes(
  'base',
  'the table base',
  (inputs, book) => baseOf(inputs, numberIn(book, 'plan_cost')),
  {
    sizes: [
      ['as it ships', {}],
      [
        'square, for a small top, in walnut',
        { top_length: '30', top_width: '30', overhang_end: '2', species: 'black walnut' },
      ],
      [
        'long, in thick oak',
        {
          top_length: '96',
          top_width: '42',
          rough_quarters: '8/4',
          apron_thickness: '1 1/2',
          leg_size: '3 1/2',
          top_weight: '240',
        },
      ],
      [
        'for glass that does not move',
        {
          movement_swing: '0',
          movement_from_build_dry: '0',
          movement_from_build_humid: '0',
          top_thickness: '1/2',
          top_weight: '110',
        },
      ],
      [
        'low, with narrow aprons of ash',
        {
          table_height: '20',
          apron_width: '2 1/4',
          species: 'white ash',
          glue_top: '3',
          area_top: '40',
          hours_top: '10',
          wait_glue: '12',
        },
      ],
    ],
    metric: { top_length: '1.8 m', top_width: '900', leg_size: '70' },
  },
);

describeBookItself('base', 'the table base', [
  ['seatknee', { apron_width: '6' }, '22 3/4 in'],
  ['moves', { movement_from_build_dry: '0.5' }, '1/2 in'],
  ['aprons', { apron_thickness: '1 1/2' }, '1 5/16 in'],
  ['legfit', { apron_thickness: '1 1/4', leg_size: '1 3/8', tenon_length: '1/2' }, '1 3/8 in'],
  ['legclear', { overhang_side: '14 1/2' }, '2 in is the least'],
  ['tenon', { leg_size: '1 3/4' }, 'mortises meet inside the leg'],
  ['groove', { groove_edge: '3 5/8' }, '3 5/8 in'],
  ['slender', { leg_size: '1 1/8', table_height: '40' }, '34.4 times'],
  ['sag', { apron_width: '2' }, '250 lb'],
  ['strong', { apron_width: '1 1/2', top_length: '168' }, '3,800 psi'],
  ['tip', { overhang_side: '9' }, 'a side'],
  ['climb', { overhang_side: '14', leg_size: '1 1/2' }, '60 lb'],
  ['places', { fastener_end: '12', overhang_side: '4' }, '12 in'],
  ['tongue', { tongue_length: '1' }, '1 in'],
  ['beside', { fastener_spacing: '4', fastener_end: '1/4' }, '1/4 in'],
  ['fasten', { movement_from_build_humid: '1' }, 'split or cup'],
  ['through', { top_screw: '1 1/4' }, '1 1/4 in'],
  ['bite', { top_screw: '1/2' }, 'longer screw'],
  ['planwhole', { table_height: '44' }, '4 of the pieces'],
]);
