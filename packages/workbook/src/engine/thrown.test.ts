import { type Edit, loadText, saveText } from '@kerfbook/document';
import { HyperFormula } from 'hyperformula';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HYPERFORMULA } from '../testing/engines.ts';
import { beginLong, bookOf as bookOn, shows, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const bookOf = (sketch: Parameters<typeof bookOn>[0]) => bookOn(sketch, HYPERFORMULA);

/** The engine throws at the calls with these numbers. */
let throwsAt: readonly number[] = [];
/** The call with this number, and again where the edit is tried a second time after so many between. */
const twice = (n: number, between: number) => [n, n + between + n];
let calls = 0;
const methods = HyperFormula.prototype as unknown as Record<string, unknown>;
const CALLED = /^(add|remove|set|rename|change|suspend|resume|getCellValue|getSheetId|isCellPart)/;
const own = Object.entries(Object.getOwnPropertyDescriptors(methods)).filter(
  ([name, { value }]) => typeof value === 'function' && CALLED.test(name),
);

beforeAll(() => {
  for (const [name, { value }] of own) {
    methods[name] = function faulty(this: unknown, ...words: unknown[]) {
      calls += 1;
      if (throwsAt.includes(calls)) throw new Error(`${name} was made to throw`);
      return (value as (...words: unknown[]) => unknown).apply(this, words);
    };
  }
});
afterAll(() => {
  for (const [name, descriptor] of own) Object.defineProperty(methods, name, descriptor);
});

const start = () =>
  bookOf({
    sheets: {
      One: [
        [{ value: 84, quantity: 'length', name: 'top' }, '=top/2', '=[c2.r1]+[c1.r2]'],
        [2, '=SUM([c1.r1]:[c1.r3])', '=[s2!c1.r1]'],
        [3, { formula: '=[c1.r3]*top', role: 'calculated', override: { value: 7 } }, 'words'],
      ],
      Two: [
        ['=SUM([s1!c1.r1]:[c2.r3])', '=ROW([c1.r1])'],
        ['=top', 5],
        [1, '=SORT([c2.r1]:[c2.r2])'],
      ],
    },
    checks: [{ id: 'k1', name: 'A', formula: '=top>[s1!c1.r2]', severity: 'care', says: '{top}' }],
  });

const sheet = 's1';
const at = { row: 0, column: 0 };
const EDITS: readonly Exclude<Edit, { do: 'batch' }>[] = [
  {
    do: 'enter',
    sheet,
    cells: [
      { ...at, text: '90' },
      { row: 5, column: 4, text: '=A1+1' },
    ],
  },
  { do: 'clear', sheet, cells: [at, { row: 1, column: 0 }] },
  { do: 'setCells', sheet, cells: [{ row: 1, column: 0, cell: { value: 9, name: 'low' } }] },
  { do: 'place', sheet, cells: [{ row: 6, column: 1, cell: { formula: '=B1' } }] },
  {
    do: 'moveCells',
    sheet,
    from: { ...at, rows: 2, columns: 1 },
    to: { sheet: 's2', row: 4, column: 1 },
  },
  { do: 'restore', sheet, cells: [{ row: 2, column: 1 }] },
  { do: 'describeCells', sheet, cells: [{ ...at, traits: { quantity: null } }] },
  { do: 'nameCell', at: { sheet, row: 1, column: 0 }, name: 'low' },
  { do: 'renameName', from: 'top', to: 'high' },
  { do: 'insertRows', sheet, at: 1, rows: [{ id: 'r8', cells: { c1: { value: 1 } } }] },
  { do: 'deleteRows', sheet, at: 0, count: 2 },
  { do: 'insertColumns', sheet, at: 1, columns: [{ id: 'c8' }] },
  { do: 'deleteColumns', sheet, at: 0, count: 1 },
  { do: 'setColumn', sheet, column: 1, width: 90 },
  { do: 'freeze', sheet, columns: 1 },
  { do: 'hideColumns', sheet, columns: [1], hidden: true },
  { do: 'hideRows', sheet, rows: [1], hidden: true },
  { do: 'groupRows', sheet, rows: [{ row: 1, group: 1 }] },
  {
    do: 'addSheet',
    at: 0,
    sheet: {
      id: 's3',
      name: 'Three',
      columns: [{ id: 'c1' }],
      rows: [{ id: 'r1', cells: { c1: { formula: '=top' } } }],
    },
  },
  { do: 'removeSheet', sheet: 's2' },
  { do: 'renameSheet', sheet, name: 'First' },
  { do: 'moveSheet', sheet, to: 1 },
  {
    do: 'setChecks',
    checks: [{ id: 'k2', name: 'B', formula: '=top>1', severity: 'stop', says: 'No.' }],
  },
  { do: 'setTables', tables: [{ id: 't1', kind: 'woods', sheet: 's2', header: 'r1', last: 'r2' }] },
  { do: 'setBook', set: { currency: 'EUR' } },
  { do: 'become', book: bookOf({ sheets: { Other: [[1, '=[c1.r1]+1']] } }).document() },
];

const valuesOf = (book: Workbook) =>
  book
    .sheets()
    .map(({ id, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) =>
        book.value({ sheet: id, row: Math.floor(i / columns), column: i % columns }),
      ),
    );
const seen = (book: Workbook) => ({
  text: saveText(book.document()),
  values: valuesOf(book),
  checks: book.checks(),
  names: book.names(),
  clashes: book.clashes(),
  undo: [book.canUndo, book.canRedo],
});
const reopened = (book: Workbook): Workbook => {
  const loaded = loadText(saveText(book.document()));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document, { engine: HYPERFORMULA });
};

/** Calls that building an engine anew for a workbook takes. */
function between(book: Workbook): number {
  calls = 0;
  book.recalculate();
  return calls;
}

/** Does something with the engine throwing at an early or a late call, up to one it does not reach. */
function thrownEverywhere(make: () => Workbook, act: (book: Workbook) => unknown): number {
  let thrown = 0;
  for (let n = 1; n < 2_000; n = Math.ceil(n * 1.7)) {
    const book = make();
    const before = seen(book);
    const anew = between(book);
    calls = 0;
    throwsAt = twice(n, anew);
    const result = act(book) as { ok: boolean; code?: string } | undefined;
    const reached = calls >= n;
    throwsAt = [];
    if (!reached) return thrown;
    book.goOn();
    // What can be told in a sentence of the cell is no reason to refuse.
    if (result?.ok === false) {
      thrown += 1;
      expect(result).toMatchObject({
        code: 'W19',
        says: expect.stringMatching(/Nothing was changed/),
      });
      expect(seen(book)).toEqual(before);
      expect(act(book)).not.toMatchObject({ ok: false });
      book.goOn();
    }
    if (n === 1) expect(valuesOf(book)).toEqual(valuesOf(reopened(book)));
  }
  throw new Error('there was no end of calls');
}

describe('an engine that throws', () => {
  it.each(EDITS.map((edit) => [edit.do, edit] as const))(
    'A3 leaves everything as it was in the midst of: %s',
    (_, edit) => {
      thrownEverywhere(start, (book) => book.apply(edit));
    },
  );

  it.each(
    ['enter', 'moveCells', 'deleteRows', 'removeSheet', 'setChecks', 'become'].flatMap((kind) =>
      EDITS.filter((edit) => edit.do === kind).map((edit) => [kind, edit] as const),
    ),
  )('A3 leaves everything as it was while it is undone and done again: %s', (_, edit) => {
    const done = () => {
      const book = start();
      type(book, 'Two!C1', '7');
      expect(book.apply(edit).ok).toBe(true);
      return book;
    };
    thrownEverywhere(done, (book) => book.undo());
    const undone = () => {
      const book = done();
      book.undo();
      return book;
    };
    thrownEverywhere(undone, (book) => book.redo());
  });

  it('A3 is met at all by the calls that are made to throw', () => {
    const [enter] = EDITS;
    expect(thrownEverywhere(start, (book) => enter && book.apply(enter))).toBeGreaterThan(2);
  });

  it('A3 tries an edit once more with an engine that was built anew', () => {
    const [enter] = EDITS;
    for (const n of [1, 3, 9]) {
      const book = start();
      calls = 0;
      throwsAt = [n];
      const result = enter && book.apply(enter);
      throwsAt = [];
      expect(result).toMatchObject({ ok: true, structure: true });
      expect(book.pending).toBe(false);
      expect(seen(book).values).toEqual(seen(reopened(book)).values);
      book.undo();
      expect(saveText(book.document())).toBe(saveText(start().document()));
    }
  });

  it('A3 takes back what came before it in several edits as one', () => {
    const edits: Edit = {
      do: 'batch',
      edits: EDITS.slice(0, 12).filter((one) => one.do !== 'renameName'),
    };
    const some: Edit = {
      do: 'batch',
      edits: [edits.edits[0], edits.edits[8]].flatMap((one) => one ?? []),
    };
    expect(thrownEverywhere(start, (book) => book.apply(some))).toBeGreaterThan(5);
  });

  it('A3 leaves nothing of a long edit, also where dropping it throws', () => {
    const [one, , two] = EDITS;
    let dropped = 0;
    for (let n = 1; ; n = Math.ceil(n * 1.4)) {
      const book = start();
      const before = seen(book);
      const long = beginLong(book);
      for (const part of [one, two]) if (part !== undefined) expect(long.apply(part).ok).toBe(true);
      calls = 0;
      throwsAt = [n];
      long.drop();
      const reached = calls >= n;
      throwsAt = [];
      book.goOn();
      expect(seen(book)).toEqual(before);
      if (!reached) break;
      dropped += 1;
    }
    expect(dropped).toBeGreaterThan(5);
  });

  it('A3 works out what was left where going on with it throws', () => {
    const make = () => {
      const book = bookOf({
        sheets: { One: [[1], ...Array.from({ length: 30 }, (_, i) => [`=[c1.r${i + 1}]+1`])] },
      });
      book.pace = () => false;
      type(book, 'A1', '5');
      book.pace = undefined;
      return book;
    };
    expect(make().pending).toBe(true);
    for (let n = 1; ; n = Math.ceil(n * 1.4)) {
      const book = make();
      calls = 0;
      throwsAt = [n];
      book.goOn();
      const reached = calls >= n;
      throwsAt = [];
      book.goOn();
      expect(shows(book, 'A31')).toBe('35');
      if (!reached) return;
    }
  });

  it('A3 A1 goes on after a sheet that is not there was named twice in one cell', () => {
    const book = start();
    type(book, 'A2', '=Brif!B4');
    type(book, 'A2', '=Brif!B4');
    type(book, 'A2', '=SUM(Brif!A:A)');
    expect(shows(book, 'A2')).toBe('#REF!');
    type(book, 'A2', '5');
    expect(valuesOf(book)).toEqual(valuesOf(reopened(book)));
  });

  it('A3 A1 goes on after a check named a sheet that is not there', () => {
    const book = start();
    const formula = '=SUM(Brif!A1:B2)>0';
    book.apply({
      do: 'setChecks',
      checks: [{ id: 'k1', name: 'A', formula, severity: 'stop', says: 'No.' }],
    });
    expect(book.checks()[0]).toMatchObject({ state: 'unknown' });
    expect(book.apply({ do: 'deleteRows', sheet, at: 1, count: 1 }).ok).toBe(true);
    expect(book.apply({ do: 'removeSheet', sheet: 's2' }).ok).toBe(true);
    type(book, 'C1', '=A1+1');
    expect(valuesOf(book)).toEqual(valuesOf(reopened(book)));
  });
});
