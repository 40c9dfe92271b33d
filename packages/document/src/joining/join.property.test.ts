import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replay } from '../changes/apply.ts';
import { saveText } from '../format/save.ts';
import type { BookDocument, CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { keptByIds } from '../loading/kept-by-ids.ts';
import { loadText } from '../loading/load.ts';
import { BookState } from '../state/state.ts';
import { anyChange, bench } from '../testing/changes.ts';
import { circleThrough } from './circle.ts';
import { joinBooks } from './join.ts';
import { cellsIn, homeKey, namedCells } from './named.ts';

const anyBook = fc
  .array(anyChange, { maxLength: 8 })
  .map((log) => keptByIds(BookState.of(replay(bench, log).document)).document());

/** Whether a book goes round in itself already. */
const goesRound = (book: BookDocument): boolean =>
  circleThrough(book, [...namedCells(book).values()]) !== undefined;

const isSame = (one: CellDocument | undefined, two: CellDocument): boolean =>
  JSON.stringify(one) === JSON.stringify(two);

describe('any two workbooks put together', () => {
  it('J1 J5 make one that opens, in which what was typed is kept and nothing new goes round', () => {
    let tied = 0;
    fc.assert(
      fc.property(anyBook, anyBook, (book, other) => {
        const done = joinBooks(book, other);
        if (!done.ok) throw new Error(done.says);
        const text = saveText(done.document);
        const loaded = loadText(text);
        expect(loaded.ok && saveText(loaded.document)).toBe(text);
        const now = new Map([...cellsIn(done.document)].map((at) => [homeKey(at), at.cell]));
        const theirs = namedCells(other);
        for (const { cell, ...home } of cellsIn(book)) {
          if (cell.formula !== undefined) continue;
          const is = now.get(homeKey(home));
          const leads = cell.name !== undefined && theirs.get(nameKey(cell.name))?.cell.formula;
          if (leads && is?.formula === `=${theirs.get(nameKey(cell.name ?? ''))?.name}`) tied += 1;
          else expect(isSame(is, cell), homeKey(home)).toBe(true);
        }
        // Sheets without a table come whole: what is typed and unnamed stands where it stood.
        const tables = new Set(other.tables.map(({ sheet }) => sheet));
        const came = done.document.sheets.filter(({ id }) => done.sheets.includes(id));
        const plain = other.sheets.filter(({ id }) => !tables.has(id));
        for (const sheet of plain) {
          const values = [...cellsIn({ sheets: [sheet] })].filter(
            ({ cell }) => cell.formula === undefined && cell.name === undefined,
          );
          const copy = came.find((one) =>
            values.every(({ row, column, cell }) =>
              isSame(now.get(homeKey({ sheet: one.id, row, column })), cell),
            ),
          );
          expect(copy, sheet.name).toBeDefined();
        }
        for (const { says, which } of done.told) {
          expect(says).toMatch(/^.{20,}\.$/su);
          expect(which.length).toBeGreaterThan(0);
        }
        if (!goesRound(book) && !goesRound(other)) expect(goesRound(done.document)).toBe(false);
      }),
      { numRuns: 150 },
    );
    expect(tied).toBeGreaterThan(0);
  });
});
