import { readPlan } from '@kerfbook/guide';
import { describe, expect, it } from 'vitest';
import { bookWith, numberOf } from './books.ts';

type Entries = Readonly<Record<string, string>>;

/** Options of a template that add steps, take some away or share the same hours out over others. */
const CASES: readonly (readonly [name: string, entries: Entries])[] = [
  ['bench', {}],
  ['bench', { stretchers: 'none', seat_width: '24 in', at_once: '3' }],
  ['bench', { fastener_long: 'slotted screw', fastener_short: 'button', widest_board: '4 in' }],
  ['bookcase', {}],
  [
    'bookcase',
    { shelf_kind: 'adjustable', pin_holes: '7', case_height: '40 in', shelf_count: '2' },
  ],
  ['bookcase', { shelf_count: '0', case_height: '30 in', widest_board: '4 in' }],
  ['cabinet-door', {}],
  ['cabinet-door', { corner: 'cope and stick', middle_rails: '1', hinge_kind: 'butt' }],
  ['cabinet-door', { doors: '1', fit: 'inset', opening_width: '15 in', panel_thickness: '1/4 in' }],
  ['plywood-cabinet', {}],
  ['plywood-cabinet', { cabinet: 'wall', case_depth: '12 in', shelf_count: '2' }],
  ['plywood-cabinet', { band_thickness: '0 in' }],
  ['round-table', {}],
  ['round-table', { top_diameter: '60 in', foot_length: '48 in', edge_radius: '0 in' }],
  ['trestle-table', {}],
  ['trestle-table', { top_length: '96 in', rough_quarters: '16/4', layers: '1', at_once: '4' }],
];

describe('the hours of the steps', () => {
  it.each(CASES)('of %s with %o are those of its Days, each counted once', (name, entries) => {
    for (const units of ['us', 'metric'] as const) {
      const book = bookWith(name, entries, units);
      const { steps } = readPlan(book);
      const sum = (hours: readonly (number | undefined)[]): number =>
        hours.reduce<number>((all, one) => all + (one ?? 0), 0);
      const days = { ...shown(book, 'hours_total'), ...shown(book, 'hours_waiting') };
      expect(sum(steps.map(({ handsOn }) => handsOn))).toBeCloseTo(
        numberOf(days, 'hours_total'),
        8,
      );
      expect(sum(steps.map(({ waiting }) => waiting))).toBeCloseTo(
        numberOf(days, 'hours_waiting'),
        8,
      );
    }
  });
});

describe('steps that an option decides', () => {
  const titles = (name: string, entries: Entries): string =>
    readPlan(bookWith(name, entries))
      .steps.map(({ title }) => title.map((run) => ('words' in run ? run.words : '…')).join(''))
      .join('; ');

  it.each([
    ['bench', { stretchers: 'none' }, 'Cut the aprons;', 'Join the stretchers'],
    ['bench', { fastener_long: 'slotted screw' }, 'Cut slots for screws', 'Groove the aprons'],
    ['bookcase', { shelf_kind: 'adjustable' }, 'Put in the shelves', 'Glue up the panels, 1'],
    ['bookcase', {}, 'Glue the case', 'Drill for the pins'],
    ['cabinet-door', { corner: 'cope and stick' }, 'Cope and stick', 'Cut the stub tenons'],
    ['cabinet-door', { hinge_kind: 'butt' }, 'Let in the hinges', 'Drill for the hinges'],
    ['plywood-cabinet', { cabinet: 'wall' }, 'Hang the cabinet', 'Build the toe kick'],
    ['plywood-cabinet', { band_thickness: '0 in' }, 'Rabbet the corners', 'Band the edges'],
    ['round-table', { edge_radius: '0 in' }, 'Cut the round', 'Round over the rim'],
    ['trestle-table', { layers: '1' }, 'Mill the base', 'Glue up the layers'],
  ])('%s with %o: %s, and not %s', (name, entries, done, left) => {
    const all = titles(name, entries);
    expect(all).toContain(done);
    expect(all).not.toContain(left);
  });
});

function shown(book: ReturnType<typeof bookWith>, name: string): Record<string, number> {
  const value = book.named(name)?.value;
  return value?.kind === 'number' ? { [name]: value.number } : {};
}
