import { readdirSync } from 'node:fs';
import { loadValue } from '@kerfbook/document';
import { expect, it } from 'vitest';
import { notCarried, ReaderBook } from './reader-book.ts';
import { shipped, TEMPLATES } from './testdata/shipped.ts';
import { Workbook } from './workbook.ts';

const cellsOf = (book: Workbook) =>
  book.sheets().flatMap(({ id, rows, columns }) =>
    Array.from({ length: rows * columns }, (_, i) => ({
      sheet: id,
      row: Math.floor(i / columns),
      column: i % columns,
    })),
  );

function expectAlike(reader: ReaderBook, book: Workbook): void {
  for (const at of cellsOf(book)) {
    expect(reader.value(at), JSON.stringify(at)).toEqual(book.value(at));
    expect(reader.cell(at).shown).toEqual(book.cell(at).shown);
  }
  expect(reader.checks()).toEqual(book.checks());
}

const keys = readdirSync(TEMPLATES).map((name) => name.replace('.json', ''));

it.each(keys)('A4 N7 readers of %s see what its maker sees, at any size, in both units', (key) => {
  const document = shipped(key);
  expect(notCarried(document)).toBeUndefined();
  const book = Workbook.open(document);
  const reader = ReaderBook.open(book.document());
  expectAlike(reader, book);
  const inputs = book
    .names()
    .map(({ name }) => book.named(name))
    .filter(
      (cell) =>
        cell?.role === 'input' && cell.value.kind === 'number' && cell.allow?.max !== undefined,
    );
  for (const cell of inputs.slice(0, 3)) {
    if (cell?.allow?.max === undefined) continue;
    const at = cell.at;
    const text = String(cell.allow.min ?? cell.allow.max);
    const taken = reader.enter(at, text);
    const applied = book.apply({
      do: 'enter',
      sheet: at.sheet,
      cells: [{ row: at.row, column: at.column, text }],
    });
    expect(applied.ok).toBe(true);
    // What an open workbook takes with a sign, a page for readers refuses.
    if (book.cell(at).problem !== undefined) expect(taken?.says).toBe(book.cell(at).problem?.says);
    else expect(taken).toBeUndefined();
  }
  expectAlike(reader, book);
  const to = book.units === 'us' ? 'metric' : 'us';
  reader.turnTo(to);
  expect(book.apply({ do: 'changeUnits', to }).ok).toBe(true);
  expectAlike(reader, book);
  expect(loadValue(reader.document()).ok).toBe(true);
});

const small = (formula: string) =>
  loadValue({
    kerfbook: 8,
    title: 'Invented',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Sizes',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: [
          {
            id: 'r1',
            cells: {
              c1: { value: 'Length' },
              c2: {
                value: 24,
                quantity: 'length',
                role: 'input',
                name: 'long',
                allow: { min: 12, max: 48 },
              },
            },
          },
          { id: 'r2', cells: { c2: { formula } } },
        ],
      },
    ],
    checks: [],
    tables: [],
  });

it('N4 an entry outside the range, in words or blank is refused in one sentence, and nothing changes', () => {
  const loaded = small('=long*2');
  if (!loaded.ok) throw new Error(loaded.says);
  const book = ReaderBook.open(loaded.document);
  const at = { sheet: 's1', row: 0, column: 1 };
  expect(book.enter(at, '200')?.says).toMatch(/200.*12 to 48 in/);
  expect(book.enter(at, 'very long')?.says).toMatch(/\./);
  expect(book.enter(at, '')?.says).toMatch(/blank/);
  expect(book.enter(at, '=1+1')?.says).toMatch(/no formula/);
  expect(book.value(at)).toEqual({ kind: 'number', number: 24 });
  expect(book.enter(at, '3\' 6"')).toBeUndefined();
  expect(book.value({ sheet: 's1', row: 1, column: 1 })).toEqual({ kind: 'number', number: 84 });
  expect(book.pull(at)).toMatchObject({ low: 12, high: 48, value: 42 });
});

it('A4 says which formulas it cannot carry', () => {
  const loaded = small('=OFFSET(B1,0,0)');
  if (!loaded.ok) throw new Error(loaded.says);
  expect(notCarried(loaded.document)?.left).toEqual([
    { where: 'Sizes!B2', word: expect.stringMatching(/OFFSET/i) },
  ]);
});
