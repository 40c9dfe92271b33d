import {
  isReference,
  loadText,
  readWritten,
  saveText,
  sheetNameProblem,
  tokensOf,
  writtenSheet,
} from '@kerfbook/document';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf, place, shows, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const NAMES = [
  'Шкаф',
  'шкаф 2',
  '部品表',
  'Größe',
  "Maker's bench",
  "a''b",
  'A1',
  'ZZ',
  'Leg1',
  'Legs12',
  'R1C1',
  'rc',
  'TRUE',
  'false',
  '2024',
  '1.5',
  'a.b',
  'x²',
  'Σ',
  'लंबाई',
  'قائمة القطع',
  '😀',
  '~',
  'e\u0301tabli',
  'a&b',
  'a "b"',
  'offset',
  'SUM',
  'SUM(1)',
  'a;b',
  'İ',
  'constructor ',
];

/** Sheets of any letters a maker may choose. */
const sheetName = fc
  .oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }),
    fc.string({ unit: 'binary', minLength: 1, maxLength: 12 }),
    fc.stringMatching(/^[A-Za-z]{1,4}\d{0,3}$/),
  )
  .filter((name) => sheetNameProblem(name) === undefined);

describe('sheets of any script', () => {
  it('F8 a sheet’s name in a formula is one reference and reads back', () => {
    const check = (name: string): void => {
      for (const rest of ['A1', '$B$2', 'A1:B2', 'A:B', '1:2']) {
        const written = `${writtenSheet(name)}!${rest}`;
        const tokens = tokensOf(`=${written}*2`);
        const references = tokens.filter(isReference);
        expect(references.map(({ value }) => value)).toEqual([written]);
        expect(readWritten(written)?.sheet).toBe(name);
      }
    };
    for (const name of NAMES.filter((one) => sheetNameProblem(one) === undefined)) check(name);
    fc.assert(fc.property(sheetName, check), { numRuns: 500 });
  });

  const renamed = (name: string): void => {
    const book = bookOf({
      sheets: { Base: [[3, '=[c1.r1]*2']], Top: [['=[s1!c1.r1]+1', '=SUM([s1!c1.r1]:[c2.r1])']] },
      checks: [
        {
          id: 'k1',
          name: 'enough',
          formula: '=[s1!c1.r1]>2',
          severity: 'stop',
          says: 'Too little.',
        },
      ],
    });
    book.apply({
      do: 'nameCell',
      at: { sheet: 's1', row: 0, column: 0 },
      name: 'base_width',
    });
    type(book, 'Top!C1', '=base_width*10');
    type(book, 'Top!D1', `=${writtenSheet(name)}!A1*5`);
    const result = book.apply({ do: 'renameSheet', sheet: 's1', name });
    expect(result).toMatchObject({ ok: true });
    type(book, 'Top!E1', `=${writtenSheet(name)}!A1*7`);
    const again = () => {
      const loaded = loadText(saveText(book.document()));
      if (!loaded.ok) throw new Error(loaded.says);
      return Workbook.open(loaded.document);
    };
    for (const one of [book, again()]) {
      expect(shows(one, 'Top!A1')).toBe('4');
      expect(shows(one, 'Top!B1')).toBe('9');
      expect(shows(one, 'Top!C1')).toBe('30');
      expect(shows(one, 'Top!D1')).toBe('15');
      expect(shows(one, 'Top!E1')).toBe('21');
      expect(one.cell(place(one, 'Top!A1')).entry).toBe(`=${writtenSheet(name)}!A1+1`);
      expect(one.checks()[0]?.state).toBe('pass');
      expect(one.explain(place(one, 'Top!A1')).uses[0]?.address).toBe(`${name}!A1`);
    }
  };

  it.each(NAMES.filter((one) => sheetNameProblem(one) === undefined))(
    'F8 a sheet renamed %s goes on working, now and when opened again',
    renamed,
  );

  it('F8 so does one renamed by chance', () => {
    fc.assert(fc.property(sheetName, renamed), { numRuns: 60 });
  });

  it('S7 two spellings of one sheet’s name are one', () => {
    const book = bookOf({ sheets: { É: [[1]], Top: [[2]] } });
    expect(book.apply({ do: 'renameSheet', sheet: 's2', name: 'e\u0301' })).toMatchObject({
      ok: false,
      code: 'W6',
    });
    type(book, 'Top!A1', '=e\u0301!A1+1');
    expect(shows(book, 'Top!A1')).toBe('2');
  });

  it('V1 an error in a sheet of any script is led to, and names it', () => {
    const book = bookOf({ sheets: { Base: [[1]], "Шкаф '2'х": [['oak']] } });
    type(book, 'A1', "='Шкаф ''2''х'!A1*2");
    expect(book.value(place(book, 'A1'))).toMatchObject({
      error: { says: `Шкаф '2'х!A1 holds the words "oak"; a number is needed there.` },
    });
    type(book, "Шкаф '2'х!B1", '=1/0');
    type(book, 'B1', "='Шкаф ''2''х'!B1");
    expect(book.value(place(book, 'B1'))).toMatchObject({
      error: { word: '#DIV/0!', from: { sheet: 's2', row: 0, column: 1 } },
    });
  });

  it('V1 a sheet that is not there is named, with one like it', () => {
    const book = bookOf({ sheets: { 'Шкаф 2': [[1]], Base: [[2]] } });
    const says = (text: string) => {
      type(book, 'Base!B1', text);
      return book.value(place(book, 'Base!B1'));
    };
    expect(says("='Шкаф 3'!A1*2")).toMatchObject({
      error: { word: '#REF!', says: 'There is no sheet called Шкаф 3. Did you mean Шкаф 2?' },
    });
    expect(says('=SUM(Bas!A:A)')).toMatchObject({
      error: { says: 'There is no sheet called Bas. Did you mean Base?' },
    });
    expect(says('=Nowhere_at_all!A1')).toMatchObject({
      error: { says: 'There is no sheet called Nowhere_at_all.' },
    });
  });
});
