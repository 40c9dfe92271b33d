import type { BookDocument } from '@kerfbook/document';
import { documentOf, type Sketch } from '@kerfbook/document/testing';
import { Wildcards } from '@kerfbook/functions/computing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../api.ts';
import { BUDGET, spend } from '../results/meter.ts';
import { Workbook } from '../workbook.ts';

const ROWS = 10_000;
const OUT = 's2';

/** Three columns filled from top to bottom: 1 to 10,000, a number below 50, a word. */
const stock = (rows: number): Sketch[][] =>
  Array.from({ length: rows }, (_, i) => [i + 1, (i * 7) % 50, `board ${i % 50}`]);

const bookWith = (formulas: readonly Sketch[], rows = ROWS): Workbook =>
  Workbook.open(documentWith(formulas, rows));

const documentWith = (formulas: readonly Sketch[], rows = ROWS): BookDocument =>
  documentOf({ sheets: { Stock: stock(rows), Out: formulas.map((formula) => [formula]) } });

const plain = (value: CellValue): unknown => {
  if (value.kind === 'number') return value.number;
  if (value.kind === 'text') return value.text;
  if (value.kind === 'logical') return value.logical;
  return value.kind === 'error' ? value.error.says : null;
};

const results = (book: Workbook, sheet = OUT): unknown[] =>
  Array.from({ length: book.sheet(sheet)?.rows ?? 0 }, (_, row) =>
    plain(book.value({ sheet, row, column: 0 })),
  );

const reopened = (book: Workbook): Workbook =>
  Workbook.open(JSON.parse(JSON.stringify(book.document())));

function enter(book: Workbook, sheet: string, row: number, text: string): void {
  const result = book.apply({ do: 'enter', sheet, cells: [{ row, column: 0, text }] });
  if (!result.ok) throw new Error(result.says);
}

const TOO_LONG = /takes more than 500000 steps/;
const TOO_MANY = /more than 200000 cells/;

describe('what one formula may cost', () => {
  it('B1 B3 leaves room for ten thousand rows', () => {
    const come: readonly (readonly [string, unknown])[] = [
      ['=SUM([s1!c1]:[c1])', 50_005_000],
      ['=SUM([s1!c1]:[c3])', 50_005_000 + 245_000],
      ['=COUNT([s1!.r1]:[.r10000])', 2 * ROWS],
      ['=SUMIF([s1!c3]:[c3],"board 7",[s1!c1]:[c1])', 996_600],
      ['=COUNTIF([s1!c3]:[c3],"*7")', 1000],
      ['=SUMIFS([s1!c1]:[c1],[s1!c2]:[c2],7,[s1!c3]:[c3],"board 1")', 995_400],
      ['=VLOOKUP(9999,[s1!c1]:[c3],3,FALSE)', 'board 48'],
      ['=INDEX([s1!c3]:[c3],MATCH(9999,[s1!c1]:[c1],0))', 'board 48'],
      ['=XLOOKUP(9999,[s1!c1]:[c1],[s1!c3]:[c3])', 'board 48'],
      ['=SUMPRODUCT([s1!c1]:[c1],[s1!c2]:[c2])', 1_225_245_000],
      ['=SUM(IF([s1!c1.r1]:[c1.r10000]>9998,1,0))', 2],
      ['=INDEX(SORT([s1!c1.r1]:[c1.r10000],1,-1),1)', 10_000],
      ['=COUNTA(UNIQUE([s1!c3.r1]:[c3.r10000]))', 50],
      ['=MEDIAN([s1!c1]:[c1])', 5000.5],
    ];
    const book = bookWith(come.map(([formula]) => formula));
    expect(results(book)).toEqual(come.map(([, result]) => result));
  });

  const refused: readonly (readonly [string, RegExp])[] = [
    ['=SUM(Stock!A1:ZZ10000)', TOO_MANY],
    [`=${Array(30).fill('SUM(Stock!A:A)').join('+')}`, TOO_MANY],
    ['=SUM(OFFSET(Stock!A1,0,0,10000,700))', TOO_MANY],
    ['=SUM(Stock!A1:A10000*TRANSPOSE(Stock!A1:A10000))', TOO_LONG],
    ['=SUM(COUNTIF(Stock!C1:C10000,Stock!C1:C10000))', TOO_LONG],
    ['=SUM(MMULT(SEQUENCE(300,300),SEQUENCE(300,300)))', TOO_LONG],
    ['=COUNTA(UNIQUE(Stock!A1:A10000))', TOO_LONG],
    ['=POISSON.DIST(1e9,1e9,TRUE)', TOO_LONG],
    ['=IFERROR(CUMIPMT(0.1,1e9,1000,1,1e9,0),0)', TOO_LONG],
    // Counted one by one, numbers this large never get larger.
    ['=CUMPRINC(0.1,10,1000,1e300,1e300,0)', TOO_LONG],
    ['=WORKDAY(1,1e18)', TOO_LONG],
    ['=LEN(SUBSTITUTE(REPT("a",9000),"a",REPT("b",9000)))', TOO_LONG],
    ['=SORT(Stock!A:A)', /no fixed size/],
    ['=SEQUENCE(700,100)', /fill 70000 cells; 20000 is the most/],
  ];

  it('B1 refuses more, and what uses it, and nothing else', () => {
    const book = bookWith(refused.flatMap((_, i) => ['=1+1', 0, `=[s2!c1.r${4 * i + 2}]*2`, 0]));
    for (const [i, [formula]] of refused.entries()) enter(book, OUT, 4 * i + 1, formula);
    const all = results(book);
    for (const [i, [, says]] of refused.entries()) {
      expect(all[4 * i]).toBe(2);
      expect(all[4 * i + 1]).toMatch(says);
      expect(all[4 * i + 2]).toBe(`It is worked out from Out!A${4 * i + 2}; look there.`);
    }
    expect(results(reopened(book))).toEqual(all);
    for (const [formula, says] of refused) {
      // A formula of its own has its first result for its value, however many there would be.
      if (/SORT|SEQUENCE\(700/.test(formula)) continue;
      expect(plain(book.evaluate(formula, OUT))).toMatch(says);
    }
    // Another formula in its place is worked out.
    for (const i of refused.keys()) enter(book, OUT, 4 * i + 1, '=4');
    expect(results(book)).toEqual(refused.flatMap(() => [2, 4, 8, 0]));
  });

  it('B1 counts the same whatever the engine has kept from before', () => {
    const formula = `=${Array(20).fill('SUM([s1!c1]:[c1])').join('+')}`;
    const book = bookWith(['=SUM([s1!c1]:[c1])', formula]);
    const before = results(book);
    expect(before[1]).toBe(20 * 50_005_000);
    enter(book, OUT, 0, '=SUM(Stock!A:A)+1');
    expect(results(book)[1]).toBe(before[1]);
  });

  it('B1 holds no text that is longer than a cell holds, however it was made', () => {
    const book = bookWith(
      [
        '=REPT("oak ",8000)',
        ...Array.from({ length: 60 }, (_, i) => `=[c1.r${i + 1}]&[c1.r${i + 1}]`),
      ],
      1,
    );
    const all = results(book);
    expect(String(all[0])).toHaveLength(32_000);
    expect(all[1]).toMatch(/longer than 32767 characters/);
    for (const one of all.slice(2)) expect(one).toMatch(/longer than 32767|is worked out from/);
  });
});

describe('what formulas cost together', () => {
  /** Costs much among all, and little to work out here. */
  const COST = 2040;
  const heavy = (i: number) => `=POISSON.DIST(${i % 9},2,FALSE)`;
  const many = (count: number) => Array.from({ length: count }, (_, i) => heavy(i));
  const room = Math.floor(BUDGET.together / COST);

  it('B2 leaves out those that are one too many, in the order of the workbook', () => {
    const book = bookWith(['=1+1', ...many(room + 20), '=2+2'], 1);
    const all = results(book);
    expect(all[0]).toBe(2);
    expect(all.at(-1)).toBe(4);
    expect(all.findIndex((one) => typeof one === 'string')).toBe(1 + room);
    for (const one of all.slice(1 + room, -1)) {
      expect(one).toMatch(/read more than 4000000 cells together/);
    }
    expect(results(reopened(book))).toEqual(all);
  });

  it('B2 counts what stands in brackets as if it stood without', () => {
    const bracketed = many(room + 20).map((formula) => `=(${formula.slice(1)})`);
    const all = results(bookWith(bracketed, 1));
    expect(all.findIndex((one) => typeof one === 'string')).toBe(room);
  });

  it('B2 gives what is left out its value as soon as there is room, as when it is opened again', () => {
    const book = bookWith(many(room + 1), 1);
    const last = () => {
      const all = results(book);
      expect(results(reopened(book))).toEqual(all);
      return typeof all.at(-1);
    };
    expect(last()).toBe('string');
    enter(book, OUT, 5, '7');
    expect(last()).toBe('number');
    enter(book, OUT, 5, heavy(5));
    expect(last()).toBe('string');
    expect(book.undo()).toBeDefined();
    expect(last()).toBe('number');
    expect(book.redo()).toBeDefined();
    expect(last()).toBe('string');
    expect(book.apply({ do: 'deleteRows', sheet: OUT, at: 3, count: 2 }).ok).toBe(true);
    expect(last()).toBe('number');
    // A number that something else uses leaves them as they are.
    enter(book, 's1', 0, '3');
    expect(last()).toBe('number');
  });

  it('B2 counts what ranges grow by when rows are put in', () => {
    const found = Array.from({ length: 420 }, (_, i) => `=MATCH(${i + 1},[s1!c1.r1]:[c1.r9500],0)`);
    const book = bookWith(found);
    expect(typeof results(book).at(-1)).toBe('number');
    const rows = Array.from({ length: 700 }, (_, i) => ({ id: `n${i}` }));
    expect(book.apply({ do: 'deleteRows', sheet: 's1', at: 9600, count: 400 }).ok).toBe(true);
    expect(
      book.apply({ do: 'insertRows', sheet: 's1', at: 500, rows: rows.slice(0, 400) }).ok,
    ).toBe(true);
    expect(results(book).at(-1)).toMatch(/together/);
    expect(results(reopened(book))).toEqual(results(book));
  });

  it('B2 a sum that many formulas share is read once', () => {
    const book = bookWith(
      Array.from({ length: 2000 }, (_, i) => `=${i}/SUM([s1!c1]:[c1])`),
      ROWS,
    );
    expect(results(book).every((one) => typeof one === 'number')).toBe(true);
  });

  it('B2 counts results that fill cells before they are filled', () => {
    const formulas = Array.from({ length: 300 }, () => '=SEQUENCE(100,100)');
    const grid = formulas.map((formula) => [formula]);
    const book = Workbook.open(documentOf({ sheets: { Out: grid } }));
    const value = book.value({ sheet: 's1', row: 299, column: 0 });
    expect(plain(value)).toMatch(/read more than|need more empty cells/);
  });
});

describe('whole columns and rows', () => {
  const wide = (rows: number): BookDocument => {
    const document = documentWith(['=COUNT([s1!c1]:[c26])'], rows);
    const [sheet] = document.sheets;
    if (sheet === undefined) throw new Error('no sheet');
    sheet.columns = Array.from({ length: 26 }, (_, i) => ({ id: `c${i + 1}` }));
    return document;
  };

  it('B3 count as far as cells are used, also when more cells are filled', () => {
    const book = Workbook.open(wide(7600));
    expect(results(book)).toEqual([2 * 7600]);
    const rows = Array.from({ length: 200 }, (_, i) => ({ row: 7600 + i, column: 0, text: '1' }));
    expect(book.apply({ do: 'enter', sheet: 's1', cells: rows }).ok).toBe(true);
    expect(results(book)[0]).toMatch(TOO_MANY);
    expect(results(reopened(book))).toEqual(results(book));
  });
});

describe('words with * and ?', () => {
  /** HyperFormula's own reading of such words. */
  function expression(pattern: string, whole: boolean): RegExp {
    const source = pattern.replace(/~(.)|[*?]|[.+^$(){}[\]\\|]/g, (sign, escaped?: string) => {
      if (escaped !== undefined) return escaped.replace(/[*?.+^$(){}[\]\\|]/, '\\$&');
      return sign === '*' || sign === '?' ? `.${sign}` : `\\${sign}`;
    });
    return new RegExp(whole ? `^(${source})$` : source);
  }

  const letters = (signs: string) =>
    fc.array(fc.constantFrom(...signs), { maxLength: 8 }).map((all) => all.join(''));

  it('B1 are found where they were', () => {
    fc.assert(
      fc.property(letters('ab*?~.'), letters('abc.*'), fc.boolean(), (pattern, text, whole) => {
        fc.pre(!pattern.endsWith('~'));
        const found = new Wildcards(pattern, whole, spend).exec(text)?.index;
        expect(found).toBe(expression(pattern, whole).exec(text)?.index);
      }),
      { numRuns: 2000 },
    );
  });

  it('B1 do not go back over a long text again and again', () => {
    const text = 'a'.repeat(8000);
    expect(new Wildcards(`${'*a'.repeat(12)}*b`, true, spend).test(text)).toBe(false);
    expect(new Wildcards(`${'a?'.repeat(12)}b`, true, spend).test(text)).toBe(false);
  });
});
