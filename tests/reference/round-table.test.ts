import { ownWood } from '../hostile/tables/own-wood.ts';
import { type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  down,
  finishOf,
  moneyOf,
  panelOf,
  stressOf,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

/** No. 10: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 10;
const GRITS = 3;

/** How long a chord is, so far from the middle of a circle. */
const chord = (across: number, away: number): number => Math.sqrt(across ** 2 - (2 * away) ** 2);

/** What boards as long as each has to be waste around a circle: each reaches as far as its side that is nearer the middle. */
function staggeredWaste(boards: number): number {
  const sides = Array.from({ length: boards }, (_, i) => {
    const [near, far] = [i / boards - 1 / 2, (i + 1) / boards - 1 / 2];
    if (near < 0 && far > 0) return 0;
    return Math.min(Math.abs(near), Math.abs(far));
  });
  const wood = sides.reduce((sum, away) => sum + chord(1, away) / boards, 0);
  return 1 - Math.PI / 4 / wood;
}

/** Least load straight down at the rim, any way around, that tips it over two feet that stand next to each other. */
function tipsAt(weight: number, reach: number, half: number, radius: number): number {
  // The ends of two bars that cross: their outer corners on the floor.
  const [ax, ay, bx, by] = [reach, half, half, reach];
  const [nx, ny] = [ay - by, bx - ax];
  const size = Math.hypot(nx, ny);
  const line = Math.abs((ax * nx + ay * ny) / size);
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= 9000; step += 1) {
    const angle = ((step / 9000) * Math.PI) / 2;
    const out =
      radius * (Math.cos(angle) * (Math.abs(nx) / size) + Math.sin(angle) * (Math.abs(ny) / size)) -
      line;
    if (out > 0) least = Math.min(least, (weight * line) / out);
  }
  return least;
}

/** What a round table comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function tableOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const wood = ownWood(wordOf(inputs, 'species'));
  const [across, thick] = [at('top_diameter'), at('top_thickness')];
  const radius = across / 2;
  const face = Math.PI * radius ** 2;
  const around = Math.PI * across;
  const foot = { long: at('foot_length'), wide: at('foot_width'), high: at('foot_height') };
  const bearer = { long: at('bearer_length'), wide: at('bearer_width'), high: at('bearer_height') };
  const column = at('column_size');
  const tall = at('table_height') - thick - bearer.high - foot.high;
  // Two bars that cross share the room of the crossing.
  const cross = ({ long, wide, high }: typeof foot): number => (2 * long - wide) * wide * high;
  const top = weighed(inputs, face * thick);
  const base = weighed(inputs, column ** 2 * tall + cross(foot) + cross(bearer));
  const weight = top + base;
  const lean = at('lean_load');
  const panel = panelOf(inputs, across, across);
  const boards = panel.panel_boards ?? 0;
  const [dry = 0, humid = 0] = [panel.movement_from_build_dry, panel.movement_from_build_humid];
  const travel = (Math.max(Math.abs(dry), Math.abs(humid)) * at('screw_out')) / across;
  const areaTop = 2 * face + thick * around;
  const bars = ({ long, wide, high }: typeof foot): number => 4 * long * (wide + high);
  const finish = finishOf(inputs, areaTop + 4 * column * tall + bars(foot) + bars(bearer));
  const laps = ({ wide, high }: typeof foot): number => 3 * wide ** 2 + 2 * wide * high;
  const glue = (panel.glue_volume ?? 0) + (laps(foot) + laps(bearer)) / 225;
  const screws = at('screws_across') + at('screws_along');
  const hours =
    at('hours_boards') +
    boards * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (areaTop / at('sand_rate')) * GRITS +
    at('hours_base') +
    at('outline_each') +
    2 * at('lap_each') +
    at('hours_fit') +
    at('coats') * at('coat_each') +
    at('hours_deliver');
  const money = moneyOf(inputs, hours, planCost, {
    hardware: screws * at('fastener_price') + at('rod_price'),
    cans: finish.finish_cans ?? 0,
    glue,
  });
  const seats = down(around / at('per_seat'));
  const tipHalf = (foot.long + foot.wide) / 2 / Math.SQRT2;
  const childOut = radius - tipHalf + at('climb_out');
  return {
    ...panel,
    ...finish,
    ...money,
    glue_volume: glue,
    top_face: face,
    top_around: around,
    seats,
    price_per_seat: (money.price ?? 0) / Math.max(1, seats),
    knee_room: at('table_height') - thick - bearer.high,
    top_weight: top,
    table_weight: weight,
    people_needed: up(weight / at('lift_alone')),
    shortest_board: chord(across, radius - across / boards) + at('trim_length'),
    square_waste: 100 * (1 - Math.PI / 4),
    stagger_waste: 100 * staggeredWaste(boards),
    column_length: tall,
    // From the floor to the underside of the top.
    rod_length: at('table_height') - thick,
    tip_half: tipHalf,
    tip_load: tipsAt(weight, foot.long / 2, foot.wide / 2, radius),
    tip_climb: (at('climb_load') * childOut) / (weight * tipHalf),
    column_stress: stressOf(lean * radius, column, column),
    foot_stress: stressOf(
      ((lean + weight) * (foot.long - foot.wide)) / 2,
      foot.wide,
      foot.high / 2,
    ),
    bearer_stress: stressOf((lean * (bearer.long - bearer.wide)) / 2, bearer.wide, bearer.high / 2),
    stress_allowed: wood.strength / 4,
    // A column under a moment turns by M L / E I, and the rim goes down by that times its way out.
    rim_drop: (lean * radius * tall * radius) / ((wood.stiffness * column ** 4) / 12),
    slot_length: SCREW + 2 * travel + at('slot_spare'),
    screw_travel: travel,
    screw_bite: at('top_screw') - at('slot_under'),
    fastener_count: screws,
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up(((panel.glue_stages ?? 0) * at('glue_wait') + at('coats') * at('recoat_hours')) / 24),
  };
}

describeSizes(
  'round-table',
  'the round table',
  (inputs, book) => tableOf(inputs, numberIn(book, 'plan_cost')),
  {
    sizes: [
      ['as it ships', {}],
      [
        'small, of walnut',
        {
          top_diameter: '30',
          foot_length: '26',
          bearer_length: '22',
          screw_out: '8',
          species: 'black walnut',
        },
      ],
      [
        'large, of thick quarter-sawn oak',
        {
          top_diameter: '66',
          foot_length: '54',
          bearer_length: '48',
          rough_quarters: '8/4',
          top_thickness: '1 3/4',
          cut: 'quarter',
        },
      ],
      [
        'low, on a thin column of rift-sawn ash',
        { table_height: '20', column_size: '3', species: 'white ash', cut: 'rift' },
      ],
      [
        'of cherry in a damp house, with wide boards',
        {
          species: 'black cherry',
          humid_humidity: '80',
          moisture_build: '10',
          widest_board: '9',
          jointer_width: '12',
        },
      ],
    ],
    metric: { top_diameter: '1.1 m', foot_length: '900' },
  },
);

describeBookItself('round-table', 'the round table', [
  ['seatknee', { table_height: '26' }, '22 1/4 in'],
  ['seated', { per_seat: '30' }, '5 can sit'],
  ['planed', { top_thickness: '1 1/2' }, '1 5/16 in'],
  ['rim', { edge_radius: '3/4' }, '3/4 in'],
  ['column', { table_height: '14', foot_height: '7' }, '4 in is the least'],
  ['stands', { column_size: '2' }, 'on a column of 2 in'],
  ['bearers', { bearer_length: '47' }, '47 in long'],
  ['toes', { foot_length: '47' }, 'toes and chairs'],
  ['tip', { foot_length: '28' }, 'leaning there puts 90 lb'],
  ['climb', { foot_length: '24', top_diameter: '60' }, '60 lb'],
  ['strong', { bearer_height: '1 3/4' }, '3,800 psi'],
  ['wobble', { column_size: '2 1/2' }, 'the column bends'],
  ['screwin', { screw_out: '16' }, '16 in'],
  ['screwroom', { screws_across: '12', screw_out: '7' }, '12 screws in the bearer across'],
  ['slotwall', { slot_under: '2 3/8' }, '3/8 in of wood'],
  ['through', { top_screw: '2 1/4' }, '2 1/4 in'],
  ['bite', { top_screw: '1 1/4' }, '1/4 in'],
  ['planwhole', { table_height: '44' }, 'fit no board'],
]);
