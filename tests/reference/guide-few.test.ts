import { shopPlan } from '@kerfbook/drawing';
import { plainText, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith } from './books.ts';

/**
 * Plans of few things: of what there is one, it is not told as of several, and of what there is none, nothing is told.
 * Numbers that are said in two places are the same.
 */

const toldIn = (book: Workbook): readonly string[] =>
  readPlan(book).steps.flatMap(({ title, text, hardware, caution = [], measures }) => [
    ...[title, ...text, ...hardware, caution].map(plainText),
    ...measures.map(({ label }) => label),
  ]);

const found = (book: Workbook, words: RegExp): readonly string[] =>
  toldIn(book).filter((one) => words.test(one));

/** The words of the step with this title. */
function stepOf(book: Workbook, called: RegExp): string {
  const step = readPlan(book).steps.find(({ title }) => called.test(plainText(title)));
  return (step?.text ?? []).map(plainText).join(' ');
}

describe('a desk', () => {
  const SEVERAL =
    /\bfronts\b|\bboxes\b|\ball drawers\b|\beach drawer\b|\bdrawers\b(?!, (?:thick|thin))/i;

  it('with one drawer tells of one', () => {
    const told = found(bookWith('desk', { drawer_count: '1' }), SEVERAL);
    // What the thin boards are for, and what the hangers and dividers are between, is the same for one.
    expect(
      told.filter((one) => !/thinner ones for aprons, rails, hangers and drawers/.test(one)),
    ).toEqual([]);
  });

  it('with two tells of both', () => {
    expect(found(bookWith('desk', { drawer_count: '2' }), SEVERAL).length).toBeGreaterThan(8);
  });
});

describe('boards of a glued-up top', () => {
  it.each(['11/16', '7/8', '1'])(
    '%s in thick come out of those that the steps plane',
    (top_thickness) => {
      const book = bookWith('desk', { top_thickness });
      const groups = shopPlan(book, 'cell').plan?.groups ?? [];
      const tops = groups.filter(({ boards }) =>
        boards.some(({ pieces }) => pieces.some(({ item }) => item.becomes?.part === 'Top')),
      );
      // 5/4 boards plane to 1 1/16 in, and the steps say so; thinner ones are for aprons, rails and drawers.
      expect(tops.map(({ thickness }) => thickness / 25.4)).toEqual([1.0625]);
      expect(stepOf(book, /^Joint/)).toContain('stay at 1 1/16 in for now');
      expect(stepOf(book, /^Buy/)).toContain('5/4 boards for the top');
    },
  );
});

describe('a bookcase', () => {
  it('without shelves tells of none', () => {
    const told = found(bookWith('bookcase', { shelf_count: '0' }), /\bshel(?:f|ves)\b/i);
    // What is said of the whole: that there are none, and what stands on the bottom.
    expect(told.filter((one) => !/without shelves|Width of each/.test(one))).toEqual([]);
  });

  it('with shelves on pins sands carefully what enters a dado, the bottom', () => {
    const sanding = (shelf_kind: string): string =>
      stepOf(bookWith('bookcase', { shelf_kind }), /^Sand the parts/);
    expect(sanding('adjustable')).toContain('on the ends of the bottom');
    expect(sanding('adjustable')).not.toMatch(/shel(?:f|ves)/);
    expect(sanding('fixed')).toContain('a shelf that is sanded thin');
  });

  it('has the pocket holes of its wall rail in the back of it, as the step says', () => {
    const book = bookWith('bookcase', {});
    expect(stepOf(book, /^Drill the wall rail/)).toContain('from its back');
    const rails = readPlan(book).parts.joints?.marked.filter(({ part }) => part === 'Wall rail');
    const holes = rails?.flatMap(({ cuts }) => cuts) ?? [];
    expect(holes.length).toBeGreaterThanOrEqual(4);
    // What looks away from the middle of the case is the back of what stands at its back.
    expect(new Set(holes.map(({ on }) => on))).toEqual(new Set(['outside face']));
  });

  it('tells of loose shelves where they are loose', () => {
    const kinds = ['fixed', 'adjustable'].map((shelf_kind) => bookWith('bookcase', { shelf_kind }));
    expect(kinds.map((book) => found(book, /loose shel/).length)).toEqual([0, 1]);
  });

  it('tells of thickness that is planed off where there is some', () => {
    const thick = { side_thickness: '13/16', shelf_thickness: '13/16', top_thickness: '13/16' };
    // 4/4 boards plane to 13/16 in: the template says so, and its reference test checks it.
    expect(stepOf(bookWith('bookcase', thick), /^Joint/)).toContain('plane to 13/16 in, and that');
    expect(stepOf(bookWith('bookcase', thick), /^Plane/)).toContain('no thickness to spare');
    expect(stepOf(bookWith('bookcase', {}), /^Joint/)).toContain('stay at 13/16 in for now');
    expect(stepOf(bookWith('bookcase', {}), /^Plane/)).not.toContain('to spare');
  });

  it('rips what is one board to the width it has', () => {
    const small = { case_depth: '152.4', shelf_count: '0', back_thickness: '3.175' };
    const book = bookWith('bookcase', small, 'metric');
    expect(stepOf(book, /^Joint/)).toContain('for the bottom one of 149 mm');
    expect(readPlan(book).parts.parts.find(({ name }) => name === 'Bottom')?.width).toBeCloseTo(
      149.2,
      1,
    );
  });

  it.each([
    [12, 2, 'care'],
    [20, 2, 'pass'],
    [3, 1, 'pass'],
  ])(
    'with %d holes in a line and %d shelves on pins warns where the holes do not reach: %s',
    (holes, shelves, state) => {
      // 71 1/4 in of side, holes 2 in apart about its middle: 12 of them end at 46 5/8 in, and the second shelf is at 48 7/8.
      const book = bookWith('bookcase', {
        shelf_kind: 'adjustable',
        shelf_count: String(shelves),
        pin_holes: String(holes),
      });
      expect(book.checks().find(({ id }) => id === 'pinreach')?.state).toBe(state);
    },
  );
});

const CUTS = [
  'base',
  'bench',
  'bookcase',
  'breadboard',
  'coffee-table',
  'desk',
  'dining-table',
  'round-table',
  'top',
  'trestle-table',
];

describe('the cut of the boards', () => {
  it.each(CUTS)('of %s is asked for at the yard where it is not the usual one', (name) => {
    const asked = ['flat', 'rift', 'quarter'].map((cut) =>
      /Ask for \w+ boards/.exec(stepOf(bookWith(name, { cut }), /^Buy/))?.at(0),
    );
    expect(asked).toEqual([undefined, 'Ask for riftsawn boards', 'Ask for quartersawn boards']);
  });
});

describe('boards that are far thicker than what they become', () => {
  const THIN: readonly (readonly [string, Readonly<Record<string, string>>])[] = [
    ['bench', { seat_thickness: '1' }],
    ['bookcase', { side_thickness: '3/4', shelf_thickness: '3/4', top_thickness: '3/4' }],
    ['breadboard', { top_thickness: '1' }],
    ['coffee-table', { top_thickness: '1', shelf_thickness: '3/4' }],
    ['desk', { top_thickness: '1' }],
    ['dining-table', { top_thickness: '1' }],
    ['round-table', { top_thickness: '1' }],
    ['top', { top_thickness: '1' }],
    ['trestle-table', { top_thickness: '1' }],
  ];

  it.each(THIN)('of %s are thinned before they are glued up', (name, thin) => {
    // 8/4 boards plane to 1 3/4 in, 4/4 ones to 13/16 in: the template says so, and its reference test checks it.
    const thick = bookWith(name, { ...thin, rough_quarters: '8/4' });
    expect(stepOf(thick, /^Joint and plane/)).toMatch(/resaw|plane (?:its boards|them) on now/);
    expect(stepOf(thick, /^(?:Flatten|Plane to)/)).not.toContain('thick now');
    const near = { ...thin, top_thickness: '3/4', shelf_thickness: '3/4', seat_thickness: '3/4' };
    const known = Object.entries(near).filter(([one]) => thick.named(one) !== undefined);
    const usual = bookWith(name, { ...Object.fromEntries(known), rough_quarters: '4/4' });
    expect(stepOf(usual, /^Joint and plane/)).not.toContain('on now');
  });
});

describe('what one lifts', () => {
  const cautionsOf = (book: Workbook, called: RegExp): string =>
    readPlan(book)
      .steps.filter(({ title }) => called.test(plainText(title)))
      .map(({ caution = [] }) => plainText(caution))
      .join(' ');

  it('says how many turn a seat face down that is too heavy for one', () => {
    const cautions = ['10', '100'].map((lift_alone) =>
      cautionsOf(bookWith('bench', { lift_alone }), /^Fasten the seat/),
    );
    expect(cautions.map((one) => /takes \d people to turn/.test(one))).toEqual([true, false]);
  });

  it('has no crowd carry a table', () => {
    const [heavy, usual] = ['1500', '88'].map((top_weight) => bookWith('base', { top_weight }));
    if (heavy === undefined || usual === undefined) throw new Error('no base');
    expect(cautionsOf(heavy, /^Bring it in/)).toContain('rigging or a lift');
    expect(found(heavy, /\d+ people|People to carry/)).toEqual([]);
    expect(cautionsOf(usual, /^Bring it in/)).toMatch(/takes \d people/);
  });

  it.each([
    ['bench', ['Seat', 'Leg', 'Short apron', 'Long apron', 'End stretcher', 'Long stretcher']],
    ['bookcase', ['Side', 'Bottom', 'Shelf', 'Toe kick', 'Wall rail', 'Back', 'Top']],
  ])('is drawn whole where %s is brought in', (name, all) => {
    const step = readPlan(bookWith(name, {})).steps.find(({ title }) =>
      /bring (?:it )?in/i.test(plainText(title)),
    );
    const drawn = (step?.figure.of ?? '').split(',').map((part) => part.trim());
    expect(drawn.sort()).toEqual([...all].sort());
  });
});

describe('fasteners of a top', () => {
  it.each([
    ['36', 'stop'],
    ['34 1/8', 'stop'],
    ['34', 'pass'],
  ])('%s in apart under one 36 in wide: %s', (fastened_across, state) => {
    const book = bookWith('top', { fastened_across });
    expect(book.checks().find(({ id }) => id === 'across')?.state).toBe(state);
  });
});

describe('a cabinet door', () => {
  const one = { doors: '1', opening_width: '6 1/8', opening_height: '10 7/8' };

  it('with one panel of one board planes it once, to what it is', () => {
    const book = bookWith('cabinet-door', one);
    expect(stepOf(book, /^Joint/)).toContain('the wood of the panel to 1/2 in.');
    expect(stepOf(book, /^Cut and rabbet/)).toMatch(/^Cut the panel .* let it be/);
    expect(
      found(book, /\beach hinge stile|\bpanels\b/).filter(
        (told) => !/Boards for panels/.test(told),
      ),
    ).toEqual([]);
  });

  it('with glued-up panels leaves them thick until they are', () => {
    const book = bookWith('cabinet-door', {});
    expect(stepOf(book, /^Joint/)).toContain('the wood of the panels to 13/16 in for now');
    expect(stepOf(book, /^Cut and rabbet/)).toMatch(/^Plane the panels to 1\/2 in/);
  });
});
