import { describe, expect, it } from 'vitest';
import { bookWith, type Inputs, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import { emc } from './dining-table-by-hand.ts';
import { rateOf, seasonsOf, weighed, wordOf } from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

/** No. 8: 0.060 in and 0.013 in for each gauge (ASME B18.6.1). */
const SCREW = 0.06 + 0.013 * 8;

/** What a panel moves by its inputs alone, in the units of the us, where its seasons are typed. */
function panelOf(inputs: Inputs): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const width = at('panel_width');
  const isMetered = wordOf(inputs, 'moisture_known') === 'moisture meter';
  const now = isMetered ? at('moisture_metered') : emc(at('air_temperature'), at('air_humidity'));
  const { dry, humid } = seasonsOf(inputs);
  const edges = wordOf(inputs, 'panel_held') === 'in the middle' ? 2 : 1;
  const rate = rateOf(inputs);
  // Wood Handbook, equation 13-2: width times coefficient times the change of moisture.
  const [shrinks, swells] = [width * rate * (dry - now), width * rate * (humid - now)];
  const gap = at('gap_least') + Math.max(0, swells) / edges;
  // Wood that was drier than the dry season swells up to it too: the gap is widest on the day.
  const dryGap = gap - shrinks / edges;
  const share = at('screw_from_fixed') / width;
  const travel = Math.max(Math.abs(shrinks), Math.abs(swells)) * share;
  return {
    moisture_build: now,
    moisture_dry: dry,
    moisture_humid: humid,
    movement_swing: width * rate * (humid - dry),
    movement_each_side: (width * rate * (humid - dry)) / edges,
    movement_from_build_dry: shrinks,
    movement_from_build_humid: swells,
    panel_weight: weighed(
      { ...inputs, moisture_build: now },
      width * at('panel_thickness') * at('panel_length'),
    ),
    gap_now: gap,
    gap_dry: dryGap,
    cover_left: at('cover_depth') - Math.max(gap, dryGap),
    // Both edges go in to the bottom, less the gap at each that moves.
    panel_cut: at('panel_opening') + 2 * at('cover_depth') - edges * gap,
    screw_travel: travel,
    slot_length: SCREW + 2 * travel + at('slot_spare'),
    slot_least: SCREW + width * rate * (humid - dry) * share + at('slot_spare'),
  };
}

describeSizes('movement', 'a panel', panelOf, {
  sizes: [
    ['as it ships', {}],
    [
      'a wide one of walnut, held at one edge',
      { panel_width: '40', panel_held: 'at one edge', species: 'black walnut' },
    ],
    [
      'quarter-sawn oak, by the air it lay in',
      { species: 'white oak', cut: 'quarter', moisture_known: 'air it lay in' },
    ],
    ['wetter than it will ever be', { moisture_metered: '16', species: 'American beech' }],
    [
      'drier than it will ever be, rift-sawn ash',
      { moisture_metered: '4', species: 'white ash', cut: 'rift', screw_from_fixed: '3' },
    ],
  ],
  metric: { panel_width: '600', dry_humidity: '25' },
});

/** Pressure of saturated vapor over ice or water, Pa: ASHRAE Handbook, Fundamentals, chapter 1, after Hyland and Wexler. */
function saturated(fahrenheit: number): number {
  const t = (fahrenheit - 32) / 1.8 + 273.15;
  const log =
    t < 273.16
      ? -5674.5359 / t +
        6.3925247 -
        0.009677843 * t +
        6.2215701e-7 * t ** 2 +
        2.0747825e-9 * t ** 3 -
        9.484024e-13 * t ** 4 +
        4.1635019 * Math.log(t)
      : -5800.2206 / t +
        1.3914993 -
        0.048640239 * t +
        4.1764768e-5 * t ** 2 -
        1.4452093e-8 * t ** 3 +
        6.5459673 * Math.log(t);
  return Math.exp(log);
}

describe('the year of a room, from the weather outside', () => {
  it.each(['Chicago, IL', 'Phoenix, AZ', 'Miami, FL', 'Munich', 'Sapporo'])('%s', (place) => {
    const book = bookWith('movement', { place, seasons_from: 'by month' });
    const year = book.sheets().find(({ name }) => name === 'Year')?.id ?? '';
    const shown = (row: number, column: number): number => {
      const value = book.value({ sheet: year, row, column });
      return value.kind === 'number' ? value.number : Number.NaN;
    };
    const settled = Array.from({ length: 12 }, (_, month) => {
      // Below the heading, the note, four inputs and the heads.
      const row = month + 7;
      const [outside, humidity] = [shown(row, 1), shown(row, 2)];
      const room = Math.max(70, outside);
      // The same vapor, brought to the room's temperature.
      const brought = (humidity * saturated(outside)) / saturated(room);
      const kept = Math.min(65, Math.max(25, brought));
      expect(shown(row, 3)).toBe(room);
      expect(Math.abs(shown(row, 4) - kept), `month ${month + 1}`).toBeLessThan(0.2);
      const wood = emc(room, shown(row, 4));
      expect(shown(row, 5)).toBeCloseTo(wood, 9);
      // 0.00353 for sugar maple: Wood Handbook, table 13-5.
      expect(shown(row, 6)).toBeCloseTo(24 * 0.00353 * (wood - 8), 9);
      return wood;
    });
    expect(numberIn(book, 'moisture_dry')).toBeCloseTo(Math.min(...settled), 9);
    expect(numberIn(book, 'moisture_humid')).toBeCloseTo(Math.max(...settled), 9);
  });
});

describeBookItself('movement', 'the workbook of movement', [
  ['order', { dry_humidity: '70' }, 'swapped'],
  ['season', { moisture_metered: '14' }, '14 %'],
  ['keeps', { humidity_over: '60', humidity_under: '50' }, 'over 60 %'],
  ['dryroom', { dry_humidity: '15' }, 'humidifier'],
  ['cover', { panel_held: 'at one edge', panel_width: '48' }, '1/2 in deep'],
  ['cutfits', { panel_opening: '23' }, '23 in'],
  ['screwin', { screw_from_fixed: '12' }, 'held in the middle'],
]);
