import { figuresOf, plainText, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { ownWood } from '../hostile/tables/own-wood.ts';
import { bookWith, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  fastenersAlong,
  finishOf,
  moneyOf,
  panelOf,
  rateOf,
  sagPoint,
  seasonsOf,
  stressOf,
  tenonArea,
  tenonWide,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';

/** No. 8: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 8;
const GRITS = 3;

/** What a coffee table comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function tableOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [length, width, thick] = [at('top_length'), at('top_width'), at('top_thickness')];
  const [leg, tenon, apron] = [at('leg_size'), at('tenon_length'), at('apron_thickness')];
  const wood = ownWood(wordOf(inputs, 'species'));
  const radius = wordOf(inputs, 'corners') === 'rounded' ? at('corner_radius') : 0;
  // A square corner less its quarter circle, four times.
  const face = length * width - 4 * (radius ** 2 - (Math.PI * radius ** 2) / 4);
  const around = 2 * (length + width) - 8 * radius + 2 * Math.PI * radius;
  const legLength = at('table_height') - thick;
  const [overEnd, overSide] = [at('overhang_end'), at('overhang_side')];
  const long = length - 2 * (overEnd + leg);
  const short = width - 2 * (overSide + leg);
  const rail = { thick: at('rail_thickness'), wide: at('rail_width') };
  const shelf = {
    length: length - 2 * (overEnd + (leg - rail.thick) / 2),
    width: short - 2 * at('shelf_gap'),
    thick: at('shelf_thickness'),
  };
  const end = tenonArea(tenonWide(at('apron_width')), apron / 3);
  const railEnd = tenonArea(tenonWide(rail.wide), rail.thick / 3);
  const legs = 4 * leg ** 2 * legLength - (8 * end + 4 * railEnd) * (tenon + 1 / 8);
  const bars =
    2 * apron * at('apron_width') * (long + short) +
    2 * rail.thick * rail.wide * short +
    (8 * end + 4 * railEnd) * tenon;
  const top = weighed(inputs, face * thick);
  const base = weighed(inputs, legs + bars + shelf.length * shelf.width * shelf.thick);
  const weight = top + base;
  const load = at('person_load');
  const aprons = sagPoint(long, load, 2 * apron, at('apron_width'), wood.stiffness);
  const alone = sagPoint(long, load, width, thick, wood.stiffness);
  const onAprons = (load * alone) / (aprons + alone);
  const span = shelf.length - 2 * rail.thick;
  // 5 w L⁴ over 384 E I, and w L² / 8, of a load spread from end to end.
  const inertia = (shelf.width * shelf.thick ** 3) / 12;
  const sag = (5 * at('shelf_load') * span ** 3) / (384 * wood.stiffness * inertia);
  const { dry, humid } = seasonsOf(inputs);
  const moves = (moisture: number): number =>
    shelf.width * rateOf(inputs) * (moisture - at('moisture_build'));
  const out = short / 2 - at('shelf_screw_end');
  const travel = (Math.max(Math.abs(moves(dry)), Math.abs(moves(humid))) * out) / shelf.width;
  const own = panelOf(inputs, length, width);
  const other = panelOf(inputs, shelf.length, shelf.width);
  const both = (name: string): number => (own[name] ?? 0) + (other[name] ?? 0);
  const topArea = 2 * face + thick * around;
  const finish = finishOf(
    inputs,
    topArea +
      16 * leg * legLength +
      4 * (apron + at('apron_width')) * (long + short) +
      4 * (rail.thick + rail.wide) * short +
      2 * (shelf.length * shelf.width + shelf.thick * (shelf.length + shelf.width)),
  );
  const fasteners = 2 * fastenersAlong(inputs, long) + 2 * fastenersAlong(inputs, short);
  const hours =
    at('hours_boards') +
    both('panel_boards') * at('mill_each') +
    both('glue_stages') * at('glue_each') +
    ((topArea + 2 * shelf.length * shelf.width) / at('sand_rate')) * GRITS +
    at('hours_base') +
    12 * at('joint_each') +
    (radius > 0 ? 4 * at('corner_each') : 0) +
    at('hours_fit') +
    at('coats') * at('coat_each') +
    at('hours_deliver');
  const screws = 2 * at('shelf_screws_each') * at('shelf_screw_price');
  const money = moneyOf(inputs, hours, planCost, {
    hardware: fasteners * at('fastener_price') + screws,
    cans: finish.finish_cans ?? 0,
    glue: both('glue_volume'),
  });
  const child = (middle: number, over: number): number =>
    (at('climb_load') * (over + at('climb_out'))) / (weight * middle);
  return {
    ...own,
    ...finish,
    ...money,
    glue_volume: both('glue_volume'),
    clear_long: long,
    clear_short: short,
    rail_length: short + 2 * tenon,
    top_weight: top,
    table_weight: weight,
    people_needed: up(weight / at('lift_alone')),
    apron_load: onAprons,
    table_sag: 1 / (1 / aprons + 1 / alone),
    apron_stress: stressOf((onAprons * long) / 4, 2 * apron, at('apron_width')),
    top_stress: stressOf(((load - onAprons) * long) / 4, width, thick),
    end_stress: stressOf(load * (overEnd + at('apron_setback')), width, thick),
    stress_allowed: wood.strength / 4,
    tip_load_end: (weight * (length / 2 - overEnd)) / overEnd,
    tip_load_side: (weight * (width / 2 - overSide)) / overSide,
    tip_climb: Math.max(
      child(length / 2 - overEnd, overEnd),
      child(width / 2 - overSide, overSide),
    ),
    shelf_length: shelf.length,
    shelf_width: shelf.width,
    shelf_boards: other.panel_boards ?? 0,
    shelf_board_width: other.panel_board_width ?? 0,
    shelf_sag: sag,
    // 1.5 times in dry wood: NDS 3.5.2.
    shelf_sag_later: 1.5 * sag,
    shelf_stress: stressOf((at('shelf_load') * span) / 8, shelf.width, shelf.thick),
    shelf_dry: moves(dry),
    shelf_humid: moves(humid),
    shelf_gap_humid: at('shelf_gap') - Math.max(0, moves(humid)) / 2,
    shelf_slot: SCREW + 2 * travel + at('slot_spare'),
    fastener_count: fasteners,
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up((both('glue_stages') * at('glue_wait') + at('coats') * at('recoat_hours')) / 24),
  };
}

const held = (book: Workbook): void =>
  expectHeld(book, tableOf(inputsOf(book), numberIn(book, 'plan_cost')));

const TABLES: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  [
    'a square one with square corners, in walnut',
    { top_length: '30', top_width: '30', corners: 'square', species: 'black walnut' },
  ],
  [
    'a long one of thick oak, quarter-sawn',
    {
      top_length: '60',
      species: 'white oak',
      cut: 'quarter',
      rough_quarters: '8/4',
      top_thickness: '1 1/2',
      shelf_thickness: '1 1/8',
      shelf_load: '200',
    },
  ],
  ['with a narrow shelf high up', { shelf_gap: '2', shelf_up: '7', shelf_screws_each: '3' }],
  [
    'in a damp house, rift-sawn ash',
    { species: 'white ash', cut: 'rift', humid_humidity: '80', moisture_build: '10' },
  ],
];

describe('the coffee table, against the same table worked out by hand', () => {
  it.each(TABLES)('%s', (_, entries) => held(bookWith('coffee-table', entries)));

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith('coffee-table', { top_length: '1.1 m', top_width: '600' }, 'metric');
    held(book);
    expect(book.problems()).toEqual([]);
  });
});

it('counts the clamps of its shelf by the shelf: the workbook counts those of the top', () => {
  const book = bookWith('coffee-table', { top_length: '72', overhang_end: '14' });
  const plan = readPlan(book);
  const figures = figuresOf(book, plan);
  const lines = plan.steps.flatMap(({ key, title }) => {
    const [, line] = /(Clamps for one joint: [^<]*)/.exec(figures.get(key)?.svg ?? '') ?? [];
    return line === undefined ? [] : [[plainText(title), line]];
  });
  const said = (title: string): string =>
    String(lines.find(([one]) => one?.startsWith(title) === true)?.[1]);
  expect(said('Glue up the top')).toContain('where the edges close');
  // Each as far from the next as clamp_spacing lets it, 6 in: 56 in of shelf take fewer than 73 in of top.
  const [top, shelf] = ['Glue up the top', 'Glue up the shelf'].map((title) =>
    Number(/: (\d+)/.exec(said(title))?.[1]),
  );
  expect(shelf).toBeGreaterThan(2);
  expect(shelf).toBeLessThan(top ?? 0);
  expect(said('Glue up the shelf')).not.toContain('where the edges close');
});

describeBookItself('coffee-table', 'the coffee table', [
  ['sofa', { table_height: '24' }, '24 in'],
  ['square', { corners: 'square' }, 'square'],
  ['corners', { corner_radius: '1/4' }, '1/4 in'],
  ['edges', { edge_radius: '1/32' }, '1/32 in'],
  ['legsunder', { corner_radius: '9' }, '9 in'],
  ['climb', { overhang_side: '5' }, '60 lb'],
  ['shelfsag', { shelf_thickness: '1/2' }, '130 lb'],
  ['shelfgap', { shelf_gap: '1/16' }, '1/16 in'],
  ['shelffit', { shelf_up: '14' }, '14 in'],
  ['shelfslot', { shelf_screw_end: '1' }, '3 screws'],
  ['shelfscrew', { shelf_screw: '1 1/2' }, '1 1/2 in'],
]);
