import { type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  down,
  finishOf,
  moneyOf,
  panelOf,
  planedOf,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

/** No. 8: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 8;
const GRITS = 3;

/** Around an ellipse: Gauss and Kummer's series, whose terms here are past the tenth of no account. */
function around(length: number, width: number): number {
  const h = ((length - width) / (length + width)) ** 2;
  let sum = 1;
  let factor = 1;
  for (let n = 1; n <= 40; n += 1) {
    factor *= (1 / 2 - n + 1) / n;
    sum += factor ** 2 * h ** n;
  }
  return (Math.PI / 2) * (length + width) * sum;
}

/** One face and the way around it. */
function outlineOf(inputs: Inputs): { readonly face: number; readonly edge: number } {
  const [length, width] = [numberOf(inputs, 'top_length'), numberOf(inputs, 'top_width')];
  const shape = wordOf(inputs, 'top_shape');
  if (shape === 'round' || shape === 'oval') {
    return { face: (Math.PI / 4) * length * width, edge: around(length, width) };
  }
  const radius = shape === 'rounded corners' ? numberOf(inputs, 'corner_radius') : 0;
  // A square corner less its quarter circle, four times.
  return {
    face: length * width - 4 * (radius ** 2 - (Math.PI * radius ** 2) / 4),
    edge: 2 * (length + width) - 8 * radius + 2 * Math.PI * radius,
  };
}

/** Up to the next sixteenth. */
const sixteenths = (length: number): number => up(length * 16) / 16;

/** What a top comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function topOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [length, width, thick] = [at('top_length'), at('top_width'), at('top_thickness')];
  const { face, edge } = outlineOf(inputs);
  const panel = panelOf(inputs, length, width);
  const [dry = 0, humid = 0] = [panel.movement_from_build_dry, panel.movement_from_build_humid];
  const travel = Math.max(Math.abs(dry), Math.abs(humid)) / 2;
  const fastened = (travel * at('fastened_across')) / width;
  const area = 2 * face + thick * edge;
  const finish = finishOf(inputs, area + at('area_base'));
  const isSquare = wordOf(inputs, 'edge_profile') === 'square';
  const isCut = wordOf(inputs, 'top_shape') !== 'rectangular';
  const sides = wordOf(inputs, 'edge_where') === 'both edges' ? 2 : 1;
  const own =
    at('hours_boards') +
    (panel.panel_boards ?? 0) * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (area / at('sand_rate')) * GRITS +
    at('trim_each') +
    (isCut ? at('outline_each') : 0) +
    (isSquare ? 0 : at('edge_each'));
  const hours = own + at('hours_made_base') + at('coats') * at('coat_each') + at('hours_deliver');
  const waits =
    (panel.glue_stages ?? 0) * at('glue_wait') + at('wait_base') + at('coats') * at('recoat_hours');
  const money = moneyOf(inputs, hours, planCost, {
    hardware: at('cost_base_more'),
    cans: finish.finish_cans ?? 0,
    glue: (panel.glue_volume ?? 0) + at('glue_base'),
  });
  const shape = wordOf(inputs, 'top_shape');
  const corners = shape === 'rounded corners' ? (8 - 2 * Math.PI) * at('corner_radius') : 0;
  // A quarter of what rounding takes off the way around is missing from each side.
  const places = (side: number): number => down((side - corners / 4) / at('per_seat'));
  const seats =
    shape === 'round' || shape === 'oval'
      ? down(edge / at('per_seat'))
      : 2 * places(length) + 2 * Math.min(1, places(width));
  return {
    ...panel,
    ...finish,
    ...money,
    glue_volume: (panel.glue_volume ?? 0) + at('glue_base'),
    top_face: face,
    top_around: edge,
    area_top: area,
    seats,
    price_per_seat: (money.price ?? 0) / Math.max(1, seats),
    outline_waste: 100 * (1 - face / (length * width)),
    // The foci of an ellipse.
    oval_pins: shape === 'oval' ? Math.sqrt(Math.abs(length ** 2 - width ** 2)) : 0,
    edge_left: thick - (isSquare ? 0 : sides * at('edge_size')),
    top_weight: weighed(inputs, face * thick),
    people_needed: up(weighed(inputs, face * thick) / at('lift_alone')),
    top_travel: travel,
    fastened_travel: fastened,
    // A 64th of an inch to spare, up to the next sixteenth.
    top_gap: sixteenths(fastened + 1 / 64),
    top_slot: SCREW + 2 * fastened + at('top_slot_spare'),
    top_bite_most: Math.max(0, thick - at('keep_back')),
    planed_thickness: planedOf(inputs),
    hours_top: own,
    hours_total: hours,
    days_elapsed: up(hours / at('hours_a_day')) + up(waits / 24),
  };
}

describeSizes(
  'top',
  'the table top',
  (inputs, book) => topOf(inputs, numberIn(book, 'plan_cost')),
  {
    sizes: [
      ['as it ships', {}],
      [
        'round, in walnut',
        { top_length: '48', top_width: '48', top_shape: 'round', species: 'black walnut' },
      ],
      [
        'a long oval of thick cherry, quarter-sawn',
        {
          top_length: '96',
          top_width: '44',
          top_shape: 'oval',
          species: 'black cherry',
          cut: 'quarter',
          rough_quarters: '8/4',
          top_thickness: '1 3/4',
        },
      ],
      [
        'with rounded corners and no edge, in a damp house',
        {
          top_shape: 'rounded corners',
          corner_radius: '4',
          edge_profile: 'square',
          humid_humidity: '80',
          moisture_build: '10',
        },
      ],
      [
        'a small one of rift-sawn ash with chamfers, and a base made beside it',
        {
          top_length: '30',
          top_width: '20',
          fastened_across: '15',
          species: 'white ash',
          cut: 'rift',
          edge_profile: 'chamfer',
          edge_where: 'both edges',
          hours_made_base: '9',
          area_base: '12',
          glue_base: '1',
          cost_base_more: '40',
          wait_base: '8',
        },
      ],
    ],
    metric: { top_length: '1.8 m', top_width: '900', top_shape: 'oval' },
  },
);

describeBookItself('top', 'the table top', [
  ['seated', { per_seat: '48', top_length: '40', top_width: '40' }, '48 in'],
  ['lift', { people_lifting: '1' }, 'it takes 2 people'],
  ['season', { moisture_build: '14' }, '14 %'],
  ['planed', { top_thickness: '1 1/2' }, '1 5/16 in'],
  ['jointer', { jointer_width: '4' }, '4 in'],
  ['roundtop', { top_shape: 'round' }, '72 in by 36 in'],
  ['cornerfit', { top_shape: 'rounded corners', corner_radius: '20' }, '20 in'],
  ['edgefit', { edge_where: 'both edges', edge_size: '3/4' }, 'leaves -1/4 in'],
  ['trimmed', { trim_length: '1/4' }, '1/4 in'],
  ['order', { dry_humidity: '70' }, 'swapped'],
  ['across', { fastened_across: '40' }, '40 in apart'],
  ['gapsize', { humid_humidity: '90' }, 'closer to the center line'],
  ['screwroom', { top_thickness: '1/2' }, 'no. 8'],
  ['grits', { grit_last: '60' }, '60'],
  ['planwhole', { top_length: '168' }, '7 of the pieces'],
  ['quote', { quoted_price: '900' }, '$900.00'],
]);
