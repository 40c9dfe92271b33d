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
    expect(
      told.filter(
        (one) =>
          !/without shelves|stands on a shelf|Width of each|best boards|sanded thin/.test(one),
      ),
    ).toEqual([]);
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
