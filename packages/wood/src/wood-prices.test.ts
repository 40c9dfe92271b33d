import { describe, expect, it } from 'vitest';
import { type OwnRow, withOwnTables } from './own.ts';
import { restingOn } from './rests.ts';
import { piecePrice, woodPrice } from './wood-prices.ts';

/** An invented yard's price list: lengths in inches, days as a date counts them. */
const LIST: readonly OwnRow[] = [
  { wood: 'white oak', thickness: 1, price: 8, per: 'board foot', day: 46000 },
  { wood: 'white oak', thickness: 2, price: 9, day: 46000 },
  { wood: 'white oak', thickness: 4, grade: 'FAS', price: 13 },
  { wood: 'white oak', thickness: 4, grade: '1C', price: 10 },
  { wood: 'black cherry', price: 7.5 },
  { wood: 'black cherry', thickness: 2, price: 8.5 },
  { wood: 'European beech', thickness: 50 / 25.4, price: 1200, per: 'cubic meter' },
  { wood: 'sugar maple', thickness: 2, price: 7, day: 46100 },
  { wood: 'sugar maple', thickness: 2, price: 6, day: 46000 },
  { wood: 'sugar maple', thickness: 2, price: 6.5 },
  { wood: 'birch plywood', thickness: 0.75, price: 62, per: 'sheet' },
  { wood: 'birch plywood', thickness: 0.5, price: 48, per: 'piece' },
  { wood: 'red alder', thickness: 1 },
];

const priced = <T>(run: () => T, list: readonly OwnRow[] = LIST): T =>
  withOwnTables({ prices: list }, run);

describe('the price of a wood', () => {
  it.each([
    // Of its thickness; the next thicker where it has none; to within 2 mm, as 2 in is sold as 50 mm.
    ['white oak', 1, undefined, 8],
    ['white oak', 1.25, undefined, 9],
    ['white oak', 0.75, undefined, 8],
    ['white oak', 2.07, undefined, 9],
    // A row without a thickness is for what no other one is thick enough for.
    ['black cherry', 1, undefined, 8.5],
    ['black cherry', 2, undefined, 8.5],
    ['black cherry', 6, undefined, 7.5],
    // Asked for last, wherever it stands; a row without a day is older than any.
    ['sugar maple', 2, undefined, 7],
    // By another name of the same wood, and by grade in whatever letters.
    ['Quercus alba', 2, undefined, 9],
    ['Oak, white', 4, 'fas', 13],
    ['white oak', 4, '1C', 10],
    // A grade that has no row of that thickness leaves it to those for every grade.
    ['white oak', 5 / 4, '1C', 10],
  ])('%s of %s in, grade %s, costs %s', (wood, thickness, grade, price) => {
    expect(priced(() => woodPrice(wood, thickness, grade))).toBe(price);
  });

  it('takes a cubic meter as it is written in Britain too', () => {
    const row = (per: string) => [{ wood: 'European beech', thickness: 2, price: 1200, per }];
    const price = (per: string) => woodPrice('European beech', 2, undefined, row(per));
    expect(price('Cubic metre')).toBe(price('cubic meter'));
    expect(price('m³')).toBe(price('cubic meter'));
  });

  it('turns a price per cubic meter into one per board foot', () => {
    // 1 bd ft = 144 in³ = 0.002359737216 m³ (25.4 mm to the inch, exact by NIST SP 811).
    expect(priced(() => woodPrice('Fagus sylvatica', 2))).toBeCloseTo(1200 * 0.002359737216, 9);
  });

  it('takes of rows of one day the lowest in the list', () => {
    const twice = [
      { wood: 'white ash', price: 5, day: 46000 },
      { wood: 'white ash', price: 5.5, day: 46000 },
    ];
    expect(priced(() => woodPrice('white ash', 1), twice)).toBe(5.5);
  });

  it('rests on the row it took', () => {
    const { values } = restingOn(() => priced(() => woodPrice('white oak', 4, 'FAS')));
    expect(values).toEqual([
      {
        of: 'White oak, FAS: price',
        value: 13,
        quantity: 'money_per_boardfoot',
        how: 'own',
        source: 'the price list of this workbook',
      },
    ]);
  });

  it.each([
    [() => woodPrice('black walnut', 2), 'wood "black walnut" is not in the price list'],
    [() => woodPrice('white oka', 2), 'Nearest: "white oak".'],
    [
      () => woodPrice('white oak', 5),
      'thickness 5 in is not in the price list; it takes up to 4 in',
    ],
    [
      () => woodPrice('white oak', 4),
      'grade is missing; it takes one that white oak has in the price list: FAS and 1C',
    ],
    [
      () => woodPrice('white oak', 4, 'Selects'),
      'thickness 4 in is not in the price list; it takes up to 2 in',
    ],
    [() => woodPrice('birch plywood', 0.75), 'has prices by the piece alone in the price list'],
    [() => woodPrice('red alder', 1), 'has a row in the price list, and no price in it'],
    [() => piecePrice('white oak', 2), 'has no price by the piece in the price list'],
    [
      () => piecePrice('birch plywood'),
      'thickness is missing; it takes one that birch plywood has in the price list: 0.5 in and 0.75 in',
    ],
  ])('says what is missing', (run, says) => {
    expect(() => priced(run)).toThrow(says);
  });

  it('says which grades there are where none is for every grade', () => {
    const graded = [
      { wood: 'white oak', grade: 'FAS', price: 12 },
      { wood: 'white oak', grade: '1C', price: 9 },
    ];
    expect(() => priced(() => woodPrice('white oak', 1, 'FSA'), graded)).toThrow(
      'grade "FSA" is not known; it takes one that white oak has in the price list. Nearest: "FAS".',
    );
  });

  it('says that there is no list, an empty one, or words nobody reads', () => {
    expect(() => woodPrice('white oak', 2)).toThrow('this workbook has no price list');
    expect(() => priced(() => woodPrice('white oak', 2), [])).toThrow('The list is empty');
    const pound = [{ wood: 'white oak', price: 3, per: 'pound' }];
    expect(() => priced(() => woodPrice('white oak', 2), pound)).toThrow(
      'per of white oak in the price list is "pound"; it takes board foot, cubic meter or piece.',
    );
    const below = [{ wood: 'white oak', price: -3 }];
    expect(() => priced(() => woodPrice('white oak', 2), below)).toThrow(
      'price of white oak in the price list is -3; it takes 0 or more.',
    );
  });
});

describe('the price of a piece', () => {
  it('is that of its thickness, or the only one there is', () => {
    expect(priced(() => piecePrice('birch plywood', 0.75))).toBe(62);
    // 23/32 in is what 3/4 in plywood measures (PS 1: sanded panels, value from memory).
    expect(priced(() => piecePrice('Plywood, birch', 23 / 32))).toBe(62);
    expect(priced(() => piecePrice('birch plywood', 5 / 8))).toBe(62);
    const one = [{ wood: 'drawer slides', price: 21, per: 'each' }];
    expect(priced(() => piecePrice('drawer slides'), one)).toBe(21);
  });
});

describe('names in other letters', () => {
  it('are told apart', () => {
    const list = [
      { wood: 'дуб', price: 9 },
      { wood: 'ясень', price: 6 },
    ];
    expect(priced(() => woodPrice('Ясень', 1), list)).toBe(6);
    expect(() => priced(() => woodPrice('клён', 1), list)).toThrow('is not in the price list');
  });
});
