import { type CellValue, Workbook } from '@kerfbook/workbook';
import { beforeAll, describe, expect, it } from 'vitest';
import { plainSentence, specimen } from './specimen.ts';

const ROWS = 10_000;
const OUT = { sheet: 's2', row: 0, column: 0 };

/** A sheet of 10,000 rows (1 to 10,000, a number below 1,000, a word) before one that is empty. */
function stock() {
  const document = specimen();
  const columns = ['c1', 'c2', 'c3'].map((id) => ({ id }));
  const rows = Array.from({ length: ROWS }, (_, i) => ({
    id: `r${i + 1}`,
    cells: {
      c1: { value: i + 1 },
      c2: { value: (i * 7919) % 1000 },
      c3: { value: `board ${i % 50}` },
    },
  }));
  document.sheets = [
    { id: 's1', name: 'Stock', columns, rows },
    { id: 's2', name: 'Out', columns: [{ id: 'c1' }, { id: 'c2' }], rows: [{ id: 'r1' }] },
  ];
  document.checks = [];
  document.tables = [];
  return document;
}

/** What freezes a workbook takes minutes or for ever, and so more than the time of a test. */
function expectAnswer(value: CellValue): void {
  if (value.kind === 'number') expect(Number.isFinite(value.number)).toBe(true);
  if (value.kind === 'error') expect(value.error.says).toMatch(plainSentence);
}

const named = [
  '=UNIQUE(Stock!A:A)',
  '=UNIQUE(Stock!A1:A10000)',
  '=SUM(Stock!A1:A10000*TRANSPOSE(Stock!A1:A10000))',
  '=(1:10000)',
  '=(Stock!1:10000)',
  '=SORT(Stock!C1:C10000)',
  '=MMULT(Stock!A1:A5000,TRANSPOSE(Stock!A1:A5000))',
  '=MEDIANPOOL(SEQUENCE(600,600),300,1)',
  '=MAXPOOL(SEQUENCE(600,600),300,1)',
  '=SUM(COUNTIF(Stock!A:A,Stock!A:A))',
  '=SUMPRODUCT(MATCH(Stock!A1:A10000,Stock!B1:B10000,0))',
  '=POISSON.DIST(1e9,1e9,TRUE)',
  '=NEGBINOM.DIST(1e9,5,0.5,TRUE)',
  '=HYPGEOM.DIST(4e8,1e9,1e9,3e9,TRUE)',
  '=BINOM.INV(1e18,0.5,0.5)',
  '=BINOM.DIST(5e8,1e9,0.5,TRUE)',
  '=CUMIPMT(0.1,1e9,1000,1,1e9,0)',
  '=CUMPRINC(0.1,1e9,1000,1,1e9,0)',
  '=BESSELJ(1e9,1e9)',
  '=BESSELI(1,1e9)',
  '=CHISQ.DIST(1e9,1e9,TRUE)',
  '=GAMMA.INV(0.5,1e9,1)',
  '=DB(1e9,1,1e9,1e9-5)',
  '=COMBIN(2e9,1e9)',
  '=MULTINOMIAL(1e9,1e9)',
  '=WORKDAY(1,1e18)',
  '=COUNTIF(Stock!C:C,"*b*o*a*r*d*b*o*a*r*d*x")',
  `=SEARCH("${'a?'.repeat(20)}b",REPT("a",9000))`,
  `=LEN(SUBSTITUTE(REPT("a",9000),"a",REPT("b",9000)))`,
  '=IMSUM(REPT(" ",9000)&"x",1)',
  `=${Array(150).fill('SUM(Stock!A:C)').join('+')}`,
  '=SUM(OFFSET(Stock!A1,0,0,10000,700))',
  '=SUM(BOARDFEET(Stock!A:C,Stock!A:C,Stock!A:C))',
];

describe('a formula that asks for too much', () => {
  let book: Workbook;
  beforeAll(() => {
    book = Workbook.open(stock());
  });

  it.each(named)('typed: %s', (formula) => {
    const text = formula;
    const result = book.apply({ do: 'enter', sheet: 's2', cells: [{ ...OUT, text }] });
    if (result.ok) expectAnswer(book.value(OUT));
    else expect(result.says).toMatch(plainSentence);
    // Everything else works on.
    book.apply({
      do: 'enter',
      sheet: 's2',
      cells: [{ row: 0, column: 0, text: '=SUM(Stock!A:A)' }],
    });
    expect(book.value(OUT)).toEqual({ kind: 'number', number: 50_005_000 });
  });

  it.each(named)('asked for: %s', (formula) => {
    expectAnswer(book.evaluate(formula, 's2'));
  });

  it('in a file, all of them at once', () => {
    const document = stock();
    const [, out] = document.sheets;
    if (out === undefined) throw new Error('no sheet');
    out.rows = named.map((formula, i) => ({ id: `r${i + 1}`, cells: { c1: { formula } } }));
    const opened = Workbook.open(document);
    for (const row of named.keys()) expectAnswer(opened.value({ sheet: 's2', row, column: 0 }));
  });
});

/** Files of about 300 kB whose formulas are each within bounds, and together are not. */
const together: Readonly<Record<string, (i: number) => string>> = {
  'criteria over 2,000 rows': (i) => `=SUMIFS(Stock!A1:A2000,Stock!B1:B2000,${i})`,
  'sums of a column': (i) => `=SUM(Stock!A:A)+${i}`,
  'sums from the top on': (i) => `=SUM(Stock!A$1:A${5 * i + 1})`,
  'whole rows': (i) => `=SUM(Stock!${i + 1}:${i + 1})`,
  'numbers in order': (i) => `=SUM(SEQUENCE(${100 + (i % 5)},150))`,
  'tables of products': (i) => `=SUM(Stock!A1:A700*TRANSPOSE(Stock!B1:B700))+${i}`,
  'words in order': (i) => `=INDEX(SORT(Stock!C1:C${1000 + i}),1)`,
  'fields of results': () => '=SEQUENCE(100,100)',
};

describe('many formulas that together ask for too much', () => {
  it.each(Object.entries(together))('open in a time a maker can wait: %s', (_, formula) => {
    const document = stock();
    const [, out] = document.sheets;
    if (out === undefined) throw new Error('no sheet');
    out.rows = Array.from({ length: 2000 }, (__, i) => ({
      id: `r${i + 1}`,
      cells: { c1: { formula: formula(i) }, c2: { value: i } },
    }));
    const book = Workbook.open(document);
    // The rest works.
    const text = '=B2000+1';
    book.apply({ do: 'enter', sheet: 's2', cells: [{ row: 1999, column: 0, text }] });
    expect(book.value({ sheet: 's2', row: 1999, column: 0 })).toEqual({
      kind: 'number',
      number: 2000,
    });
  });
});
