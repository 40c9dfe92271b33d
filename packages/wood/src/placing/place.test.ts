import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Corner } from '../blocks.ts';
import { PLACE_FORMS } from './forms.ts';
import { cornerOf, type PartToPlace, placeParts } from './place.ts';
import { alongAxes } from './turn.ts';

type Numbers = PartToPlace['numbers'];

interface Row {
  readonly count?: number;
  readonly sides: readonly [thickness: number, width: number, length: number];
  readonly words?: string;
  readonly numbers?: Numbers;
  readonly step?: Corner;
  readonly turn?: PartToPlace['turn'];
}

const NONE: Numbers = [undefined, undefined, undefined];

const part = (name: string, row: Row): PartToPlace => ({
  name,
  count: row.count ?? 1,
  thickness: row.sides[0],
  width: row.sides[1],
  length: row.sides[2],
  numbers: row.numbers ?? NONE,
  step: row.step ?? [0, 0, 0],
  ...(row.words === undefined ? {} : { words: row.words }),
  ...(row.turn === undefined ? {} : { turn: row.turn }),
});

/** A top 80 long, 40 wide and 2 thick, 28 above the floor. */
const TOP = part('Top', { sides: [2, 40, 80], numbers: [0, 0, 28] });
/** Legs 3 square and 28 long, 5 in from the ends and 4 from the sides of it. */
const LEG = part('Leg', {
  count: 4,
  sides: [3, 3, 28],
  words: 'four corners of Top',
  numbers: [5, 4, undefined],
});

/** The same parts, some of them counted 0: sizes and places, but nothing is made. */
const notMade = (...parts: readonly PartToPlace[]): readonly PartToPlace[] =>
  parts.map((one) => ({ ...one, count: 0 }));

/** The corners of the last row's pieces, each with the sizes along the axes. */
function placed(...parts: readonly PartToPlace[]) {
  const last = parts.at(-1);
  const place = placeParts(parts).at(-1);
  if (last === undefined || place === undefined || place === 'nowhere') throw new Error('no place');
  if ('says' in place) throw new Error(place.says);
  const corners = Array.from({ length: last.count }, (_, copy) => cornerOf(place, copy));
  return { corners, sizes: alongAxes(place.turn, last), turn: place.turn };
}

const says = (...parts: readonly PartToPlace[]): string => {
  const place = placeParts(parts).at(-1);
  return typeof place === 'object' && 'says' in place ? place.says : 'placed';
};

describe('places in words, against coordinates worked out by hand', () => {
  it('a part counted 0 places others as if it were made, with as many pieces as its words take', () => {
    const apron = part('Apron', {
      count: 2,
      sides: [1, 3, 64],
      words: 'between Leg along, front and back, under Top',
      numbers: [undefined, 1, undefined],
    });
    expect(placed(...notMade(TOP, LEG), apron)).toEqual(placed(TOP, LEG, apron));
    expect(placed(...notMade(TOP), LEG)).toEqual(placed(TOP, LEG));
    // Slats in equal spaces take no number of pieces: one of them stands for all.
    const slat = part('Slat', { count: 0, sides: [1, 3, 40], words: 'equal spaces along Top' });
    const cap = part('Cap', { sides: [1, 1, 1], words: 'on Slat, centered on Slat' });
    expect(placed(TOP, slat, cap).corners).toEqual([[39.5, 19.5, 1]]);
  });

  it('a part that is made counts before one of its name that is not', () => {
    const cap = part('Cap', { sides: [1, 1, 1], words: 'on Top' });
    const stand = part('Top', { count: 0, sides: [9, 9, 9], numbers: [50, 50, 50] });
    expect(placed(stand, TOP, cap)).toEqual(placed(TOP, cap));
  });

  it('four corners: one at each, upright, as far in as x and y say', () => {
    expect(placed(TOP, LEG)).toEqual({
      corners: [
        [5, 4, 0],
        [5, 33, 0],
        [72, 4, 0],
        [72, 33, 0],
      ],
      sizes: [3, 3, 28],
      turn: 'WTL',
    });
  });

  it('a top lies on legs that stand at its own corners', () => {
    const top = part('Top', { sides: [2, 40, 80], words: 'on Leg' });
    expect(placed(LEG, top).corners).toEqual([[0, 0, 28]]);
    expect(placed(top, LEG).corners[3]).toEqual([72, 33, 0]);
  });

  it('between legs along: in the middle of the gap, on edge, front and back, under the top', () => {
    // The gap is 64 long from 8 to 72; an apron of 66 reaches 1 into each leg.
    const apron = part('Apron', {
      count: 2,
      sides: [1, 4, 66],
      words: 'between Leg and Leg along, front and back, under Top',
      numbers: [undefined, 0.5, undefined],
    });
    expect(placed(TOP, LEG, apron)).toEqual({
      corners: [
        [7, 4.5, 24],
        [7, 34.5, 24],
      ],
      sizes: [66, 1, 4],
      turn: 'LTW',
    });
  });

  it('between legs across: the short way', () => {
    const apron = part('Short apron', {
      count: 2,
      sides: [1, 4, 26],
      words: 'between the Legs across, left and right, under the Top',
      numbers: [0.5, undefined, undefined],
    });
    expect(placed(TOP, LEG, apron)).toEqual({
      corners: [
        [5.5, 7, 24],
        [73.5, 7, 24],
      ],
      sizes: [1, 26, 4],
      turn: 'TLW',
    });
  });

  it('between legs: what its length reaches across is told, and nothing where its width does', () => {
    const gap = (words: string) => {
      const rail = part('Rail', { sides: [1, 4, 37], words });
      const place = placeParts([TOP, LEG, rail]).at(-1);
      return typeof place === 'object' && 'gap' in place ? place.gap : undefined;
    };
    expect(gap('between Leg along, under Top')).toEqual({ between: ['Leg'], room: 64 });
    expect(gap('between Leg across, under Top')).toEqual({ between: ['Leg'], room: 26 });
    // Nothing says how high.
    expect(gap('between Leg across')).toEqual({ between: ['Leg'], room: 26, onFloor: true });
    expect(gap('between Leg along, flat across')).toBeUndefined();
    expect(gap('front of Top')).toBeUndefined();
  });

  it('between two parts, whichever of them stands first', () => {
    const left = part('Left', { sides: [1, 10, 30], numbers: [0, 0, 0], turn: 'TWL' });
    const right = part('Right', { sides: [1, 10, 30], numbers: [21, 0, 0], turn: 'TWL' });
    const shelf = (words: string) =>
      part('Shelf', { sides: [1, 10, 20], words, numbers: [undefined, undefined, 12] });
    for (const words of [
      'between Left and Right along, flat',
      'between Right and Left along, flat',
    ])
      expect(placed(left, right, shelf(words))).toEqual({
        corners: [[1, 0, 12]],
        sizes: [20, 10, 1],
        turn: 'LWT',
      });
  });

  it('equal spaces, equal centers and spread, as far in from both ends as x says', () => {
    const slat = (words: string, x?: number) =>
      placed(
        TOP,
        part('Slat', { count: 3, sides: [1, 4, 40], words, numbers: [x, undefined, 30] }),
      );
    // 80 - 3 × 4 = 68, in four spaces of 17.
    expect(slat('equal spaces along Top').corners).toEqual([
      [17, 0, 30],
      [38, 0, 30],
      [59, 0, 30],
    ]);
    // Middles at 20, 40 and 60.
    expect(slat('equal centers along Top').corners.map(([x]) => x)).toEqual([18, 38, 58]);
    expect(slat('spread along Top').corners.map(([x]) => x)).toEqual([0, 38, 76]);
    expect(slat('spread along Top', 2).corners.map(([x]) => x)).toEqual([2, 38, 74]);
    expect(slat('equal spaces along Top').turn).toBe('WLT');
  });

  it('equal spaces between two, in two rows', () => {
    const slat = part('Slat', {
      count: 4,
      sides: [1, 2, 20],
      words: 'equal spaces between Leg along, front and back, upright',
    });
    // The gap from 8 to 72 less two pieces of 2 is 60, in three spaces of 20.
    expect(placed(TOP, LEG, slat).corners).toEqual([
      [28, 4, 0],
      [28, 35, 0],
      [50, 4, 0],
      [50, 35, 0],
    ]);
  });

  it('single ends, edges and middles; what no word says is the middle', () => {
    const at = (words: string, numbers: Numbers = NONE) =>
      placed(TOP, part('Block', { sides: [2, 4, 10], words, numbers, turn: 'LWT' })).corners[0];
    expect(at('left end of Top')).toEqual([0, 18, 0]);
    expect(at('right end of Top', [3, 1, 5])).toEqual([67, 1, 5]);
    expect(at('at the front of Top')).toEqual([35, 0, 0]);
    expect(at('back edge of Top', [undefined, 1, undefined])).toEqual([35, 35, 0]);
    expect(at('centered on Top, on Top')).toEqual([35, 18, 30]);
    expect(at('centered along Top', [2, 3, undefined])).toEqual([37, 3, 0]);
    expect(at('under Top', [1, 2, 3])).toEqual([1, 2, 23]);
    expect(at('left end of Top, on the floor')).toEqual([0, 18, 0]);
  });

  it('mirrored is both ends, or front and back', () => {
    const pair = (words: string) =>
      placed(TOP, part('Foot', { count: 2, sides: [2, 4, 10], words, numbers: [6, 3, 0] }));
    expect(pair('mirrored along Top')).toEqual(pair('both ends of Top'));
    expect(pair('both ends of Top').corners).toEqual([
      [6, 3, 0],
      [70, 3, 0],
    ]);
    expect(pair('mirrored across Top')).toEqual(pair('front and back of Top'));
  });

  it('the way may stay unsaid where the other phrases leave one', () => {
    const rail = (words: string) =>
      placed(TOP, LEG, part('Rail', { count: 2, sides: [1, 4, 64], words }));
    expect(rail('between Leg, front and back')).toEqual(rail('between Leg along, front and back'));
    expect(rail('between Leg and both ends').turn).toBe('TLW');
    for (const words of [
      'between the legs at the ends',
      'between the legs at both ends',
      'between the Leg, ends',
      'between the legs, left and right',
      'between the legs at the short sides',
    ]) {
      expect(rail(words), words).toEqual(rail('between Leg across, left and right'));
    }
    expect(rail('between the legs at the front and back')).toEqual(
      rail('between Leg along, front and back'),
    );
  });

  it('goes by what the place names elsewhere, else by the first part that has a place', () => {
    const one = (words: string) =>
      placed(TOP, LEG, part('Foot', { count: 4, sides: [3, 4, 4], words })).corners;
    expect(one('four corners')).toEqual(one('four corners of Top'));
    expect(one('four corners, under Leg')).toEqual(one('four corners of Leg, under Leg'));
  });

  it('reads names with commas, in quotation marks, plurals, and names that begin like words', () => {
    const rows = ['Leg, left', 'Leg, right', 'A', 'On stand'].map((name, i) =>
      part(name, { sides: [1, 1, 10], numbers: [i * 10, 0, 0], turn: 'WTL' }),
    );
    const at = (words: string) =>
      placed(...rows, part('Bar', { sides: [1, 1, 3], words, turn: 'LWT' })).corners[0]?.[0];
    // Gaps from 1 to 10, from 11 to 20 and from 21 to 30, and a bar of 3 in their middles.
    expect(at('between Leg, left and Leg, right along')).toBe(4);
    expect(at('between "leg, LEFT" and “Leg, right” along')).toBe(4);
    expect(at('between Leg, right and A along')).toBe(14);
    expect(at('between A and the On stands along')).toBe(24);
  });

  it('leaves rows without words where their numbers say', () => {
    const rail = part('Rail', {
      count: 3,
      sides: [1, 2, 9],
      numbers: [1, undefined, 2],
      step: [0, 5, 1],
    });
    expect(placed(rail)).toEqual({
      corners: [
        [1, 0, 2],
        [1, 5, 3],
        [1, 10, 4],
      ],
      sizes: [9, 2, 1],
      turn: 'LWT',
    });
    expect(placeParts([part('Screw', { sides: [1, 1, 1] })])).toEqual(['nowhere']);
  });

  it('reads every way to place that it offers', () => {
    const post = part('Post', { sides: [3, 3, 28], words: 'left end of Top, upright' });
    for (const { words } of PLACE_FORMS) {
      const counts = [1, 2, 4].map((count) =>
        says(TOP, LEG, post, part('Try', { count, sides: [1, 1, 1], words })),
      );
      expect(counts, words).toContain('placed');
    }
  });
});

describe('places of random tables', () => {
  const size = fc.double({ min: 0.1, max: 500, noNaN: true });

  it('four corners are symmetric about both middles of what they stand under', () => {
    fc.assert(
      fc.property(size, size, size, size, size, size, (long, wide, low, x, y, leg) => {
        const top = part('Top', { sides: [1, wide, long], numbers: [low, -low, low] });
        const { corners } = placed(
          top,
          part('Leg', {
            count: 4,
            sides: [leg, leg, low],
            words: 'four corners',
            numbers: [x, y, 0],
          }),
        );
        const middles = corners.map(([a, b]) => [
          a + leg / 2 - low - long / 2,
          b + leg / 2 + low - wide / 2,
        ]);
        const [first = [0, 0]] = middles;
        expect(first[0]).toBeCloseTo(x + leg / 2 - long / 2, 6);
        for (const [a = 0, b = 0] of middles) {
          expect(Math.abs(a)).toBeCloseTo(Math.abs(first[0] ?? 0), 6);
          expect(Math.abs(b)).toBeCloseTo(Math.abs(first[1] ?? 0), 6);
        }
        expect(middles.reduce((sum, [a = 0]) => sum + a, 0)).toBeCloseTo(0, 6);
        expect(middles.reduce((sum, [, b = 0]) => sum + b, 0)).toBeCloseTo(0, 6);
      }),
      { seed: 15, numRuns: 200 },
    );
  });

  it('equal spaces are equal, and so are equal centers', () => {
    const count = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(count, size, size, size, (n, long, width, inset) => {
        const top = part('Top', { sides: [1, 10, long], numbers: [3, 0, 0] });
        const at = (words: string): readonly number[] =>
          placed(
            top,
            part('Slat', {
              count: n,
              sides: [1, width, 10],
              words,
              numbers: [inset, undefined, 0],
            }),
          ).corners.map(([x]) => x);
        const low = 3 + inset;
        const high = 3 + long - inset;
        const spaced = at('equal spaces along Top');
        const edges = [low, ...spaced.flatMap((x) => [x, x + width]), high];
        const spaces = edges.flatMap((edge, i) =>
          i % 2 === 0 ? [(edges[i + 1] ?? edge) - edge] : [],
        );
        for (const space of spaces) expect(space).toBeCloseTo(spaces[0] ?? 0, 6);
        const middles = [low, ...at('equal centers along Top').map((x) => x + width / 2), high];
        for (const [i, middle] of middles.slice(1).entries()) {
          expect(middle - (middles[i] ?? 0)).toBeCloseTo((high - low) / (n + 1), 6);
        }
        const spread = at('spread along Top');
        if (n > 1) {
          expect(spread[0]).toBeCloseTo(low, 6);
          expect((spread.at(-1) ?? 0) + width).toBeCloseTo(high, 6);
        }
      }),
      { seed: 16, numRuns: 200 },
    );
  });

  it('whatever is typed is placed or answered with a sentence that names the part', () => {
    const word = fc.constantFrom(
      ...['four', 'corners', 'both', 'ends', 'of', 'Top', 'Leg', 'and', ',', 'between', 'along'],
      ...[
        'across',
        'up',
        'the',
        'equal',
        'spaces',
        'on',
        'under',
        'flat',
        'upright',
        '"',
        'x',
        '7',
      ],
    );
    fc.assert(
      fc.property(
        fc.array(word, { maxLength: 9 }),
        fc.integer({ min: 1, max: 5 }),
        (words, count) => {
          const answer = says(
            TOP,
            LEG,
            part('Rail', { count, sides: [1, 2, 3], words: words.join(' ') }),
          );
          expect(answer === 'placed' || answer.includes('Rail')).toBe(true);
        },
      ),
      { seed: 17, numRuns: 400 },
    );
  });
});

describe('places that cannot be read or found', () => {
  const rail = (words: string, row: Partial<Row> = {}) =>
    says(TOP, LEG, part('Rail', { sides: [1, 2, 30], words, ...row }));

  it.each([
    [
      'four cornrs of Top',
      'The place of Rail says "four cornrs of Top", which places nothing. Nearest: "four corners of Top".',
    ],
    [
      'between the legs on the ends round',
      'The place of Rail says "between the legs on the ends round", which places nothing. Nearest: "between Leg across, left and right".',
    ],
    [
      'somewhere nice',
      'The place of Rail says "somewhere nice", which places nothing. It takes words such as "four corners of Top", "both ends of Top", "between Leg along" or "under Top".',
    ],
    ['under Topp', 'The place of Rail names "Topp", and no part is called that. Nearest: "Top".'],
    ['under', 'The place of Rail says "under" and then no part. Name one, such as "under Top".'],
    [
      'between Leg',
      'The place of Rail says "between Leg" and not which way: add "along", "across" or "up", such as "between Leg along".',
    ],
    [
      'left end of Top, right end of Top',
      'The place of Rail says twice where it goes along. Keep one of the two.',
    ],
    [
      'both ends of Top',
      'The place of Rail is for 2 pieces, and its count is 1. Make the count 2, or change the place.',
    ],
    ['under Rail', 'Rail cannot be placed from itself. Name the part that it stands beside.'],
    [
      'between Top along',
      'Rail goes between the pieces of Top, and along they stand in one line, so there is no gap. Say the other way, or name two parts.',
    ],
    [
      'between Top and Leg along',
      'Rail goes between Top and Leg, and along these have the same middle, so there is no gap. Say the other way.',
    ],
    [
      'equal spaces along Top, equal spaces across Top',
      'The place of Rail asks for equal spaces in two directions. Keep one, and make the other "both ends" or "front and back".',
    ],
  ])('%s', (words, sentence) => {
    expect(rail(words)).toBe(sentence);
  });

  it('counts that do not come out', () => {
    expect(rail('under Top', { count: 2 })).toBe(
      'The place of Rail is for 1 piece, and its count is 2. Add "four corners", "both ends", "front and back" or "equal spaces along".',
    );
    expect(rail('equal spaces along Top, front and back', { count: 5 })).toBe(
      'The place of Rail puts its pieces in 2 rows alike, and its count is 5. Make the count a multiple of 2.',
    );
  });

  it('words beside a step or a second turn', () => {
    expect(rail('under Top', { step: [0, 1, 0] })).toBe(
      'Rail has a place in words and a step. Clear step x, step y and step z, or clear the place.',
    );
    expect(rail('under Top, flat', { turn: 'LTW' })).toBe(
      'The place of Rail says how it is turned, and so does its turn, LTW. Clear one of the two.',
    );
  });

  it('parts that go round in a circle, have no place, or are not wanted', () => {
    const a = part('A', { sides: [1, 1, 1], words: 'on B' });
    const b = part('B', { sides: [1, 1, 1], words: 'on A' });
    expect(placeParts([a, b])).toEqual([
      { says: 'A and B are each placed from the other, up. Give one of them a number instead.' },
      { says: 'The place of B rests on A; look there.', rests: true },
    ]);
    const nowhere = part('Peg', { sides: [1, 1, 1] });
    const on = (name: string) => part('Cap', { sides: [1, 1, 1], words: `on ${name}` });
    expect(says(nowhere, on('Peg'))).toBe(
      'Cap is placed from Peg, which has no place yet. Give Peg a place, or x, y and z.',
    );
    expect(placeParts([on('Knob')], { none: ['Knob'], unread: [] })).toEqual([
      {
        says: 'Cap is placed from Knob, which is counted 0 and has no size or no place. Give Knob its sizes and a place to go by, or name another part.',
      },
    ]);
    expect(placeParts([on('Knob')], { none: [], unread: ['Knob'] })).toEqual([
      {
        says: 'The place of Cap rests on Knob; look there.',
        rests: true,
      },
    ]);
  });

  it('parts counted 0 that have no place themselves, and only of who goes by them', () => {
    const lost = part('Rack', { count: 0, sides: [1, 1, 1], words: 'on Nothing at all' });
    const cap = part('Cap', { sides: [1, 1, 1], words: 'on Rack' });
    expect(says(lost, cap)).toBe(
      'Cap is placed from Rack, which is counted 0 and has no size or no place. Give Rack its sizes and a place to go by, or name another part.',
    );
  });

  it('is said once, where it began; of what rests on it, only that it does', () => {
    const cap = part('Cap', { sides: [1, 1, 1], words: 'on Post' });
    const knob = part('Knob', { sides: [1, 1, 1], words: 'on Cap' });
    const all = (post: Row['words'], ...others: readonly PartToPlace[]) =>
      placeParts(
        [TOP, part('Post', { sides: [1, 1, 1], words: post ?? '' }), cap, knob, ...others],
        { none: [], unread: ['Foot'] },
      ).flatMap((place) => (typeof place === 'object' && 'says' in place ? [place.says] : []));
    const resting = (on: string) =>
      ['Cap', 'Knob'].map((one) => `The place of ${one} rests on ${on}; look there.`);
    // What cannot be read, and what can be read and does not fit.
    expect(all('under Lid')).toEqual([
      'The place of Post names "Lid", and no part is called that. Type a part\'s name as it stands in the first column.',
      ...resting('Post'),
    ]);
    expect(all('four corners of Top')).toEqual([
      'The place of Post is for 4 pieces, and its count is 1. Make the count 4, or change the place.',
      ...resting('Post'),
    ]);
    expect(all('on Knob')).toEqual([
      'Post is placed from parts that are placed from it, up. Give one of them a number instead.',
      ...resting('Post'),
    ]);
    // The row of Foot tells itself why it cannot be read.
    expect(all('on Foot')).toEqual([
      'The place of Post rests on Foot; look there.',
      ...resting('Foot'),
    ]);
  });
});
