import { readdirSync, readFileSync } from 'node:fs';
import {
  type At,
  type BookDocument,
  type CellDocument,
  loadText,
  type Scalar,
} from '@kerfbook/document';
import { documentOf, type Sketch } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PERCENTS } from '../quantities/percent.ts';
import { HYPERFORMULA } from '../testing/engines.ts';
import { keptCall, keptFormula, trialDocument } from '../testing/formulas.ts';
import { Workbook } from '../workbook.ts';
import { CompiledDocument } from './document.ts';

const folder = new URL('../../../../templates/', import.meta.url);

function templates(): readonly (readonly [string, BookDocument])[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => {
      const loaded = loadText(readFileSync(new URL(name, folder), 'utf8'));
      if (!loaded.ok) throw new Error(loaded.says);
      return [name, loaded.document] as const;
    });
}

/** The same workbook as HyperFormula works it out. */
const judged = (document: BookDocument): Workbook =>
  Workbook.open(document, { engine: HYPERFORMULA });

const placesIn = (document: BookDocument): readonly At[] =>
  document.sheets.flatMap(({ id, rows, columns }) =>
    rows.flatMap((_, row) => columns.map((__, column) => ({ sheet: id, row, column }))),
  );

/** Cells of a workbook that hold a value, and no formula. */
const inputsOf = (document: BookDocument): readonly At[] =>
  placesIn(document).filter((at) => {
    const cell = cellAt(document, at);
    return cell?.value !== undefined && cell.role === 'input';
  });

const entered = (book: Workbook, at: At, value: Scalar): void => {
  const { sheet, row, column } = at;
  const cell = { ...book.document().sheets.find(({ id }) => id === sheet)?.rows[row]?.cells };
  const id = book.document().sheets.find((one) => one.id === sheet)?.columns[column]?.id ?? '';
  const { typed: _typed, ...rest } = cell[id] ?? {};
  // A workbook asks whether 0.3 is 30 % unless its sign was typed with it; a sweep's numbers mean what they say.
  const isPercent = rest.quantity !== undefined && PERCENTS.has(rest.quantity);
  const kept = isPercent && typeof value === 'number' ? { ...rest, typed: `${value}%` } : rest;
  const result = book.apply({
    do: 'setCells',
    sheet,
    cells: [{ row, column, cell: { ...kept, value } }],
  });
  if (!result.ok) throw new Error(result.says);
};

function cellAt({ sheets }: BookDocument, { sheet, row, column }: At): CellDocument | undefined {
  const home = sheets.find(({ id }) => id === sheet);
  return home?.rows[row]?.cells?.[home.columns[column]?.id ?? ''];
}

describe('compiled templates', () => {
  it.each(templates())('A4 every formula of %s is compiled', (_, document) => {
    const compiled = CompiledDocument.of(document);
    expect(compiled.left()).toEqual([]);
    expect(compiled.compiled).toBeGreaterThan(document.checks.length + 20);
  });

  it.each(templates())('A4 %s has the values of the other engine, bit by bit', (_, document) => {
    const compiled = CompiledDocument.of(document);
    const book = judged(document);
    for (const at of placesIn(document)) expect(compiled.value(at)).toEqual(book.value(at));
  });

  // Found by the changes below: seed 20261127, path 11.
  it.each(templates())('A4 percentages under one in %s mean what they say', (_, document) => {
    const book = judged(document);
    const inputs = inputsOf(document).filter((at) => {
      const quantity = cellAt(document, at)?.quantity;
      return quantity !== undefined && PERCENTS.has(quantity);
    });
    const results = placesIn(document);
    const slice = CompiledDocument.of(document).slice(inputs, results);
    const values = inputs.map((_, i) => (i + 1) / 1000);
    inputs.forEach((at, i) => {
      entered(book, at, values[i] ?? 0);
    });
    expect(inputs.length).toBeGreaterThan(0);
    expect(slice.run(values)).toEqual(results.map((one) => book.value(one)));
  });

  it.each(templates())('A4 %s has them after changes of its inputs too', (_, document) => {
    const book = judged(document);
    const inputs = inputsOf(document);
    const results = placesIn(document);
    const slice = CompiledDocument.of(document).slice(inputs, results);
    // As they are kept: an engine tells 25 lb/ft, kept per inch, with fewer digits.
    const values = inputs.map((at) => cellAt(document, at)?.value ?? null);
    const factor = fc.constantFrom(0, 0.1, 0.37, 0.5, 0.9, 1.01, 1.5, 3, -1, 1e6, 1e-9);
    fc.assert(
      fc.property(fc.nat(inputs.length - 1), factor, fc.boolean(), (which, by, words) => {
        const at = inputs[which] as At;
        const was = values[which];
        const next: Scalar =
          typeof was === 'number' && !words ? was * by : words ? 'Oak, white' : 'no such wood';
        entered(book, at, next);
        values[which] = next;
        const found = slice.run(values as Scalar[]);
        expect(found).toEqual(results.map((one) => book.value(one)));
      }),
      // As many in all as one template had: another one costs no more time.
      { numRuns: Math.ceil(300 / templates().length), endOnFailure: true },
    );
  });
});

describe('compiled formulas', () => {
  const BATCH = 30;
  const place = (column: number): At => ({ sheet: 's3', row: 0, column });

  it.each([
    ['', keptFormula, 60, 400],
    [' where standard functions are given what mostly fits', keptCall, 30, 600],
  ])('A4 come to what HyperFormula comes to, or are left to it%s', (_, formula, numRuns, least) => {
    let compared = 0;
    fc.assert(
      fc.property(
        fc.array(formula, { minLength: BATCH, maxLength: BATCH }),
        fc.constantFrom<Scalar | null>(20, 0, -1.5, 'oak', '7', true, null),
        (formulas, input) => {
          const document = trialDocument(formulas);
          const book = judged(document);
          const compiled = CompiledDocument.of(document);
          const at = { sheet: 's1', row: 0, column: 0 };
          const results = formulas.map((_, i) => place(i));
          const slice = compiled.slice([at], results);
          compared += BATCH - compiled.left().length;
          const expectSame = (found: readonly unknown[]): void => {
            for (const [i, value] of found.entries()) {
              const one = formulas[i];
              expect({ one, value }).toEqual({ one, value: book.value(place(i)) });
            }
          };
          expectSame(slice.run([20]));
          if (input === null) {
            book.apply({ do: 'setCells', sheet: 's1', cells: [{ row: 0, column: 0, cell: null }] });
          } else entered(book, at, input);
          expectSame(slice.run([input]));
          slice.destroy();
        },
      ),
      { numRuns, endOnFailure: true },
    );
    expect(compared).toBeGreaterThan(least);
  });

  /** Found by chance: each of them once came to something else. */
  const FOUND = [
    '=TEXTJOIN("|",FALSE,BITOR(#REF!,MULTINOMIAL(1e300,[s1!c4.r5])))',
    '=HLOOKUP(2,[s2!c1.r1]:[c2.r2],1.5)',
    '=PI()/PRODUCT([s1!c1.r1]:[c1.r3])',
    // Random arguments seldom come to a number here.
    '=XNPV(0.1,{100;-20;30.5},{45000;45100.7;45200})',
    '=XNPV([s1!c1.r1]/100,{100;-20;30.5},{45000;45100.7;45200})',
    '=XNPV(0.1,{100;-20},{45000;44000})',
    '=XNPV(0.1,{100;-20},{45000})',
    '=XNPV(0.1,{100,"oak"},{45000;44000})',
    '=COUNTUNIQUE({1,"a","A",1,""},TRUE,5%,0.05,1)',
    '=COUNTUNIQUE(1/0,2/0,NA(),[s1!c1.r1]:[c3.r7],"oak")',
    '=SUMX2MY2({1,2;3,4},{2,3,4,5})+SUMX2PY2([s1!c1.r1]:[c1.r3],{0.1;0.2;0.3})',
    '=SUMXMY2([s1!c1.r1]:[c1.r3],{0.1,"x",TRUE})',
    '=SUMXMY2([s1!c1.r1]:[c1.r3],[s1!c2.r1]:[c2.r2])',
    '=NA(1)+1',
    '=AVERAGE([s1!c1.r6]:[c1.r6],[s1!c1.r1]:[c2.r3])',
    '=MIN([s1!c4.r1]:[c4.r1])',
    '=0/-3&""',
    '=1/(1e200*1e200)',
    '=blank&"x"',
    '=[s1!c1.r5]+1',
    '=IF([s1!c1.r1]>1,"a",2)',
    '=TRUE1>#VALUE!',
    '=R1C1+1',
    '=(OFFSETS())',
    '=SWITCH([s2!c1.r1]:[c2.r1])+1',
    '=REPT("oak",45000)',
    '=DAYS360(1e300,blank,0)',
    '=COLUMNS(OFFSET(blank,[s2!c1.r1]:[c2.r2])-1,2)',
    '=SUM([s1!c1.r1]:[c1.r3]*[s1!c2.r1]:[c2.r3])',
    '=SUMPRODUCT(([s1!c3.r1]:[c3.r3]="oak")*[s1!c1.r1]:[c1.r3])',
    '=MAX({1,2;3,"4"}+[s1!c1.r1])',
    '=SUM({1,2,3}*{1;2})+COUNT({1,2}+{1,2,3})',
    '=VLOOKUP("o*",[s1!c3.r1]:[c4.r6],2,FALSE)',
    '=DSUM([s1!c3.r1]:[c4.r6],2,[s1!c3.r1]:[c3.r2])+DCOUNT([s1!c3.r1]:[c4.r6],"OAK",[s1!c3.r1]:[c3.r2])',
    '=SUMIF([s1!c3]:[c3],"oak",[s1!c1]:[c1])+COUNTIF([s1!c3]:[c3],"o*")',
    '=VLOOKUP("oak",[s1!c3]:[c4],2,FALSE)&MATCH("oak",[s1!c3]:[c3],0)',
    '=SUM([s1!c2.r3]:[c1.r1])+SUM([s2!c2]:[c1])+COUNT([s2!.r1]:[.r2])',
    '=TEXTJOIN("-",TRUE,[s1!c1.r1]:[c3.r3],{"a","b"})',
  ];

  /** Found by random edits: where an error began was told otherwise. */
  const WHOLE: readonly (readonly [string, Sketch[][]])[] = [
    [
      'what cannot be read, asked for by address and by name',
      [[{ formula: '=SUM(', name: 'top' }, '=[c1.r1]', '=[c2.r1]', '=top', '=[c4.r1]', '=top+1']],
    ],
    [
      'a cell that holds several values',
      [
        ['=[c2.r1]:[c3.r2]', '=NA()', null, '=SUM([c1.r1],[c2.r2])', '=[c4.r1]', '=[c1.r1]&1'],
        ['=[c1.r1]', null, null, '=SUM([c1.r1]:[c1.r2])'],
      ],
    ],
    [
      'results that lie on the cells they are made of',
      [['=SORT([c1.r1]:[c1.r2])'], [null], ['=[c1.r2]']],
    ],
    [
      'a loop through a name',
      [[{ formula: '=[c2.r1]', name: 'top' }, '=top+1', '=top', '=[c2.r1]']],
    ],
    [
      'where cells stand, and what is written in them',
      [
        [1, '=ROW()&COLUMN()', '=COLUMNS([$c1.r1]:[c2.r1])', '=COLUMNS([c1.r1]:[$c2.r1])'],
        [2, '=ROWS([c2.r3]:[c1.$r1])', '=ROW([c2.r3]:[c1.r1])', '=FORMULATEXT([c2.r1])'],
        ['=ISFORMULA([c1.r3])', '=SHEET([c1.r1])&SHEETS()', '=COLUMNS([c1]:[c3])', '=ROW(1)'],
      ],
    ],
    [
      'a range with results that spread',
      [['=SEQUENCE(1,2)', null, '=SUM([c1.r1]:[c2.r1])', '=[c3.r1]*2']],
    ],
  ];

  it.each(WHOLE)('A4 X1 is the same to all: %s', (_, grid) => {
    const document = documentOf({ sheets: { Base: grid } });
    const book = judged(document);
    const compiled = CompiledDocument.of(document);
    for (const at of placesIn(document)) expect(compiled.value(at)).toEqual(book.value(at));
  });

  it.each(FOUND)('A4 %s comes to what HyperFormula comes to', (formula) => {
    const document = trialDocument([formula]);
    const book = judged(document);
    const slice = CompiledDocument.of(document).slice(
      [{ sheet: 's1', row: 0, column: 0 }],
      [place(0)],
    );
    for (const value of [20, -1.5, 0, 1e300, -1.5]) {
      entered(book, { sheet: 's1', row: 0, column: 0 }, value);
      expect(slice.run([value])).toEqual([book.value(place(0))]);
    }
    slice.destroy();
  });

  it('A4 tells which cells changed, a cell that is left among them, and takes one set after another', () => {
    const document = documentOf({
      sheets: { Base: [[1, '=[c1.r1]*2', '=HF.MINUS([c1.r1]^2,[c2.r1]^2)', '=[c3.r1]+1', 5]] },
    });
    const compiled = CompiledDocument.of(document);
    expect(compiled.left().map(({ where, word }) => [where, word])).toEqual([
      ['Base!C1', 'HF.MINUS'],
    ]);
    const at = (column: number): At => ({ sheet: 's1', row: 0, column });
    const slice = compiled.slice([at(0)], [at(3), at(1)]);
    expect(slice.left).toEqual([at(2)]);
    expect(slice.follow([1])).toEqual([]);
    expect(
      slice
        .follow([2])
        .map(({ column }) => column)
        .sort(),
    ).toEqual([0, 1, 2, 3]);
    expect(slice.run([0])).toEqual([
      { kind: 'number', number: 1 },
      { kind: 'number', number: 0 },
    ]);
    const sweep = slice.each([[1.5], ['oak'], [7]]);
    expect(sweep.next().value?.[0]).toEqual({ kind: 'number', number: -5.75 });
    expect(sweep.next().value?.[1]).toMatchObject({ error: { word: '#VALUE!', from: at(0) } });
    sweep.return();
    expect(sweep.next().done).toBe(true);
    // The document as it was opened is as it was.
    expect(compiled.value(at(1))).toEqual({ kind: 'number', number: 2 });
    slice.destroy();
  });

  it('A4 an input that holds a formula is refused', () => {
    const document = documentOf({ sheets: { Base: [[1, '=[c1.r1]+1']] } });
    const compiled = CompiledDocument.of(document);
    expect(() => compiled.slice([{ sheet: 's1', row: 0, column: 1 }], [])).toThrow(RangeError);
  });
});
