import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { ownWood } from '../hostile/tables/own-wood.ts';
import { bookWith, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  down,
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

/** No. 8: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 8;
const GRITS = 3;

/**
 * Sway of two posts and a stretcher under a push at the top, found by virtual work: moments of the push and of a
 * unit push, multiplied and added up along the bars in small steps. Feet and top turn freely.
 */
function swayOf(
  push: number,
  height: number,
  joint: number,
  span: number,
  stiffness: { readonly post: number; readonly stretcher: number },
): number {
  const STEPS = 20_000;
  // Half of the push at each foot and at each end of the top: the post bends in one line up to the joint, and back.
  const each = (along: number): number => (along < joint ? along : along - height) / 2;
  const share = (from: number, to: number, moment: (at: number) => number, ei: number): number => {
    const step = (to - from) / STEPS;
    let sum = 0;
    for (let i = 0; i < STEPS; i += 1) sum += moment(from + (i + 0.5) * step) ** 2 * step;
    return sum / ei;
  };
  // What a post gives off at the joint: M below less M above, half of the height times the push, at both ends of the stretcher.
  const across = (at: number): number => (height / 2) * (1 - (2 * at) / span);
  const posts = share(0, joint, each, stiffness.post) + share(joint, height, each, stiffness.post);
  return push * (2 * posts + share(0, span, across, stiffness.stretcher));
}

/** What a trestle table comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function tableOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [length, width, thick] = [at('top_length'), at('top_width'), at('top_thickness')];
  const wood = ownWood(wordOf(inputs, 'species'));
  const under = at('table_height') - thick;
  const post = { thick: at('post_thickness'), wide: at('post_width') };
  const bar = { thick: at('stretcher_thickness'), wide: at('stretcher_width') };
  const [deep, foot, head] = [at('foot_thickness'), at('foot_length'), at('head_length')];
  const over = at('overhang_end');
  const endKnee = over + (deep - post.thick) / 2;
  const postClear = under - at('head_height') - at('foot_height');
  const barClear = length - 2 * (endKnee + post.thick);
  const postEnd = tenonArea(tenonWide(post.wide), post.thick / 3);
  const barEnd = tenonArea(tenonWide(bar.wide), bar.thick / 3);
  const tenon = at('tenon_length');
  const rails =
    2 * deep * (foot * at('foot_height') + head * at('head_height')) -
    4 * postEnd * (tenon + 1 / 8);
  const posts =
    2 * (post.thick * post.wide * postClear + 2 * postEnd * tenon - barEnd * post.thick);
  const stretcher = bar.thick * bar.wide * barClear + 2 * barEnd * post.thick;
  const top = weighed(inputs, length * width * thick);
  const weight = top + weighed(inputs, rails + posts + stretcher);
  const span = length - 2 * (over + deep);
  const load = at('lean_load');
  const [strip, endStrip] = [Math.min(width, span), Math.min(width, over)];
  const push = at('rack_push');
  const panel = panelOf(inputs, length, width);
  const layerFace =
    2 * (foot * at('foot_height') + head * at('head_height') + (postClear + 2 * tenon) * post.wide);
  // As in the panel: 225 in² to the ounce.
  const glue = (panel.glue_volume ?? 0) + ((at('layers') - 1) * layerFace) / 225;
  const topArea = 2 * length * width + 2 * thick * (length + width);
  const finish = finishOf(
    inputs,
    topArea +
      4 * (deep + at('foot_height')) * foot +
      4 * (deep + at('head_height')) * head +
      4 * deep * (at('foot_height') + at('head_height')) +
      4 * (post.thick + post.wide) * postClear +
      2 * (bar.thick + bar.wide) * barClear,
  );
  const out = head / 2 - at('head_screw_end');
  const screws = 1 + 2 * up(out / at('head_screw_spacing'));
  const moves = (name: string): number => Math.abs(panel[name] ?? 0);
  const travel =
    (Math.max(moves('movement_from_build_dry'), moves('movement_from_build_humid')) * out) / width;
  const hours =
    at('hours_boards') +
    (panel.panel_boards ?? 0) * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (topArea / at('sand_rate')) * GRITS +
    at('hours_base') +
    6 * at('joint_each') +
    at('hours_fit') +
    at('coats') * at('coat_each') +
    at('hours_deliver');
  const money = moneyOf(inputs, hours, planCost, {
    hardware: 2 * screws * at('fastener_price'),
    cans: finish.finish_cans ?? 0,
    glue,
  });
  const seats =
    2 * down(length / at('per_seat')) +
    (wordOf(inputs, 'end_seats') === 'yes' ? 2 * Math.min(1, down(width / at('per_seat'))) : 0);
  const child = (middle: number, edge: number): number =>
    (at('climb_load') * (edge + at('climb_out'))) / (weight * middle);
  return {
    ...panel,
    ...finish,
    ...money,
    glue_volume: glue,
    side_knee: (width - bar.thick) / 2,
    seats,
    price_per_seat: (money.price ?? 0) / Math.max(1, seats),
    knee_room: under,
    end_knee: endKnee,
    post_length: postClear + 2 * tenon,
    stretcher_length: barClear + 2 * post.thick,
    top_weight: top,
    table_weight: weight,
    people_needed: up(top / at('lift_alone')),
    top_sag: sagPoint(span, load, strip, thick, wood.stiffness),
    // P L³ over 3 E I of a bar clamped at one end.
    top_end_sag: (load * over ** 3) / (3 * wood.stiffness * ((endStrip * thick ** 3) / 12)),
    top_stress: Math.max(
      stressOf((load * span) / 4, strip, thick),
      stressOf(load * over, endStrip, thick),
    ),
    stress_allowed: wood.strength / 4,
    rack_stress: stressOf((push * under) / 2, bar.thick / 3, tenonWide(bar.wide)),
    post_stress: stressOf(
      (push / 2) * (at('table_height') - at('foot_height')),
      post.thick / 3,
      tenonWide(post.wide),
    ),
    tip_load_end: (weight * (length / 2 - over)) / over,
    tip_load_side: (weight * foot) / 2 / ((width - foot) / 2),
    tip_climb: Math.max(child(length / 2 - over, over), child(foot / 2, (width - foot) / 2)),
    head_screws: screws,
    fastener_count: 2 * screws,
    screw_travel: travel,
    head_slot: SCREW + 2 * travel + at('slot_spare'),
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up(((panel.glue_stages ?? 0) * at('glue_wait') + at('coats') * at('recoat_hours')) / 24),
  };
}

const held = (book: Workbook): void =>
  expectHeld(book, tableOf(inputsOf(book), numberIn(book, 'plan_cost')));

const TABLES: readonly [string, Readonly<Record<string, string>>][] = [
  ['as it ships', {}],
  [
    'a small one in walnut, nobody at its ends',
    {
      top_length: '60',
      top_width: '32',
      foot_length: '26',
      head_length: '28',
      species: 'black walnut',
      end_seats: 'no',
      overhang_end: '9',
    },
  ],
  [
    'ten feet, of thick boards, quarter-sawn',
    {
      top_length: "10'",
      rough_quarters: '10/4',
      top_thickness: '2',
      cut: 'quarter',
      stretcher_width: '6',
      overhang_end: '18',
    },
  ],
  [
    'with broad posts and thick feet, in ash',
    { species: 'white ash', post_width: '9', foot_thickness: '3 1/2', layers: '3' },
  ],
  [
    'in a damp house, rift-sawn cherry',
    { species: 'black cherry', cut: 'rift', humid_humidity: '78', head_screw_spacing: '6' },
  ],
];

describe('the trestle table, against the same table worked out by hand', () => {
  it.each(TABLES)('%s', (_, entries) => held(bookWith('trestle-table', entries)));

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith('trestle-table', { top_length: '2.2 m', top_width: '950' }, 'metric');
    held(book);
    expect(book.problems()).toEqual([]);
  });

  it.each([
    {},
    { stretcher_up: '5', stretcher_width: '3', post_thickness: '1 3/4' },
    { top_length: '120', stretcher_up: '14', table_height: '34' },
  ])('sways as far as virtual work says: %o', (entries) => {
    const book = bookWith('trestle-table', entries);
    const inputs = inputsOf(book);
    const at = (name: string): number => numberOf(inputs, name);
    const { stiffness } = ownWood(wordOf(inputs, 'species'));
    const inertia = (thick: number, deep: number): number => (thick * deep ** 3) / 12;
    const sway = swayOf(
      at('rack_push'),
      at('table_height') - at('top_thickness'),
      at('stretcher_up') + at('stretcher_width') / 2,
      numberIn(book, 'stretcher_clear'),
      {
        post: stiffness * inertia(at('post_width'), at('post_thickness')),
        stretcher: stiffness * inertia(at('stretcher_thickness'), at('stretcher_width')),
      },
    );
    expect(Math.abs(numberIn(book, 'rack_sway') - sway)).toBeLessThan(1e-5 * sway);
  });
});

describeBookItself('trestle-table', 'the trestle table', [
  ['sideknee', { top_width: '22', foot_length: '20', head_length: '20' }, '10 1/4 in'],
  ['endknee', { overhang_end: '10' }, '10 1/4 in'],
  ['layered', { layers: '1' }, '3 in'],
  ['under', { foot_length: '44' }, '44 in'],
  ['tenon', { tenon_length: '2 1/2' }, '2 1/2 in'],
  ['stretch', { stretcher_up: '24' }, '24 in'],
  ['rack', { stretcher_width: '2', rack_push: '200' }, '200 lb'],
  ['sway', { post_thickness: '1', rack_push: '120' }, '120 lb'],
  ['tip', { overhang_end: '24' }, 'an end'],
  ['slots', { head_screw_end: '12', head_length: '25' }, '25 in'],
  ['through', { top_screw: '2 1/2' }, '2 1/2 in'],
]);
