import type { Sketch } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';

const NAMED: Sketch[][] = [
  [{ name: 'long', value: 84, quantity: 'length' }],
  [{ name: 'wide', value: 42, quantity: 'length' }],
  [{ name: 'face', value: 3528, quantity: 'area' }],
  [{ name: 'pieces', value: 8, quantity: 'count' }],
  [{ name: 'price', value: 900, quantity: 'money' }],
  [{ name: 'hours', value: 27, quantity: 'duration' }],
  [{ name: 'wages', value: 45, quantity: 'money_per_hour' }],
  [{ name: 'profit', value: 20, quantity: 'percent' }],
  [{ name: 'dry', value: 6, quantity: 'moisture' }],
  [{ name: 'air', value: 30, quantity: 'humidity' }],
  [{ name: 'feet', value: 12, quantity: 'boardfeet' }],
  [{ name: 'glue', value: 5, quantity: 'liquid' }],
  [{ name: 'weight', value: 115, quantity: 'mass' }],
  [{ name: 'lean', value: 250, quantity: 'force' }],
  [{ name: 'plain', value: 5 }],
  [{ name: 'wood', value: 'Oak, white', quantity: 'text' }],
];
const AT = { sheet: 's1', row: NAMED.length, column: 0 };

/** The clash of a formula in a cell of some quantity, or of none. */
function clashOf(formula: string, quantity?: string): string | undefined {
  const last = { formula, ...(quantity === undefined ? {} : { quantity }) } as Sketch;
  return bookOf({ sheets: { Base: [...NAMED, [last]] } }).cell(AT).clash?.says;
}

describe('a formula whose numbers do not go together', () => {
  it.each([
    ['=long+face', 'This adds an area to a length.'],
    ['=price-hours', 'This takes a time from money.'],
    ['=IF(long>price,1,2)', 'This compares a length with money.'],
    ['=SUM(A1:A4)', 'The cells of A1:A4 mix a length with an area.'],
    ['=MAX(long,price)', 'MAX is given cells that mix a length with money.'],
    ['=IF(pieces>3,long,face)', 'The two answers of IF mix a length with an area.'],
    ['=CEILING(long,hours)', 'CEILING takes a length in steps of a time.'],
    ['=APRON_LENGTH(face,0,2)', 'APRON_LENGTH takes a length as table_size and is given an area.'],
    ['=dry+air', 'This adds a humidity to a moisture content.'],
    ['=long*wide+hours*wages', 'This adds money to an area.'],
  ])('M1 %s', (formula, says) => {
    expect(clashOf(formula)).toBe(`${says} Check the references.`);
  });

  // What a percentage is in a cell and in a formula: OpenFormula 1.3 (ODF part 4), 5.5.6 "postfix %": 15% is 0.15.
  it.each([
    ['=price*profit', undefined, /profit as it is.*Write profit\/100\.$/],
    ['=plain*profit', undefined, /Write profit\/100\.$/],
    ['=plain*profit', 'money', /Write profit\/100\.$/],
    ['=price+plain*profit', 'money', /Write profit\/100\.$/],
    [
      '=plain*(1+profit)',
      undefined,
      /^1\+profit is 16 where profit is 15 %\. Write 1\+profit\/100\.$/,
    ],
    [
      '=price/(1-profit)',
      'money',
      /^1-profit is -14 where profit is 15 %\. Write 1-profit\/100\.$/,
    ],
    [
      '=EMC(70,50%)',
      'moisture',
      /^50% in a formula is 0\.5, and humidity of EMC is 50 for 50 %\. Write 50\.$/,
    ],
    ['=EMC(70,0.5)', 'moisture', /^humidity of EMC takes 0\.5 for 0\.5 %\. Write 50 for 50 %\.$/],
    ['=8%', 'percent', /^8% in a formula is 0\.08, and this cell takes 8 for 8 %\. Write 8\.$/],
    ['=profit+5%', 'percent', /Write 5\.$/],
    ['=IF(air>50%,1,2)', undefined, /Write 50\.$/],
  ] as const)(
    'M1 N6 points a percent slip out with what to write: %s in %s',
    (formula, quantity, says) => {
      expect(clashOf(formula, quantity)).toMatch(says);
    },
  );

  it.each([
    ['=price*profit/100', 'money'],
    ['=price*profit%', 'money'],
    ['=price*(1+profit/100)', 'money'],
    ['=plain*profit/100', undefined],
    ['=plain*profit', 'percent'],
    ['=(price*profit)/100', 'money'],
    ['=0.01*profit*price', 'money'],
    ['=ROUND(price*profit/100,2)', 'money'],
    ['=profit+5', 'percent'],
    ['=1+profit', 'percent'],
    ['=pieces*profit', 'percent'],
    ['=15%', undefined],
    ['=EMC(70,50)', 'moisture'],
    ['=profit>50', undefined],
  ] as const)('M1 N6 says nothing of a percentage that is right: %s in %s', (formula, quantity) => {
    expect(clashOf(formula, quantity)).toBeUndefined();
  });

  it('M1 is told once for the formula where it is, not where its cell is used', () => {
    const book = bookOf({
      sheets: { Base: [...NAMED, [{ formula: '=long+face', name: 'odd' }], ['=odd+price']] },
    });
    expect(book.clashes().map(({ address }) => address)).toEqual(['Base!A17']);
  });

  it('M1 is found in the formulas of checks', () => {
    const check = { id: 'k', name: 'Fits', severity: 'care' as const, says: 'Too long.' };
    const book = bookOf({
      sheets: { Base: NAMED },
      checks: [{ ...check, formula: '=long<=price' }],
    });
    expect(book.checkClashes()).toEqual([
      { name: 'Fits', says: 'This compares a length with money.' },
    ]);
  });

  it.each([
    ['=long*wide', 'length', 'The cell is for a length, and its formula gives an area.'],
    ['=hours*pieces', 'money', 'The cell is for money, and its formula gives a time.'],
    ['=feet', 'money', 'The cell is for money, and its formula gives board feet.'],
    ['=feet*profit/100', 'money', 'The cell is for money, and its formula gives board feet.'],
    ['=feet/12.5', 'money', 'The cell is for money, and its formula gives board feet.'],
    ['=feet*12.50', 'length', 'The cell is for a length, and its formula gives board feet.'],
    ['=price/long', 'money', 'The cell is for money, and its formula gives money / (length).'],
    ['=dry', 'length', 'The cell is for a length, and its formula gives a moisture content.'],
  ])('M2 %s in a cell for %s', (formula, quantity, says) => {
    expect(clashOf(formula, quantity)).toContain(says);
  });

  it('M2 says what to do about a percentage', () => {
    expect(clashOf('=price*profit', 'money')).toBe(
      'This reckons with profit as it is, which is 15 for 15 %. Write profit/100.',
    );
  });
});

describe('a formula whose numbers go together', () => {
  it.each([
    ['=long*wide', 'area'],
    ['=SQRT(face)', 'length'],
    ['=price/pieces', 'money'],
    ['=hours*wages', 'money'],
    ['=price*(1+profit/100)', 'money'],
    ['=price/(1-profit%)', 'money'],
    ['=price/price*100', 'percent'],
    ['=dry*2-1', 'moisture'],
    ['=long+2', 'length'],
    ['=long+plain', 'length'],
    ['=plain', 'money'],
    ['=weight', 'force'],
    ['=long*wide*long/144', 'boardfeet'],
    ['=hours/24', 'count'],
    ['=ROUNDUP(hours/24,0)+pieces', 'count'],
    ['=MOVEMENT(wide,wood,dry,dry+3,"flat")', 'length'],
    ['=EMC(70,air)', 'moisture'],
    ['=SUM(A1:A2)', 'length'],
    ['=COUNT(A1:A9)', 'count'],
    ['=IF(long>wide,"long","wide")', 'text'],
    ['=UNKNOWN(long)+price', 'money'],
    ['=feet*12.50', 'money'],
    ['=12.5*feet*(1+profit/100)', 'money'],
    ['=BOARDFEET(2,6,96)*12.50+price', 'money'],
    ['=price+45*hours', 'money'],
    ['=face/144*3.2', 'money'],
  ])('M3 %s in a cell for %s', (formula, quantity) => {
    expect(clashOf(formula, quantity)).toBeUndefined();
  });

  it('M3 computes also where they do not: the number is the maker’s to judge', () => {
    const book = bookOf({ sheets: { Base: [...NAMED, ['=long+face']] } });
    expect(book.value(AT)).toEqual({ kind: 'number', number: 3612 });
    expect(book.problems()).toEqual([]);
  });

  it('M3 is found again after the quantity of a cell it reads has changed', () => {
    const book = bookOf({ sheets: { Base: [...NAMED, ['=long+wide']] } });
    expect(book.clashes()).toEqual([]);
    book.apply({
      do: 'describeCells',
      sheet: 's1',
      cells: [{ row: 1, column: 0, traits: { quantity: 'area' } }],
    });
    expect(book.clashes()).toHaveLength(1);
    book.undo();
    expect(book.clashes()).toEqual([]);
  });

  it('M1 is found however many formulas one rests on', () => {
    const rows = Array.from({ length: 3_000 }, (_, i) => [
      i === 0 ? { formula: '=long', name: 'first' } : `=[c1.r${i}]+long`,
    ]);
    const book = bookOf({
      sheets: { Base: [[{ value: 84, quantity: 'length', name: 'long' }]], Run: rows, End: [['']] },
      checks: [
        {
          id: 'k1',
          name: 'Deep',
          formula: '=[s2!c1.r3000]>[s1!c1.r1]^2',
          severity: 'care',
          says: '',
        },
      ],
    });
    const end = { row: 0, column: 0, text: '=Run!A3000+Base!A1^2' };
    book.apply({ do: 'enter', sheet: 's3', cells: [end] });
    expect(book.cell({ sheet: 's3', row: 0, column: 0 }).clash?.says).toContain(
      'This adds an area to a length.',
    );
    expect(book.checkClashes()).toEqual([
      { name: 'Deep', says: 'This compares a length with an area.' },
    ]);
    // And again once the first of them is something else.
    const first = { row: 0, column: 0, text: '=long^2' };
    book.apply({ do: 'enter', sheet: 's2', cells: [first] });
    const second = book.cell({ sheet: 's2', row: 1, column: 0 });
    expect(second.clash?.says).toContain('This adds a length to an area.');
  });

  it('M3 survives a circle longer than it follows at a time', () => {
    const rows = Array.from({ length: 300 }, (_, i) => [`=[c1.r${i === 0 ? 300 : i}]+[c2.r1]`]);
    const book = bookOf({ sheets: { Base: rows } });
    expect(book.cell({ sheet: 's1', row: 299, column: 0 }).clash).toBeUndefined();
    expect(book.clashes()).toEqual([]);
  });

  it('M3 survives a circle', () => {
    const book = bookOf({ sheets: { Base: [['=A2+1', null], ['=A1*2']] } });
    expect(book.clashes()).toEqual([]);
  });
});

describe('a condition with a percent sign', () => {
  const book = () =>
    bookOf({
      sheets: {
        Base: [
          [{ value: 15, quantity: 'percent' }, { value: 1 }],
          [{ value: 30, quantity: 'percent' }, { value: 2 }],
          [{ value: 50 }, { value: 3 }, ''],
        ],
      },
    });
  const clash = (formula: string): string | undefined => {
    const made = book();
    const at = { sheet: 's1', row: 2, column: 2 };
    made.apply({ do: 'enter', sheet: 's1', cells: [{ row: 2, column: 2, text: formula }] });
    return made.cell(at).clash?.says;
  };

  // OpenFormula 1.3 (ODF part 4), 4.11.8: a condition's text is read as a number, and 20% is 0.2.
  it.each(['=COUNTIF(A1:A2,">20%")', '=SUMIF(A1:A2,">20%",B1:B2)', '=SUMIFS(B1:B2,A1:A2,">20%")'])(
    'M1 %s says what to write',
    (formula) => {
      expect(clash(formula)).toBe(
        '20% in a condition is 0.2, and a percentage is 20 for 20 %. Write ">20".',
      );
    },
  );

  it.each(['=COUNTIF(A1:A2,">20")', '=COUNTIF(B1:B2,">20%")', '=COUNTIF(A1:A2,"oak")'])(
    'M1 %s goes together',
    (formula) => {
      expect(clash(formula)).toBeUndefined();
    },
  );
});
