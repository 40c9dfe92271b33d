import type { Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, expectHeld, type Inputs, inputsOf } from '../books.ts';

/** One workbook to work out by hand: what it is, and what is typed into it. */
export type Size = readonly [what: string, entries: Readonly<Record<string, string>>];

/** What a template comes to by its inputs alone, in the units of the us; what only the workbook knows, such as a plan's cost, it may ask. */
export type ByHand = (inputs: Inputs, book: Workbook) => Readonly<Record<string, number>>;

/**
 * Holds a template to what it comes to worked out by hand, at each size and in metric.
 * @param name of its file
 * @param called as it stands in a sentence, such as the table top
 */
export function describeSizes(
  name: string,
  called: string,
  byHand: ByHand,
  { sizes, metric }: { readonly sizes: readonly Size[]; readonly metric: Size[1] },
): void {
  const held = (book: Workbook): void => expectHeld(book, byHand(inputsOf(book), book));
  describe(`${called}, against the same one worked out by hand`, () => {
    it.each(sizes)('%s', (_, entries) => held(bookWith(name, entries)));

    it('in metric, with lengths typed in millimeters', () => {
      const book = bookWith(name, metric, 'metric');
      held(book);
      expect(book.problems()).toEqual([]);
    });
  });
}
