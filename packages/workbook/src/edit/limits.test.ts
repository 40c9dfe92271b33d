import {
  type BookDocument,
  counted,
  type Edit,
  LIMITS,
  loadText,
  savedLetters,
  saveText,
} from '@kerfbook/document';
import { documentOf, type Sketch } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectLaw, openLong } from '../testing/law.ts';
import { beginLong } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const bookWith = (
  cells: readonly (readonly Sketch[])[],
  more: Partial<BookDocument> = {},
): Workbook => openLong({ ...documentOf({ sheets: { One: cells, Two: [[1]] } }), ...more });

const enter = (text: string, row = 0, column = 0): Edit => ({
  do: 'enter',
  sheet: 's1',
  cells: [{ row, column, text }],
});

/** `=SUM(B9,B9,…)` of so many letters. */
const sumOf = (reference: string, letters: number): string => {
  const room = letters - '=SUM()'.length;
  const count = Math.floor((room + 1) / (reference.length + 1));
  return `=SUM(${Array(count).fill(reference).join(',')})`;
};

describe('what is accepted can be opened again', () => {
  it.each([
    ['a typed formula of 2,000 letters that makes the sheet larger', sumOf('B9', 2000), 'taken'],
    ['ranges of another sheet', sumOf('Two!A1:B2', 2000), 'taken'],
    ['3,600 letters, which are kept and not computed', sumOf('B9', 3600), 'taken'],
    ['as many letters as a cell holds', sumOf('B9', 8192), 'taken'],
    ['whole columns', sumOf('B:B', 8192), 'taken'],
    ['fixed references', sumOf('$B$9', 8192), 'taken'],
    ['words of as many letters as a cell holds', 'x'.repeat(8192), 'taken'],
    ['one more', 'x'.repeat(8193), 'refused'],
    ['a formula of one more', `=${'1'.repeat(8192)}`, 'refused'],
  ])('L1 %s', (_, text, outcome) => {
    expect(expectLaw(bookWith([[1, 2]]), enter(text))).toBe(outcome);
  });

  it('L1 whole formulas that are placed', () => {
    const place = (formula: string): Edit => ({
      do: 'place',
      sheet: 's1',
      cells: [{ row: 0, column: 0, cell: { formula } }],
    });
    expect(expectLaw(bookWith([[1]]), place(sumOf('B9', 8192)))).toBe('taken');
    expect(expectLaw(bookWith([[1]]), place(sumOf('B9', 8196)))).toBe('refused');
  });

  /** A formula in saved form of nearly as many letters as are kept, with a part at its end. */
  const keptWith = (part: string, repeated = '1'): string => {
    const count = Math.floor((LIMITS.kept - part.length - 7) / (repeated.length + 1));
    return `=SUM(${Array(count).fill(repeated).join(',')},${part})`;
  };

  it('L1 a formula that a move makes too long to be kept stays, and so do the cells', () => {
    const document = documentOf({
      sheets: { One: [[keptWith('[c1.r2]')], [5]], Two: [[1]] },
    });
    const move: Edit = {
      do: 'moveCells',
      sheet: 's1',
      from: { row: 0, column: 0, rows: 1, columns: 1 },
      to: { sheet: 's2', row: 0, column: 0 },
    };
    expect(expectLaw(openLong(document), move)).toBe('refused');
    expect(openLong(document).apply(move)).toMatchObject({ code: 'W20' });
    const follow: Edit = {
      do: 'moveCells',
      sheet: 's1',
      from: { row: 1, column: 0, rows: 1, columns: 1 },
      to: { sheet: 's2', row: 0, column: 0 },
    };
    expect(expectLaw(openLong(document), follow)).toBe('refused');
  });

  it('L1 a formula or a sentence that a longer name makes too long', () => {
    const named = { value: 3, name: 'nn' };
    const rename: Edit = { do: 'renameName', from: 'nn', to: 'n'.repeat(100) };
    expect(expectLaw(bookWith([[named, keptWith('nn')]]), rename)).toBe('refused');
    const says = `{nn}${'x'.repeat(8188)}`;
    const check = { id: 'k1', name: 'K', formula: '=nn>1', severity: 'care', says } as const;
    const book = bookWith([[named]], { checks: [check] });
    expect(expectLaw(book, rename)).toBe('refused');
    expect(book.apply(rename)).toMatchObject({ code: 'W22' });
    const checked = { ...check, says: '{nn}', formula: keptWith('nn') };
    expect(expectLaw(bookWith([[named]], { checks: [checked] }), rename)).toBe('refused');
  });

  it('L3 a longer name that would keep a formula from computing is refused, a short one is not', () => {
    const sum = `=SUM(${Array(600).fill('nn').join(',')})`;
    const book = bookWith([[{ value: 3, name: 'nn' }, sum]]);
    expect(book.value({ sheet: 's1', row: 0, column: 1 })).toMatchObject({ number: 1800 });
    expect(expectLaw(book, { do: 'renameName', from: 'nn', to: 'long_name' })).toBe('refused');
    expect(book.apply({ do: 'renameName', from: 'nn', to: 'long_name' })).toMatchObject({
      code: 'W23',
      says: expect.stringContaining('One!B1'),
    });
    expect(expectLaw(book, { do: 'renameName', from: 'nn', to: 'mm' })).toBe('taken');
  });

  it('L3 a formula computes on, wherever its cells go and whatever their sheet is called', () => {
    const book = bookWith([[sumOf('[s2!c1.r1]', 7300), 1]]);
    const at = { sheet: 's1', row: 0, column: 1 };
    const typed = bookWith([[1]]);
    expect(typed.apply(enter(sumOf('Two!A1', 2000)))).toMatchObject({ ok: true });
    const value = typed.value({ ...at, column: 0 });
    expect(value).toMatchObject({ kind: 'number' });
    const rename: Edit = {
      do: 'renameSheet',
      sheet: 's2',
      name: "the sheet's longest name of all",
    };
    expect(expectLaw(typed, rename)).toBe('taken');
    const insert: Edit = {
      do: 'insertRows',
      sheet: 's2',
      at: 0,
      rows: Array.from({ length: 900 }, (_, i) => ({ id: `x${i}` })),
    };
    expect(expectLaw(typed, insert)).toBe('taken');
    expect(typed.value({ ...at, column: 0 })).toEqual(value);
    expect(book.value(at)).toMatchObject({ number: 1 });
  });

  it('L1 a formula in a file that is too long by ids stays as it was written', () => {
    const formula = sumOf('A1', LIMITS.kept);
    const document = documentOf({ sheets: { One: [[1, formula]] } });
    const loaded = loadText(saveText(document));
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(book.document()).toEqual(document);
    expect(expectLaw(book, enter('2'))).toBe('taken');
  });

  const MANY = { checks: LIMITS.checks + 1, tables: LIMITS.tables + 1 };
  it.each([
    [
      'checks',
      {
        do: 'setChecks',
        checks: Array.from({ length: MANY.checks }, (_, i) => ({
          id: `k${i}`,
          name: 'K',
          formula: '=1',
          severity: 'care',
          says: 'No.',
        })),
      },
    ],
    [
      'tables',
      {
        do: 'setTables',
        tables: Array.from({ length: MANY.tables }, (_, i) => ({
          id: `t${i}`,
          kind: 'parts',
          sheet: 's1',
          header: 'r1',
          last: 'r1',
        })),
      },
    ],
    [
      'rows',
      {
        do: 'insertRows',
        sheet: 's1',
        at: 0,
        rows: Array.from({ length: LIMITS.rows }, (_, i) => ({ id: `x${i}` })),
      },
    ],
    [
      'columns',
      {
        do: 'insertColumns',
        sheet: 's1',
        at: 0,
        columns: Array.from({ length: LIMITS.columns }, (_, i) => ({ id: `x${i}` })),
      },
    ],
    ['letters of a sheet’s name', { do: 'renameSheet', sheet: 's1', name: 'x'.repeat(32) }],
    [
      'letters of a remark',
      {
        do: 'describeCells',
        sheet: 's1',
        cells: [{ row: 0, column: 0, traits: { remark: 'x'.repeat(8193) } }],
      },
    ],
    [
      'choices',
      {
        do: 'describeCells',
        sheet: 's1',
        cells: [{ row: 0, column: 0, traits: { allow: { list: Array(501).fill('x') } } }],
      },
    ],
    [
      'letters of a choice',
      {
        do: 'describeCells',
        sheet: 's1',
        cells: [{ row: 0, column: 0, traits: { allow: { list: ['x'.repeat(8193)] } } }],
      },
    ],
    ['letters of a title', { do: 'setBook', set: { title: 'x'.repeat(201) } }],
    [
      'letters of a name',
      { do: 'nameCell', at: { sheet: 's1', row: 0, column: 0 }, name: 'x'.repeat(101) },
    ],
    [
      'letters of a check’s sentence',
      {
        do: 'setChecks',
        checks: [{ id: 'k', name: 'K', formula: '=1', severity: 'care', says: 'x'.repeat(8193) }],
      },
    ],
    [
      'letters of a check’s formula',
      {
        do: 'setChecks',
        checks: [
          {
            id: 'k',
            name: 'K',
            formula: `=${'1'.repeat(LIMITS.kept)}`,
            severity: 'care',
            says: 'x',
          },
        ],
      },
    ],
  ] satisfies [string, Edit][] as [string, Edit][])('L1 one too many: %s', (_, edit) => {
    expect(expectLaw(bookWith([[1]]), edit)).toBe('refused');
  });
});

/** A workbook whose saved text is so many letters short of the most. */
function nearlyFull(short: number): Workbook {
  const cell = 'x'.repeat(8000);
  const rows: Sketch[][] = Array.from({ length: 2500 }, () => [cell]);
  const document = documentOf({ sheets: { One: [[1, '=[c1.r1]*2'], ...rows], Two: [[1]] } });
  const [sheet] = document.sheets;
  const missing = (): number => LIMITS.book - savedLetters(counted(document)) - short;
  while (missing() > 8100) {
    sheet?.rows.push({ id: `x${sheet.rows.length}`, cells: { c1: { value: cell } } });
  }
  const about = { ...document, about: '' };
  const gap = LIMITS.book - saveText(about).length - short;
  return openLong({ ...about, about: 'z'.repeat(gap) });
}

describe('a workbook of 20 MB', () => {
  it('L2 takes what still fits and refuses one letter more, and a paste as well as its parts', () => {
    const book = nearlyFull(100);
    expect(saveText(book.document()).length).toBe(LIMITS.book - 100);
    const cell = (letters: number): Edit => enter('w'.repeat(letters), 1, 1);
    // In its row a cell takes 23 letters beside its own: `, "c2": { "value": "" }`.
    expect(book.apply(cell(78))).toMatchObject({
      ok: false,
      code: 'W21',
      says: expect.stringContaining('20.01 MB'),
    });
    expect(book.apply(cell(77))).toMatchObject({ ok: true });
    const text = saveText(book.document());
    expect(text.length).toBe(LIMITS.book);
    expect(loadText(text).ok).toBe(true);
    expect(book.apply(enter('11'))).toMatchObject({ ok: false, code: 'W21' });
    expect(book.value({ sheet: 's1', row: 0, column: 1 })).toEqual({ kind: 'number', number: 2 });
    const long = beginLong(book);
    expect(long.apply(enter('2'))).toMatchObject({ ok: true });
    expect(long.apply(enter('more', 5, 5))).toMatchObject({ ok: false, code: 'W21' });
    long.drop();
    expect(saveText(book.document())).toBe(text);
    book.undo();
    book.redo();
    expect(saveText(book.document())).toBe(text);
  });

  it('L2 a file that would be longer when it is saved again is refused', () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => ({ id: `r${i}` }));
    const document = documentOf({ sheets: { One: [[1]] } });
    const sheets = Array.from({ length: 33 }, (_, i) => ({
      id: `s${i}`,
      name: `S${i}`,
      columns: [{ id: 'c1' }],
      rows: rows.map(({ id }) => ({ id, cells: { c1: { value: 1e20 } } })),
    }));
    const text = JSON.stringify({ ...document, sheets });
    expect(text.length).toBeLessThan(LIMITS.book);
    expect(loadText(text)).toMatchObject({
      ok: false,
      code: 'D7',
      says: expect.stringContaining('MB'),
    });
  });

  it('L2 is counted the same, whatever was done before', () => {
    const typed = fc
      .record({ row: fc.nat(4), column: fc.integer({ min: 1, max: 4 }), size: fc.nat(900) })
      .map((one) => enter('q'.repeat(one.size), one.row, one.column));
    const step: fc.Arbitrary<Edit> = fc.oneof(
      { weight: 8, arbitrary: typed },
      fc.record({
        do: fc.constant('deleteRows' as const),
        sheet: fc.constant('s1'),
        at: fc.nat(3),
        count: fc.constant(1),
      }),
      fc.record({
        do: fc.constant('hideRows' as const),
        sheet: fc.constant('s1'),
        rows: fc.constant([0]),
        hidden: fc.boolean(),
      }),
      fc.record({
        do: fc.constant('deleteColumns' as const),
        sheet: fc.constant('s1'),
        at: fc.constant(1),
        count: fc.constant(1),
      }),
      fc.record({
        do: fc.constant('setBook' as const),
        set: fc.record({ about: fc.nat(400).map((n) => 'u'.repeat(8192 - n)) }),
      }),
      fc.record({
        do: fc.constant('renameSheet' as const),
        sheet: fc.constant('s1'),
        name: fc.constantFrom('One', 'A much longer name'),
      }),
    );
    let refused = 0;
    fc.assert(
      fc.property(
        fc.array(fc.oneof({ weight: 5, arbitrary: step }, fc.constant('undo' as const)), {
          minLength: 4,
          maxLength: 8,
        }),
        (steps) => {
          const book = nearlyFull(300);
          let size = savedLetters(counted(book.document()));
          for (const one of steps) {
            const before = size;
            const result = one === 'undo' ? book.undo() : book.apply(one);
            size = savedLetters(counted(book.document()));
            expect(size).toBeLessThanOrEqual(LIMITS.book);
            if (result?.ok === false && result.code === 'W21') {
              refused += 1;
              expect(size).toBe(before);
            }
          }
          while (book.canUndo) book.undo();
          expect(savedLetters(counted(book.document()))).toBe(LIMITS.book - 300);
        },
      ),
      { numRuns: 5, endOnFailure: true },
    );
    expect(refused).toBeGreaterThan(0);
  });
});
