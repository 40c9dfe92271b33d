import { saveText } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, documentOf, textOf } from '../books.ts';
import { checkOf } from '../dining-table-book.ts';

/** A check that has to fire: its id, the entries that make it, and words of its sentence, in any case. */
export type Fires = readonly [id: string, entries: Readonly<Record<string, string>>, words: string];

/**
 * What holds of every template that ships: its scenario is invented and said to be, it is kept in the form that
 * saving gives, it opens without an error and with every check passing, and its checks fire and clear again.
 * @param name of its file
 * @param called as it stands in a sentence, such as the bench
 */
export function describeBookItself(name: string, called: string, fires: readonly Fires[]): void {
  describe(`${called} itself`, () => {
    it('says that its scenario is invented, and is kept in the form that saving gives', () => {
      const document = documentOf(name);
      expect(document.about).toContain('invented');
      expect(textOf(name)).toMatch(/"An? invented /);
      expect(saveText(document)).toBe(textOf(name));
    });

    it('opens without an error and with every check passing', () => {
      const book = bookWith(name, {});
      expect(book.problems()).toEqual([]);
      expect(book.checks().filter(({ state }) => state !== 'pass')).toEqual([]);
    });

    it.each(fires)('check %s fires with its numbers and clears again', (id, entries, words) => {
      const book = bookWith(name, entries);
      expect(checkOf(book, id)?.state).toMatch(/stop|care/);
      expect(checkOf(book, id)?.says.toLowerCase()).toContain(words.toLowerCase());
      while (book.canUndo) book.undo();
      expect(checkOf(book, id)?.state).toBe('pass');
    });
  });
}
