import { plainText, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith } from './books.ts';

const titlesOf = (book: Workbook): readonly string[] =>
  readPlan(book).steps.map(({ title }) => plainText(title));

const textOf = (book: Workbook, title: string): string => {
  const step = readPlan(book).steps.find((one) => plainText(one.title).startsWith(title));
  return step === undefined ? '(no such step)' : step.text.map(plainText).join('\n');
};

/** What a maker reads at five sizes, worked out by hand from what is typed: one of them metric. */
const SIZES = [
  ['as it ships', {}, 'us', 'Cut aprons', 'Cut two 59 in and two 29 in long'],
  ['8 ft', { top_length: '96' }, 'us', 'Cut aprons', 'Cut two 71 in and two 29 in long'],
  ['narrower', { top_width: '36' }, 'us', 'Cut aprons', 'Cut two 59 in and two 23 in long'],
  ['higher', { table_height: '34' }, 'us', 'Make the legs', 'Cut all four 32 1/2 in long'],
  // 2200 − 2 × 228.6 − 2 × 88.9 = 1565; thousands are set apart. 29 in is 736.6 mm: a sentence says whole ones.
  [
    'metric',
    { top_length: '2200' },
    'metric',
    'Cut aprons',
    'Cut two 1,565 mm and two 737 mm long',
  ],
] as const;

/** An option, the title of a step that it asks for, and what it is without the option. */
const OPTIONS = [
  ['tenons', { tenon_length: '1 1/2' }, {}, 'Cut mortises and tenons'],
  ['tapered legs', { leg_shape: 'tapered on two inside faces' }, {}, 'Taper the legs'],
  ['an outline', { top_shape: 'rounded corners' }, {}, 'Saw the outline'],
  ['supports', {}, { support_gap: '60' }, 'Put in the supports'],
  ['figure-8s', {}, { fastener_short: 'clip' }, 'Let in the figure-8s'],
  ['buttons', {}, { fastener_long: 'clip' }, 'Make the buttons'],
  ['slotted screws', { fastener_short: 'slotted screw' }, {}, 'Cut slots for screws'],
  [
    'a groove',
    {},
    { fastener_long: 'figure-8', fastener_short: 'slotted screw' },
    'Groove the aprons',
  ],
  [
    'pocket holes',
    {},
    { tenon_length: '1 1/2', support_gap: '60', top_length: '60' },
    'Drill the pocket holes',
  ],
] as const;

describe('the steps of the dining table', () => {
  it.each(SIZES)('say its sizes: %s', (_, entries, units, title, says) => {
    expect(textOf(bookWith('dining-table', entries, units), title)).toContain(says);
  });

  it.each(OPTIONS)('have what an option asks for, and only then: %s', (_, on, off, title) => {
    expect(titlesOf(bookWith('dining-table', on))).toContain(title);
    expect(titlesOf(bookWith('dining-table', off))).not.toContain(title);
  });

  it('glue in as many rounds as the workbook counts, and build each part once', () => {
    const rounds = (book: Workbook) =>
      titlesOf(book).filter((title) => title.startsWith('Glue up the top'));
    expect(rounds(bookWith('dining-table', {}))).toEqual([
      'Glue up the top, 1 of 3',
      'Glue up the top, 2 of 3',
      'Glue up the top, 3 of 3',
    ]);
    expect(rounds(bookWith('dining-table', { at_once: '12' }))).toEqual(['Glue up the top']);
    const one = { top_width: '20', widest_board: '24', jointer_width: '24' };
    expect(rounds(bookWith('dining-table', one))).toEqual([]);
  });

  it('take as long as the workbook says', () => {
    const book = bookWith('dining-table', {
      tenon_length: '1 1/2',
      top_shape: 'rounded corners',
      leg_shape: 'tapered on two inside faces',
    });
    const { steps } = readPlan(book);
    const sum = (of: (step: (typeof steps)[number]) => number | undefined) =>
      steps.reduce((total, step) => total + (of(step) ?? 0), 0);
    const said = (name: string) => {
      const value = book.named(name)?.value;
      return value?.kind === 'number' ? value.number : Number.NaN;
    };
    expect(sum(({ handsOn }) => handsOn)).toBeCloseTo(said('hours_total'), 9);
    expect(sum(({ waiting }) => waiting)).toBeCloseTo(said('hours_waiting'), 9);
  });

  it.each([
    ['54', 1],
    ['84', 2],
    ['120', 3],
  ])('of a top %s in long say what is clear beside %i supports', (top_length, count) => {
    const book = bookWith('dining-table', { top_length });
    const number = (name: string): number => {
      const value = book.named(name)?.value;
      return value?.kind === 'number' ? value.number : Number.NaN;
    };
    expect(number('support_count')).toBe(count);
    // Centers at equal spaces: from leg to leg stand the supports, the gaps between them, and two gaps at the ends.
    const [thick, gap] = [number('support_thickness'), number('support_clear')];
    const atEnds = count === 1 ? gap : gap + thick / 2;
    expect(count * thick + (count - 1) * gap + 2 * atEnds).toBeCloseTo(number('clear_long'), 9);
    expect(textOf(book, 'Put in the support')).toContain('is clear');
  });

  it('warn where the pocket screws of two aprons reach each other in the leg', () => {
    const fires = (inputs: Readonly<Record<string, string>>): string | undefined =>
      bookWith('dining-table', inputs)
        .checks()
        .find(({ id }) => id === 'pocketsmeet')?.state;
    expect(fires({})).toBe('pass');
    // By hand: 1 1/4 in of a 2 1/2 in screw comes within 3/4 in of the outside, where the other's middle is 1 1/4 in.
    expect(fires({ leg_size: '2' })).toBe('care');
    expect(fires({ leg_size: '2', tenon_length: '1' })).toBe('pass');
  });

  it('never saw a stopped groove: with tenons it is routed', () => {
    const tenoned = bookWith('dining-table', { tenon_length: '1 1/2' });
    expect(textOf(tenoned, 'Groove the aprons')).toContain('stop at both ends');
    expect(textOf(tenoned, 'Groove the aprons')).not.toContain('blade');
    expect(textOf(bookWith('dining-table', {}), 'Groove the aprons')).toContain('3 passes in all');
  });
});
