import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { ownWood } from '../hostile/tables/own-wood.ts';
import { bookWith, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  down,
  fastenersAlong,
  finishOf,
  moneyOf,
  panelOf,
  sagPoint,
  stressOf,
  tenonArea,
  tenonWide,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';

/** What a bench comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function benchOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [length, width, thick] = [at('seat_length'), at('seat_width'), at('seat_thickness')];
  const [leg, tenon, apron] = [at('leg_size'), at('tenon_length'), at('apron_thickness')];
  const wood = ownWood(wordOf(inputs, 'species'));
  const isBraced = wordOf(inputs, 'stretchers') !== 'none';
  const legLength = at('seat_height') - thick;
  const long = length - 2 * (at('overhang_end') + leg);
  const short = width - 2 * (at('overhang_side') + leg);
  const bar = { thick: at('stretcher_thickness'), wide: at('stretcher_width') };
  const longBar = length - 2 * (at('overhang_end') + (leg - bar.thick) / 2);
  const end = tenonArea(tenonWide(at('apron_width')), apron / 3);
  const barEnd = tenonArea(tenonWide(bar.wide), bar.thick / 3);
  // Between the shoulders as it is, then a tenon at each end.
  const rail = (clear: number, section: number, area: number, reach: number): number =>
    clear * section + 2 * area * reach;
  const apronSection = apron * at('apron_width');
  const barSection = bar.thick * bar.wide;
  const mortise = tenon + 1 / 8;
  const base =
    4 * leg ** 2 * legLength -
    8 * end * mortise +
    2 * rail(long, apronSection, end, tenon) +
    2 * rail(short, apronSection, end, tenon) +
    (isBraced
      ? 2 * (rail(short, barSection, barEnd, tenon) - barEnd * bar.thick) -
        4 * barEnd * mortise +
        rail(longBar - 2 * bar.thick, barSection, barEnd, bar.thick)
      : 0);
  const seat = weighed(inputs, length * width * thick);
  const weight = seat + weighed(inputs, base);
  const load = at('people_counted') * at('person_load');
  const aprons = sagPoint(long, load, 2 * apron, at('apron_width'), wood.stiffness);
  const alone = sagPoint(long, load, width, thick, wood.stiffness);
  const onAprons = (load * alone) / (aprons + alone);
  const [overEnd, overSide] = [at('overhang_end'), at('overhang_side')];
  const panel = panelOf(inputs, length, width);
  const areas =
    2 * length * width +
    2 * thick * (length + width) +
    16 * leg * legLength +
    4 * (apron + at('apron_width')) * (long + short) +
    (isBraced ? 2 * (bar.thick + bar.wide) * (2 * short + longBar) : 0);
  const finish = finishOf(inputs, areas);
  const fasteners = 2 * fastenersAlong(inputs, long) + 2 * fastenersAlong(inputs, short);
  const joints = isBraced ? 14 : 8;
  const GRITS = 3;
  const area = 2 * length * width + 2 * thick * (length + width);
  const hours =
    at('hours_boards') +
    (panel.panel_boards ?? 0) * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (area / at('sand_rate')) * GRITS +
    at('hours_base') +
    joints * at('joint_each') +
    at('hours_fit') +
    at('coats') * at('coat_each') +
    at('hours_deliver');
  const money = moneyOf(inputs, hours, planCost, {
    hardware: fasteners * at('fastener_price'),
    cans: finish.finish_cans ?? 0,
    glue: panel.glue_volume ?? 0,
  });
  const seats = down(length / at('per_seat'));
  return {
    ...panel,
    ...finish,
    ...money,
    seats,
    clear_long: long,
    clear_short: short,
    apron_long: long + 2 * tenon,
    apron_short: short + 2 * tenon,
    stretcher_long: longBar,
    stretcher_end: short + 2 * tenon,
    base_volume: base,
    seat_weight: seat,
    bench_weight: weight,
    people_needed: up(weight / at('lift_alone')),
    apron_load: onAprons,
    // Two springs side by side share one load.
    bench_sag: 1 / (1 / aprons + 1 / alone),
    apron_stress: stressOf((onAprons * long) / 4, 2 * apron, at('apron_width')),
    seat_stress: stressOf(((load - onAprons) * long) / 4, width, thick),
    end_stress: stressOf(at('person_load') * (overEnd + at('apron_setback')), width, thick),
    stress_allowed: wood.strength / 4,
    // About the near feet: weight times the way to the middle, over the way to the edge.
    tip_load_end: (weight * (length / 2 - overEnd)) / overEnd,
    tip_load_side: (weight * (width / 2 - overSide)) / overSide,
    fastener_count: fasteners,
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up(((panel.glue_stages ?? 0) * at('glue_wait') + at('coats') * at('recoat_hours')) / 24),
    price_per_seat: (money.price ?? 0) / Math.max(1, seats),
  };
}

const held = (book: Workbook): void =>
  expectHeld(book, benchOf(inputsOf(book), numberIn(book, 'plan_cost')));

const BENCHES: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  [
    'a short one without stretchers, in cherry',
    { seat_length: '30', stretchers: 'none', species: 'black cherry' },
  ],
  [
    'six feet, in walnut, thick',
    {
      seat_length: "6'",
      species: 'black walnut',
      rough_quarters: '8/4',
      seat_thickness: '1 5/8',
      apron_width: '4 1/2',
    },
  ],
  [
    'quarter-sawn and wide',
    { seat_width: '18', cut: 'quarter', species: 'sugar maple', widest_board: '4', at_once: '3' },
  ],
  [
    'for children, rift-sawn ash',
    {
      seat_height: '13',
      table_height: '22',
      cut: 'rift',
      species: 'white ash',
      moisture_build: '9',
      stretcher_up: '2 1/2',
      hourly_rate: '61.5',
    },
  ],
];

describe('the bench, against the same bench worked out by hand', () => {
  it.each(BENCHES)('%s', (_, entries) => held(bookWith('bench', entries)));

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith('bench', { seat_length: '1.4 m', seat_width: '380' }, 'metric');
    held(book);
    expect(book.problems()).toEqual([]);
  });
});

describeBookItself('bench', 'the bench', [
  ['sitting', { seat_height: '24' }, '24 in'],
  ['totable', { table_height: '36' }, '36 in'],
  ['tenon', { leg_size: '1 1/2' }, '1 in'],
  ['stretch', { stretcher_up: '13' }, '1 in below the aprons'],
  ['sag', { seat_length: '84' }, '500 lb'],
  ['strong', { seat_length: '118', apron_width: '1 1/2', seat_thickness: '3/4' }, '3,800 psi'],
  ['tip', { overhang_end: '8' }, 'an end'],
  ['tongue', { tongue_length: '1 1/2' }, '1 1/2 in'],
  ['grits', { grit_last: '60' }, '60'],
  // Found by the sweep of books, seeds 20261128 and 5: all of it was in error, and nothing said stop.
  ['grits', { grit_last: '59' }, '59'],
  ['legclear', { overhang_side: '11 1/8' }, '-12 3/4 in'],
]);
