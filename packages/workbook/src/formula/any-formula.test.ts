import { keptOf, loadText, readFormula, renamed, replaceKept, saveText } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { bookOf, place, shows, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

function reopened(book: Workbook): Workbook {
  const loaded = loadText(saveText(book.document()));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const small = () =>
  bookOf({
    sheets: {
      Base: [
        [{ value: 20, quantity: 'length', name: 'top_length' }, 2],
        [3, 'oak'],
        [null, null],
      ],
      Top: [[1]],
    },
  });

/** Found by chance: each of them threw, hung or was another formula when it was opened again. */
const FOUND = [
  '=PRODUCT()',
  '=SUMPRODUCT()',
  '=M#()',
  '=(top_length)(2)',
  '=T’EXT()',
  "=('Top'!A1)(2)",
  '=А()',
  '=OFFSET()',
  '=B$2A1',
  "='A1",
  '=COUNT(Nowhere!1:2)',
  '=COUNT(Base\\!1:2)',
  '=SUM(1:2)+SUM(A:A)',
  '=top_length²',
  '={}',
  '=(,)',
  '=,',
  '=Base!A1:AA:B=100',
  '=A1:B2:A2',
  '=FORMULATEXT(top_length)',
  '=ISFORMULA(top_length)&1',
  '=SHEET(top_length)',
];

describe('any formula that can be typed', () => {
  it.each(FOUND)('V2 X1 %s is explained, looked through for clashes and opened again', (text) => {
    const book = small();
    type(book, 'Top!C3', text);
    const at = place(book, 'Top!C3');
    for (const one of [book, reopened(book)]) {
      expect(one.cell(at).entry).toBe(text);
      expect(one.explain(at).address).toBe('Top!C3');
      expect(one.value(at)).toEqual(book.value(at));
      expect(one.clashes()).toEqual(book.clashes());
      expect(one.problems()).toEqual(book.problems());
      one.usedBy(at);
      one.evaluate(text);
    }
    const check = { id: 'k1', name: 'try', formula: text, severity: 'care', says: 'No.' } as const;
    expect(book.apply({ do: 'setChecks', checks: [check] })).toMatchObject({ ok: true });
    expect(book.checkClashes()).toEqual([]);
    expect(reopened(book).checks()).toEqual(book.checks());
  });

  it('V2 long chains of signs in formulas that use each other are looked through', () => {
    const book = small();
    type(book, 'Top!A1', '=Base!A1');
    for (let row = 2; row <= 25; row += 1) {
      type(book, `Top!A${row}`, `=${'-'.repeat(190)}Top!A${row - 1}${'+1'.repeat(190)}`);
    }
    expect(book.clashes()).toEqual([]);
    expect(book.cell(place(book, 'Top!A25')).clash).toBeUndefined();
  });

  it('V2 one formula that the engine throws at leaves the others of its sheet as they are', () => {
    const book = small();
    type(book, 'Top!A2', '=OFFSET()');
    type(book, 'Top!A3', '=A1+1');
    const again = reopened(book);
    expect(shows(again, 'Top!A3')).toBe('2');
    expect(again.value(place(again, 'Top!A2'))).toMatchObject({ error: { word: '#ERROR!' } });
  });

  it('X1 the cells of whole rows and columns are told as far as there are any', () => {
    const book = small();
    type(book, 'Top!C3', '=SUM(Base!1:2)');
    const uses = book.explain(place(book, 'Top!C3')).uses.map(({ address }) => address);
    expect(uses).toEqual(['Base!A1', 'Base!B1', 'Base!A2', 'Base!B2']);
  });

  it('K2 a check with several results is unknown, and is none of the next check’s business', () => {
    const check = (id: string, formula: string) =>
      ({ id, name: id, formula, severity: 'care', says: 'No.' }) as const;
    const checks = [check('k1', '=Base!A1:B2>1'), check('k2', '=1=1'), check('k3', '={1}')];
    const book = small();
    book.apply({ do: 'setChecks', checks });
    for (const one of [book, reopened(book)]) {
      expect(one.checks().map(({ state }) => state)).toEqual(['unknown', 'pass', 'pass']);
      expect(one.checks()[0]?.says).toContain('several results');
    }
  });

  it('F7 ids within brackets are never taken for addresses', () => {
    const document = documentOf({
      sheets: { Base: [[1, ...Array(20).fill(null), '=[c1.$r1]*2+A1']] },
    });
    const book = Workbook.open(document);
    expect(book.document().sheets[0]?.rows[0]?.cells?.c22?.formula).toBe('=[c1.$r1]*2+[c1.r1]');
    expect(shows(book, 'V1')).toBe('3');
  });

  it('S2 a name beside a reference in brackets is renamed, and the reference stays', () => {
    const formula = readFormula('=[c1.r1]width+width');
    expect(keptOf(renamed(formula, 'width', 'depth'))).toBe('=[c1.r1]depth+depth');
  });

  it('F2 a lone apostrophe hides no reference', () => {
    expect(replaceKept("='[c1.r1]", () => 'A1')).toBe("='A1");
    expect(replaceKept("='a''b'!A1+\"[c1.r1]\"", () => 'B2')).toBe("='a''b'!A1+\"[c1.r1]\"");
  });

  it('N2 a backslash at the end of words is one of its letters', () => {
    const book = small();
    type(book, 'C1', '="C:\\"&"a\\""b\\\\"');
    expect(shows(book, 'C1')).toBe('C:\\a\\"b\\\\');
    type(book, 'C2', '=LEN("\\")');
    expect(shows(book, 'C2')).toBe('1');
  });
});
