import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saveText } from '../format/save.ts';
import { type CellDocument, cellSchema } from '../format/schema.ts';
import { counted, savedLetters } from '../format/size.ts';
import { documentOf } from '../testing/sample.ts';
import { lettersAtMost, lettersNow } from './letters.ts';
import { BookState } from './state.ts';

const word = fc.string({ unit: 'binary', maxLength: 8 });
const cell: fc.Arbitrary<CellDocument> = fc
  .record(
    {
      value: fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), word, fc.boolean()),
      typed: word,
      formula: word.map((text) => `=${text}`),
      remark: word,
      allow: fc.record({ list: fc.array(word, { maxLength: 3 }), min: fc.integer() }),
      style: fc.constant({ bold: true as const }),
    },
    { requiredKeys: [] },
  )
  .filter((one) => cellSchema.safeParse(one).success);

describe('the length of what will be saved', () => {
  it('L2 is counted exactly without writing it, and never taken for less', () => {
    const line = fc.array(fc.option(cell), { maxLength: 3 });
    const flags = fc.record(
      { hidden: fc.constant(true as const), group: fc.integer({ min: 1, max: 3 }) },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(
        fc.array(line, { maxLength: 4 }),
        flags,
        fc.boolean(),
        word,
        (grid, row, bare, title) => {
          const document = documentOf({ sheets: { 'One "1"': grid, None: [] } });
          const [first] = document.sheets[0]?.rows ?? [];
          if (first !== undefined)
            Object.assign(first, row, bare ? { cells: first.cells ?? {} } : {});
          const book = { ...document, title };
          const length = saveText(book).length;
          expect(savedLetters(counted(book))).toBe(length);
          const state = BookState.of(book);
          expect(lettersNow(state)).toBe(length);
          expect(lettersAtMost(state)).toBeGreaterThanOrEqual(length);
        },
      ),
    );
  });
});
