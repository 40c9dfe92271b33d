import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookCard } from './book-card.ts';

const TEMPLATES = join(import.meta.dirname, '../../../templates');

function opened(key: string): Workbook {
  const loaded = loadText(readFileSync(join(TEMPLATES, `${key}.json`), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

function set(book: Workbook, name: string, text: string): void {
  const at = book.find(name);
  if (at === undefined) throw new Error(`no cell named ${name}`);
  const done = book.apply({
    do: 'enter',
    sheet: at.sheet,
    cells: [{ row: at.row, column: at.column, text }],
  });
  if (!done.ok) throw new Error(done.says);
}

describe('the card of a workbook', () => {
  it('says what the workbook comes to, and follows its inputs', () => {
    const book = opened('coffee-table');
    expect(bookCard(book).card).toMatchObject({
      size: '48 × 24 × 18 in',
      woods: ['black cherry'],
      joints: ['mortise and tenon'],
      gives: ['cut list', 'buying list', 'joints to mark out', 'price'],
    });
    set(book, 'top_length', '50');
    set(book, 'species', 'white oak');
    const { card, longest, picture } = bookCard(book);
    expect(card.size).toBe('50 × 24 × 18 in');
    expect(longest).toBeCloseTo(50 * 25.4, 9);
    expect(card.woods).toEqual(['white oak']);
    expect(picture).toContain('aria-label="Coffee table, 50 × 24 × 18 in"');
  });

  it('draws a round top in fewer corners than the drawing page: a list shows many of them', () => {
    const { picture = '' } = bookCard(opened('round-table'));
    expect(picture.length).toBeLessThan(80_000);
    expect(picture).not.toContain('NaN');
  });

  it('takes sheet goods for wood and drawer slides for none, and no joint that is not made', () => {
    expect(bookCard(opened('desk')).card.woods).toEqual(['black cherry', 'birch plywood']);
    const table = opened('dining-table');
    expect(bookCard(table).card.joints).toEqual([]);
  });

  it('has main results and no picture where nothing is drawn', () => {
    const { card, longest, picture } = bookCard(opened('cost'));
    expect(picture).toBeUndefined();
    expect(longest).toBeUndefined();
    expect(card.size).toBeUndefined();
    expect(card.results[0]?.[0]).toBe('Price to quote');
    expect(card.results[0]?.[1]).toMatch(/^\$[\d,]+\.\d\d$/);
    expect(card.about).toMatch(/^What any work costs .*your hour\.$/);
  });
});
