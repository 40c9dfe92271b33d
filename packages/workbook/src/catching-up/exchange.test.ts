import { describe, expect, it } from 'vitest';
import { type BookDocument, joinBooks, loadText, saveText, Workbook } from '../index.ts';
import { shipped, typed } from '../testdata/shipped.ts';
import { type Exchanged, exchanged } from './exchange.ts';

function joined(into: BookDocument, from: BookDocument): BookDocument {
  const done = joinBooks(into, from);
  if (!done.ok) throw new Error(done.says);
  return done.document;
}

function exchange(...given: Parameters<typeof exchanged>): Exchanged {
  const done = exchanged(...given);
  if (!done.ok) throw new Error(done.says);
  return done;
}

const [top, base] = [shipped('top'), shipped('base')];
/** Legs of other sizes, further in, under narrower aprons. */
const other = typed(base, { leg_size: '3 1/2', overhang_end: '10', apron_width: '3' });
const before = { before: top, after: joined(top, base) };

/** All that named cells show, by their names. */
function shownIn(document: BookDocument): ReadonlyMap<string, string> {
  const book = Workbook.open(document);
  return new Map(book.names().map(({ name }) => [name, book.named(name)?.shown.text ?? '']));
}

describe('sheets in the place of others', () => {
  it('J8 are what they are where they come in first, with what was typed into the top', () => {
    const entries = { top_length: '84', species: 'black cherry', dry_humidity: '30' };
    const done = exchange(before, typed(before.after, entries), other);
    expect(shownIn(done.document)).toEqual(shownIn(joined(typed(top, entries), other)));
    expect(Workbook.open(done.document).problems()).toEqual([]);
    expect([done.carried, done.lost, done.says]).toEqual([[], [], []]);
    const loaded = loadText(saveText(done.document));
    expect(loaded.ok).toBe(true);
  });

  it('J8 keep what was typed under a name that both have, and tell what goes', () => {
    const mine = Workbook.open(typed(before.after, { apron_width: '4 1/2' }));
    const at = mine.named('leg_size')?.at;
    if (at === undefined) throw new Error('no leg');
    const cells = [{ row: at.row, column: 3, text: 'Ask about these.' }];
    expect(mine.apply({ do: 'enter', sheet: at.sheet, cells }).ok).toBe(true);
    const done = exchange(before, mine.document(), other);
    expect(shownIn(done.document).get('apron_width')).toBe('4 1/2');
    expect(shownIn(done.document).get('leg_size')).toBe('3 1/2');
    expect(done.carried).toEqual([expect.stringMatching(/4 1\/2/)]);
    expect(done.lost).toEqual([expect.stringContaining('Ask about these.')]);
  });

  it('J8 can be exchanged again, and back again', () => {
    const once = exchange(before, before.after, other);
    const twice = exchange(once.step, once.document, base);
    expect(shownIn(twice.document)).toEqual(shownIn(before.after));
    expect(twice.document.sheets.map(({ name }) => name)).toEqual(
      before.after.sheets.map(({ name }) => name),
    );
  });

  it('J8 leave sheets of the maker alone, and what these take by name goes on', () => {
    const book = Workbook.open(before.after);
    const sheet = 'mine';
    const own = { id: sheet, name: 'Mine', columns: [{ id: 'c1' }], rows: [{ id: 'r1' }] };
    expect(book.apply({ do: 'addSheet', at: 0, sheet: own }).ok).toBe(true);
    const cells = [{ row: 0, column: 0, text: '=leg_size*4' }];
    expect(book.apply({ do: 'enter', sheet, cells }).ok).toBe(true);
    const done = exchange(before, book.document(), other);
    const after = Workbook.open(done.document);
    expect(after.cell({ sheet, row: 0, column: 0 }).shown.text).toBe('14');
    expect(after.problems()).toEqual([]);
  });

  it('J8 come into a workbook that counts in millimeters by now', () => {
    const book = Workbook.open(typed(before.after, { top_length: '84' }));
    expect(book.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    const done = exchange(before, book.document(), other);
    const shown = shownIn(done.document);
    expect([shown.get('top_length'), shown.get('leg_size')]).toEqual(['2133.6', '88.9']);
    expect(Workbook.open(done.document).problems()).toEqual([]);
  });

  it('J8 are refused in a workbook that the others never came into', () => {
    const done = exchanged(before, shipped('bookcase'), other);
    expect(done).toMatchObject({ ok: false, says: expect.stringContaining('did not come of one') });
  });
});
