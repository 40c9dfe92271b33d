import { drawViews } from '@kerfbook/drawing';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { checkOf, enterAll, numberIn, tableWith } from './dining-table-book.ts';

/**
 * Tables that cannot be built, each with the check that says so, and beside it the nearest one that
 * can. Sizes are worked out by hand from how the parts lie; what joints and screws need is common
 * practice, no source, where nothing else is named.
 */
const CASES: readonly (readonly [
  says: string,
  check: string,
  bad: Readonly<Record<string, string>>,
  good: Readonly<Record<string, string>>,
])[] = [
  [
    'legs thinner than set-back and apron',
    'legfit',
    { leg_size: '2', apron_thickness: '1 3/4', apron_setback: '1/2' },
    { leg_size: '2 1/4', apron_thickness: '1 3/4', apron_setback: '1/2', tenon_length: '0' },
  ],
  [
    'legs that leave no room between them',
    'legclear',
    { top_width: '16', overhang_side: '3 3/4' },
    {},
  ],
  // The other tenon, 1/2 in of 1 1/2 in and in its middle, ends 1 1/2 in from the face: 2 in are left, less 1/8 in
  // that a mortise is deeper than its tenon, and 1/8 in of wood between the two.
  ['tenons that meet in a leg', 'tenon', { tenon_length: '1 13/16' }, { tenon_length: '1 3/4' }],
  ['a stub that holds nothing', 'tenon', { tenon_length: '3/8' }, { tenon_length: '1/2' }],
  // a third of 1/2 in, flush with the leg
  [
    'a mortise that breaks out of the leg',
    'tenon',
    { tenon_length: '1', apron_thickness: '1/2', apron_setback: '0' },
    {
      tenon_length: '1',
      apron_thickness: '3/4',
      apron_setback: '0',
      groove_depth: '1/2',
      tongue_length: '1/2',
    },
  ],
  // the usual list of pocket screws ends at 1 1/2 in
  ['aprons too thick for pocket screws', 'pocket', { apron_thickness: '2' }, {}],
  ['a groove lower than the apron', 'groove', { groove_edge: '3 1/8' }, { groove_edge: '3' }],
  ['a groove wider than the apron', 'groove', { groove_width: '2', apron_width: '2' }, {}],
  ['a groove narrower than the saw', 'groove', { groove_width: '1/16' }, {}],
  ['a groove through the apron', 'groove', { groove_depth: '1 1/2' }, { groove_depth: '1 1/4' }],
  // 30 less 1 1/2 and 5 in
  ['supports that take the knees', 'seatknee', { support_width: '5' }, { support_width: '4 1/2' }],
  // the 2010 ADA Standards, 902.4.1: 24 in at the least
  [
    'a low wish for knee room at a table of dining height',
    'seatknee',
    { least_knee_room: '18', apron_width: '7' },
    { least_knee_room: '18', apron_width: '4 1/2' },
  ],
  [
    'supports that touch each other',
    'supports',
    { support_gap: '6', support_thickness: '3', overhang_end: '18', top_length: '31 1/8' },
    {},
  ],
  // 1/4 in of wood for a No. 8 screw of 0.164 in
  ['screws that bite too little', 'bite', { top_screw: '3/4' }, { top_screw: '1' }],
  [
    'a thick button under a short screw',
    'bite',
    { button_thickness: '1' },
    { button_thickness: '3/4' },
  ],
  // typed over the formula: 42 in of 7 boards, of 60 boards
  ['boards wider than the widest', 'widest', { panel_boards: '7' }, { panel_boards: '8' }],
  ['strips for boards', 'widest', { panel_boards: '60' }, { panel_boards: '9' }],
  ['fasteners past the middle', 'places', { fastener_end: '12', top_width: '36' }, {}],
  ['a first button in the leg', 'beside', { fastener_end: '3/8' }, { fastener_end: '1/2' }],
  ['wide buttons in the leg', 'beside', { tongue_width: '4', fastener_end: '1 3/4' }, {}],
  ['nobody who can sit', 'seated', { top_length: '44', per_seat: '48', top_width: '30' }, {}],
  ['a top like paper', 'topsag', { top_thickness: '1/2', support_gap: '60' }, {}],
];

describe('a dining table that cannot be built', () => {
  it.each(CASES)('is told: %s', (_, id, bad, good) => {
    const book = tableWith(bad);
    expect(checkOf(book, id)?.state).not.toBe('pass');
    while (book.canUndo) book.undo();
    enterAll(book, good);
    expect(checkOf(book, id)?.state).toBe('pass');
  });

  it('has no board that is wider than the widest, however the numbers fall', () => {
    const book = tableWith({});
    for (const [width, widest, loss] of [
      ['42', '5 1/4', '1/16'],
      ['40', '5', '1/8'],
      ['36', '6', '1/32'],
      ['41 15/16', '3 1/2', '0'],
    ] as const) {
      enterAll(book, { top_width: width, widest_board: widest, joint_loss: loss });
      const of = (name: string) => numberIn(book, name);
      expect(of('panel_board_width')).toBeLessThanOrEqual(of('widest_board') + 1e-9);
      const glued =
        of('panel_boards') * of('panel_board_width') - (of('panel_boards') - 1) * of('joint_loss');
      // Each board is ripped to the next sixteenth: never too narrow, and little to take off.
      expect(glued).toBeGreaterThanOrEqual(of('top_width') - 1e-9);
      expect(glued).toBeLessThan(of('top_width') + of('panel_boards') / 16);
    }
  });

  it('has no part that runs into another or hangs loose, as the drawing finds too', () => {
    const drawn = (book: Workbook) => {
      const { clashes } = drawViews(book, { views: [], format: String, clashes: true });
      const pairs = clashes?.overlaps.reduce((sum, one) => sum + one.pairs, 0);
      return { overlap: pairs, loose: (clashes?.floating.length ?? 0) > 0 };
    };
    for (const [entries, state] of [
      [{}, 'pass'],
      // Eight tenons, each cut to fit its leg.
      [{ tenon_length: '1 1/4' }, 'pass'],
      // As thick as their aprons they would meet in each leg; a third as thick they do not.
      [{ tenon_length: '1 3/4' }, 'pass'],
      // Legs too short to reach anything: what hangs together above stands on nothing.
      [{ leg_length: '20' }, 'stop'],
      [{ leg_size: '1 1/2' }, 'stop'],
    ] as const) {
      const book = tableWith(entries);
      expect(checkOf(book, 'clash')?.state, JSON.stringify(entries)).toBe(state);
      const found = drawn(book);
      expect(numberIn(book, 'parts_overlap')).toBe(found.overlap);
      expect(numberIn(book, 'parts_loose') > 0).toBe(found.loose);
    }
  });

  // Wood Handbook (FPL-GTR-190), table 5-3b: black walnut 1.68 million psi (value from memory)
  it('sags in the top as strips on supports do', () => {
    const book = tableWith({ top_thickness: '1', support_gap: '30' });
    const of = (name: string) => numberIn(book, name);
    const inertia = (width: number) => (width * of('top_thickness') ** 3) / 12;
    const span = of('clear_long') / (of('support_count') + 1);
    expect(of('top_sag')).toBeCloseTo((250 * span ** 3) / (48 * 1.68e6 * inertia(span)), 9);
    const out = of('overhang_end') + of('apron_setback');
    expect(of('top_end_sag')).toBeCloseTo((250 * out ** 3) / (3 * 1.68e6 * inertia(out)), 9);
  });
});
