import { joinBooks, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, documentOf, type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  finishOf,
  moneyOf,
  panelOf,
  rateOf,
  seasonsOf,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

const GRITS = 3;

/** What a top with breadboard ends comes to by its inputs alone, in the units of the us; the plan's cost is the workbook's. */
function topOf(inputs: Inputs, planCost: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const [length, width, thick] = [at('top_length'), at('top_width'), at('top_thickness')];
  const end = at('end_width');
  const shown = length - 2 * end;
  const tenon = wordOf(inputs, 'tenon_kind') === 'through' ? end : at('tenon_blind');
  const panel = panelOf(inputs, shown + 2 * tenon, width);
  const { dry, humid } = seasonsOf(inputs);
  const rate = rateOf(inputs);
  const peg = at('peg_diameter');
  const out = width / 2 - at('peg_in');
  const pairs = (at('tenon_count') - 1) / 2;
  // As far as the panel moves there over the year, half as long again where nothing else is said.
  const slot = (from: number): number =>
    peg + from * rate * (humid - dry) * (1 + at('peg_spare') / 100);
  const slotOf = (pair: number): number => (pair <= pairs ? slot((out * pair) / pairs) : 0);
  const between = (dry + humid) / 2;
  const area = 2 * length * width + 2 * thick * (length + width);
  const finish = finishOf(inputs, area + at('area_base'));
  // Both cheeks of the middle tenon at both ends are glued.
  const glue = (panel.glue_volume ?? 0) + (4 * at('tenon_wide') * tenon) / 225;
  const ends = 2 * (at('groove_each') + at('tenon_count') * at('tenon_each'));
  const own =
    at('hours_boards') +
    ((panel.panel_boards ?? 0) + 2) * at('mill_each') +
    (panel.glue_stages ?? 0) * at('glue_each') +
    (area / at('sand_rate')) * GRITS +
    ends;
  const hours = own + at('hours_made_base') + at('coats') * at('coat_each') + at('hours_deliver');
  return {
    ...panel,
    ...finish,
    ...moneyOf(inputs, hours, planCost, {
      hardware: at('cost_base_more'),
      cans: finish.finish_cans ?? 0,
      glue: glue + at('glue_base'),
    }),
    glue_volume: glue + at('glue_base'),
    top_weight: weighed(inputs, length * width * thick),
    panel_shown: shown,
    panel_length: shown + 2 * tenon,
    end_tongue: thick / 3,
    peg_out: out,
    peg_apart: out / pairs,
    slot_first: slotOf(1),
    slot_second: slotOf(2),
    slot_third: slotOf(3),
    slot_fourth: slotOf(4),
    slot_outer: slot(out),
    mortise_wide: at('tenon_wide') + slot(out) - peg,
    moisture_between: between,
    peg_off: out * rate * (at('moisture_build') - between),
    edge_proud: Math.max(0, width * rate * (humid - at('moisture_build'))) / 2,
    edge_back: Math.max(0, width * rate * (at('moisture_build') - dry)) / 2,
    hours_top: own,
    hours_total: hours,
    days_elapsed:
      up(hours / at('hours_a_day')) +
      up(
        ((panel.glue_stages ?? 0) * at('glue_wait') +
          at('wait_base') +
          at('coats') * at('recoat_hours')) /
          24,
      ),
  };
}

describeSizes(
  'breadboard',
  'the breadboard top',
  (inputs, book) => topOf(inputs, numberIn(book, 'plan_cost')),
  {
    sizes: [
      ['as it ships', {}],
      ['with through tenons, in walnut', { tenon_kind: 'through', species: 'black walnut' }],
      [
        'wide, with seven tenons, quarter-sawn',
        { top_width: '48', tenon_count: '7', cut: 'quarter', top_length: '96' },
      ],
      [
        'small, of rift-sawn ash, with three tenons',
        {
          top_length: '36',
          top_width: '20',
          tenon_count: '3',
          end_width: '3',
          tenon_blind: '1 3/4',
          species: 'white ash',
          cut: 'rift',
        },
      ],
      [
        'thick cherry in a damp house',
        {
          species: 'black cherry',
          rough_quarters: '8/4',
          top_thickness: '1 3/4',
          humid_humidity: '80',
          moisture_build: '10',
          peg_spare: '30',
        },
      ],
    ],
    metric: { top_length: '1.8 m', top_width: '900', end_width: '110' },
  },
);

describe('a breadboard top on a base', () => {
  it('gives it its size, its weight and its movement', () => {
    const joined = joinBooks(documentOf('breadboard'), documentOf('base'));
    if (!joined.ok) throw new Error(joined.says);
    const book = Workbook.open(joined.document);
    expect(book.problems()).toEqual([]);
    expect(book.checks().filter(({ state }) => state !== 'pass')).toEqual([]);
    const alone = bookWith('breadboard', {});
    const weight = numberIn(alone, 'top_weight') + numberIn(book, 'base_weight');
    expect(numberIn(book, 'table_weight')).toBeCloseTo(weight, 9);
    const travel = Math.max(
      Math.abs(numberIn(alone, 'movement_from_build_dry')),
      Math.abs(numberIn(alone, 'movement_from_build_humid')),
    );
    expect(numberIn(book, 'fastener_need')).toBeCloseTo(travel / 2, 9);
  });
});

describeBookItself('breadboard', 'the breadboard top', [
  ['lift', { people_lifting: '1' }, 'it takes 2 people'],
  ['season', { moisture_build: '14' }, '14 %'],
  ['planed', { top_thickness: '1 1/2' }, '1 5/16 in'],
  ['jointer', { end_width: '7' }, 'an end 7 in'],
  ['shown', { top_length: '24', end_width: '7', jointer_width: '8' }, '10 in of the panel'],
  ['odd', { tenon_count: '4' }, '4 tenons'],
  ['tongue', { tenon_blind: '3 3/4' }, '3 3/4 in long'],
  ['spread', { tenon_count: '9' }, '3 1/2 in apart'],
  ['spread', { peg_in: '20' }, '20.000 in from the edge'],
  ['slots', { tenon_wide: '1 1/2' }, '3/8 in at each side'],
  ['pegs', { peg_line: '1/2' }, '1/2 in from the shoulder'],
  ['proud', { humid_humidity: '80' }, 'catches sleeves'],
  ['order', { dry_humidity: '70' }, 'swapped'],
  ['planwhole', { top_length: '168' }, 'fit no board'],
]);
