import { guidePage, plainText, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, expectHeld, type Inputs, inputsOf, numberOf } from './books.ts';
import { numberIn } from './dining-table-book.ts';
import {
  planedOf,
  rateOf,
  rippedTo,
  seasonsOf,
  up,
  weighed,
  wordOf,
} from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';

/** Cup hinges by height and by weight, whichever asks for more: charts of hardware dealers, read. */
function cupHinges(height: number, weight: number): number {
  const inRow = (most: readonly number[], value: number): number =>
    2 + most.findIndex((one) => value <= one);
  return Math.max(inRow([40, 60, 80, 85], height), inRow([13, 20, 22.5, 35], weight));
}

/** What doors come to by the inputs alone, in the units of the us. */
function doorsOf(inputs: Inputs): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const doors = at('doors');
  const isInset = wordOf(inputs, 'fit') === 'inset';
  const cover = isInset ? 0 : at('overlay');
  const gap = at('gap');
  const [stile, groove, middles] = [at('stile_width'), at('groove_depth'), at('middle_rails')];
  const gaps = isInset ? doors + 1 : doors - 1;
  const width = (at('opening_width') + 2 * cover - gaps * gap) / doors;
  const height = at('opening_height') + 2 * cover - (isInset ? 2 * gap : 0);
  const opening = width - 2 * stile;
  const rails = at('top_rail') + at('bottom_rail') + middles * at('middle_rail');
  const high = (height - rails) / (middles + 1);
  const rate = rateOf(inputs);
  const { dry, humid } = seasonsOf(inputs);
  const now = at('moisture_build');
  const grown = (size: number, to: number): number => size * (1 + rate * (to - now));
  // As wide as it may be in the humid season, less what it grows until then.
  const panel = (opening + 2 * groove - 2 * at('least_gap')) / (1 + rate * (humid - now));
  const gapAt = (moisture: number): number => groove - (grown(panel, moisture) - opening) / 2;
  const length = high + 2 * groove - 2 * at('end_gap');
  const boards = up((panel - at('joint_loss')) / (at('widest_board') - at('joint_loss')));
  const railLong = width - 2 * stile + 2 * groove;
  // Boards are glued before their panel is trimmed; corners on both cheeks of both ends of each rail.
  const joints = (middles + 1) * (boards - 1) * (length + at('trim_length')) * planedOf(inputs);
  const corners = 2 * 2 * groove * rails;
  // Grooves run from end to end, in middle rails along both edges; tenons lose both cheeks. Hinges are not bored for.
  const [thick, slot, rabbet] = [
    at('frame_thickness'),
    at('groove_width'),
    groove + at('panel_spare'),
  ];
  const frame =
    thick * (2 * stile * height + railLong * rails) -
    slot * groove * (2 * height + railLong * (2 + 2 * middles)) -
    2 * groove * (thick - slot) * rails;
  const field = (panel - 2 * rabbet) * (length - 2 * rabbet);
  const volume =
    frame + (middles + 1) * (slot * panel * length + (at('panel_thickness') - slot) * field);
  const weight = weighed(inputs, volume);
  const hinges =
    wordOf(inputs, 'hinge_kind') === 'cup'
      ? cupHinges(height, weight)
      : Math.max(2, up(height / 30));
  const wider = 2 * stile * rate * (humid - now);
  return {
    door_width: width,
    door_height: height,
    rail_length: railLong,
    frame_opening: opening,
    panel_opening: high,
    panel_width: panel,
    panel_length: length,
    panel_boards: boards,
    panel_board_width: rippedTo(inputs, (panel + (boards - 1) * at('joint_loss')) / boards),
    gap_today: gapAt(now),
    gap_dry: gapAt(dry),
    gap_humid: gapAt(humid),
    held_dry: groove - gapAt(dry),
    panel_swing: (opening + 2 * groove) * rate * (Math.max(humid, now) - Math.min(dry, now)),
    groove_wall: (at('frame_thickness') - at('groove_width')) / 2,
    // 225 in² to the ounce, as glue makers' sheets have it.
    glue_volume: (doors * (joints + corners)) / 225,
    door_weight: weight,
    hinge_count: hinges,
    hinges_all: hinges * doors,
    hinge_spacing: (height - 2 * at('hinge_end')) / (hinges - 1),
    frame_swing: 2 * stile * rate * (humid - dry),
    gap_left: gaps > 0 ? gap - (doors * wider) / gaps : gap,
    joint_count: doors * (4 + 2 * middles),
  };
}

const DOORS: readonly [string, Readonly<Record<string, string>>][] = [
  ['as they ship', {}],
  [
    'one inset door in cherry',
    { doors: '1', fit: 'inset', opening_width: '16', species: 'black cherry' },
  ],
  [
    'a tall pair with middle rails and butt hinges, quarter-sawn oak',
    {
      opening_height: '66',
      middle_rails: '1',
      hinge_kind: 'butt',
      species: 'white oak',
      cut: 'quarter',
    },
  ],
  [
    'a flat panel as thick as the groove, cope and stick',
    {
      doors: '1',
      opening_width: '14',
      panel_thickness: '1/4',
      corner: 'cope and stick',
      overlay: '3/8',
    },
  ],
  [
    'walnut built dry, in a thicker frame',
    {
      species: 'black walnut',
      rough_quarters: '5/4',
      frame_thickness: '7/8',
      moisture_build: '6',
      stile_width: '2 1/2',
      opening_height: '44',
    },
  ],
];

describe('cabinet doors, against the same doors worked out by hand', () => {
  it.each(DOORS)('%s', (_, entries) => {
    const book = bookWith('cabinet-door', entries);
    expectHeld(book, doorsOf(inputsOf(book)));
    expect(numberIn(book, 'parts_overlap')).toBe(0);
    expect(numberIn(book, 'parts_loose')).toBe(0);
  });

  it('in metric, with lengths typed in millimetres', () => {
    const book = bookWith(
      'cabinet-door',
      { opening_width: '700', opening_height: '650' },
      'metric',
    );
    expectHeld(book, doorsOf(inputsOf(book)));
    expect(book.problems()).toEqual([]);
  });
});

/** The words of the step with this title. */
function stepOf(book: Workbook, called: RegExp): string {
  const step = readPlan(book).steps.find(({ title }) => called.test(plainText(title)));
  return (step?.text ?? []).map(plainText).join(' ');
}

/** What the plan says under a step as a size. */
const sizesIn = (book: Workbook, called: RegExp): readonly string[] =>
  readPlan(book)
    .steps.filter(({ title }) => called.test(plainText(title)))
    .flatMap(({ measures }) => measures.map(({ label }) => label));

const ONE_BOARD = { doors: '1', opening_width: '6 1/8', opening_height: '10 7/8' };

describe('the plan of cabinet doors', () => {
  it('cuts a panel of one board to its finished length, and trims nothing of it', () => {
    const book = bookWith('cabinet-door', ONE_BOARD);
    expect(numberIn(book, 'panel_boards')).toBe(1);
    const told = stepOf(book, /^Rough-cut/);
    expect(told).toContain('The board for the panel is 7 7/8 in long');
    expect(told).not.toContain('trimmed');
    expect(sizesIn(book, /^Rough-cut/)).toContain('Length of the panel');
    expect(sizesIn(book, /^Rough-cut/)).not.toContain('Length of each board');
    const glued = bookWith('cabinet-door', {});
    expect(stepOf(glued, /^Rough-cut/)).toContain('are 26 in long: 1 in of that is trimmed off');
    expect(sizesIn(glued, /^Rough-cut/)).toContain('Length of each board');
  });

  it('tells what stays free of a groove by the season, as a panel of wetter boards is widest on the day', () => {
    const book = bookWith('cabinet-door', { moisture_build: '13' });
    expect(numberIn(book, 'gap_today')).toBeLessThan(numberIn(book, 'gap_humid'));
    const told = stepOf(book, /^Live/);
    expect(told).toContain('stays free in the humid season');
    expect(told).not.toMatch(/widest|narrowest/);
  });

  it.each([
    [{}, 'then 1/32 in is left between the two.'],
    [{ fit: 'inset' }, 'of each gap beside and between them.'],
    [{ ...ONE_BOARD, fit: 'inset' }, 'of the gap at each side.'],
    [ONE_BOARD, 'the door is wider by 1/32 in than today.'],
  ])('says of gaps in the humid season what is left of them alone: %j', (entries, words) => {
    const told = stepOf(bookWith('cabinet-door', entries), /^Fit/);
    expect(told).toContain(words);
    // What one door grows and what is left do not add up to the gap where two doors share it.
    expect(/wider by/.test(told) && /is left/.test(told)).toBe(false);
  });

  it.each([{}, ONE_BOARD, { opening_height: '66', middle_rails: '1', hinge_kind: 'butt' }])(
    'says the same weight on its cover as all doors come to: %j',
    (entries: Readonly<Record<string, string>>) => {
      const book = bookWith('cabinet-door', entries);
      const said = /It weighs about (?:<[^>]*>)*([\d.]+)/.exec(
        guidePage(book, { paper: 'letter' }),
      );
      const [, told = ''] = said ?? [];
      const all = numberIn(book, 'doors') * numberIn(book, 'door_weight');
      // Told to a pound, or to a tenth where it is light; the cups of hinges take away less than that.
      expect(Math.abs(Number(told) - all)).toBeLessThan(told.includes('.') ? 0.1 : 0.6);
    },
  );
});

describeBookItself('cabinet-door', 'the cabinet door', [
  ['reveal', { overlay: '3/4' }, 'leave at least 1/16 in'],
  ['frame', { opening_width: '9', doors: '2' }, '2 in is the least'],
  ['groove', { groove_width: '1/2' }, '1/2 in wide'],
  ['tongue', { panel_thickness: '11/16' }, '11/16 in thick'],
  ['enters', { groove_depth: '5/16', end_gap: '1/4' }, '0.250 in at its ends'],
  ['deep', { groove_depth: '5/16', opening_width: '44' }, '5/16 in deep'],
  ['shrinks', { groove_depth: '1/4', opening_width: '40' }, 'dry season'],
  ['cup', { stile_width: '1 3/4' }, 'both need 1/8 in'],
  ['rub', { gap: '1/16' }, '1/32 in is the least'],
  ['hinges', { opening_height: '84', overlay: '5/8', middle_rails: '1' }, '35 lb'],
  ['widedoor', { doors: '1' }, '31 in wide'],
  ['bigdoor', { opening_height: '66', middle_rails: '1' }, '67 in'],
]);
