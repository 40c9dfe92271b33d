import { type BookDocument, loadText, saveText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainSentence, specimen } from './specimen.ts';

/** A formula that names a cell by its address. */
const BY_ADDRESS = /"formula": "=[^"]*\b[A-Z]{1,3}\d/i;

/** Whatever the file says, what is opened from it is sound; the rest is one sentence. */
function expectSentenceOrSound(text: string): 'refused' | 'opened' {
  const loaded = loadText(text);
  if (!loaded.ok) {
    expect(loaded.says).toMatch(plainSentence);
    return 'refused';
  }
  const book = Workbook.open(loaded.document);
  for (const sheet of book.sheets()) {
    for (let row = 0; row < Math.min(sheet.rows, 50); row += 1) {
      for (let column = 0; column < Math.min(sheet.columns, 20); column += 1) {
        const { value, shown } = book.cell({ sheet: sheet.id, row, column });
        if (value.kind === 'number') expect(Number.isFinite(value.number)).toBe(true);
        expect(shown.text).not.toMatch(/NaN|Infinity|undefined|\[object/);
      }
    }
  }
  // As saved: an empty list of cells and none are the same row. A reference by address becomes ids.
  const saved = saveText(book.document());
  const given = saveText(loaded.document);
  if (!BY_ADDRESS.test(given)) expect(saved).toBe(given);
  const kept = loadText(saved);
  expect(kept.ok && saveText(Workbook.open(kept.document).document())).toBe(saved);
  const again = loadText(saveText(loaded.document));
  expect(again.ok && saveText(again.document)).toBe(saveText(loaded.document));
  return 'opened';
}

type Path = (string | number)[];

/** Where a value stands in a document, every place of it. */
function pathsIn(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value)
    ? [...value.entries()]
    : Object.entries(value);
  return [path, ...entries.flatMap(([key, part]) => pathsIn(part, [...path, key]))];
}

const PATHS = pathsIn(specimen()).filter((path) => path.length > 0);

const formulaWords = fc.constantFrom(
  '=',
  '(',
  ')',
  '[',
  ']',
  'c2',
  '.r1',
  's1!',
  ':',
  '"',
  '+',
  '-',
  '*',
  '/',
  '1',
  '0.5',
  'seat_width',
  'SUM',
  'IF',
  ',',
  ' ',
  '#REF!',
  '%',
  '^',
  '&',
  '<',
  '{',
  '}',
  '$',
  'TRUE',
  'A1',
  '\u2044',
  '½',
);

/** What might stand in a place where it does not belong, or almost does. */
const intruder = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.array(formulaWords, { minLength: 1, maxLength: 14 }).map((words) => `=${words.join('')}`),
  fc.constantFrom(
    '',
    's1',
    'c1',
    'r1',
    'seat_width',
    '=seat_width',
    -1,
    0,
    1e308,
    -1e-308,
    5e-324,
    true,
  ),
  fc.string({ unit: 'binary', maxLength: 30 }),
);

function put(book: BookDocument, path: Path, value: unknown): void {
  let place: unknown = book;
  for (const step of path.slice(0, -1)) {
    if (typeof place !== 'object' || place === null) return;
    place = (place as Record<string | number, unknown>)[step];
  }
  if (typeof place !== 'object' || place === null) return;
  (place as Record<string | number, unknown>)[path.at(-1) ?? ''] = value;
}

const change = fc.record({ path: fc.constantFrom(...PATHS), value: intruder });

describe('files put together by chance', () => {
  it('a workbook with one to three things wrong opens soundly or is refused with a sentence', () => {
    const seen = { refused: 0, opened: 0 };
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const book = specimen();
        for (const { path, value } of changes) put(book, path, value);
        seen[expectSentenceOrSound(JSON.stringify(book))] += 1;
      }),
      { numRuns: 400 },
    );
    // The test is worth something only while both ends are reached.
    expect(seen.refused).toBeGreaterThan(5);
    expect(seen.opened).toBeGreaterThan(5);
  });

  it('a workbook with a piece of its text gone or doubled', () => {
    const text = saveText(specimen());
    const place = fc.nat({ max: text.length });
    fc.assert(
      fc.property(place, place, fc.boolean(), (a, b, doubled) => {
        const [from, to] = [Math.min(a, b), Math.max(a, b)];
        const piece = text.slice(from, to);
        expectSentenceOrSound(
          text.slice(0, from) + (doubled ? piece + piece : '') + text.slice(to),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('any text, and any JSON, is answered with a sentence', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
        expect(expectSentenceOrSound(text)).toBe('refused');
      }),
      { numRuns: 300 },
    );
  });

  it('any text typed into a cell, of any quantity, leaves the workbook sound', () => {
    const book = Workbook.open(specimen());
    const place = fc.constantFrom(
      { row: 0, column: 1 },
      { row: 1, column: 1 },
      { row: 2, column: 2 },
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.array(formulaWords, { maxLength: 14 }).map((words) => words.join('')),
    );
    fc.assert(
      fc.property(place, text, (at, typed) => {
        const before = book.document();
        const result = book.apply({ do: 'enter', sheet: 's1', cells: [{ ...at, text: typed }] });
        if (!result.ok) {
          expect(result.says).toMatch(plainSentence);
          expect(book.document()).toEqual(before);
          return;
        }
        const saved = saveText(book.document());
        expect(expectSentenceOrSound(saved)).toBe('opened');
        book.undo();
        expect(book.document()).toEqual(before);
      }),
      { numRuns: 300 },
    );
  });
});
