import type { CellView } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import type { PartsSource } from '../parts-source.ts';
import { type Fake, fakeBook } from '../testing/fake-book.ts';
import { costSentence, groupSentence, isWhole, type ShopSource, shopPlan } from './shop-plan.ts';

/** An invented rack of shelves: parts above, stock below, on one sheet. */
const PARTS: readonly (readonly Fake[])[] = [
  ['part', 'count', 'thickness', 'width', 'length', 'material', null],
  ['Shelf', 2, 0.75, 5, 30, 'pine', null],
  ['Cleat', 0, 0.75, 2, 5, 'pine', null],
];
const STOCK: readonly (readonly Fake[])[] = [
  ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'],
  ['1x6, 8 ft', 'pine', 0.75, 5.5, 96, 9, null],
];

function shop(
  kerf: Fake | undefined,
  {
    parts = PARTS,
    stock = STOCK,
    endTrim,
  }: {
    readonly parts?: typeof PARTS;
    readonly stock?: typeof STOCK;
    readonly endTrim?: Fake;
  } = {},
): ShopSource {
  const rows = [...parts, ...stock];
  const sheet: PartsSource = fakeBook([...rows, [kerf ?? null, endTrim ?? null]]);
  const cellAt = (column: number): CellView => {
    const at = { sheet: 's1', row: rows.length, column };
    return { at, address: `${'AB'[column]}${rows.length + 1}`, value: sheet.value(at) } as CellView;
  };
  return {
    ...sheet,
    currency: 'USD',
    tables: () => [
      { id: 't1', kind: 'parts', sheet: 's1', header: 0, last: parts.length - 1 },
      { id: 't2', kind: 'stock', sheet: 's1', header: parts.length, last: rows.length - 1 },
    ],
    named: (name) => {
      if (name === 'kerf' && kerf !== undefined) return cellAt(0);
      return name === 'end_trim' && endTrim !== undefined ? cellAt(1) : undefined;
    },
  };
}

const money = (amount: number): string => `$${amount.toFixed(2)}`;

describe('the plan of a workbook', () => {
  it('is whole and proven where everything is read, fits and has a kerf', () => {
    const found = shopPlan(shop(0.125));
    expect(isWhole(found)).toBe(true);
    expect(found.none).toEqual(['Cleat']);
    const [group] = found.plan?.groups ?? [];
    expect(group === undefined ? '' : groupSentence(group, found.kerf, money)).toBe(
      '$9.00, proven cheapest cut this way.',
    );
    expect(costSentence(found, money)).toBe(
      '$9.00 for the boards, proven cheapest cut this way: each crosscut length is ripped into one kind of part only, from boards of the smallest thickness and width that fit.',
    );
  });

  it('leaves the ends of boards that are bought, and takes those at hand as they are', () => {
    // 47.9, a saw cut and 47.9 are 95.925: out of 96, and not out of 92.
    const parts = [PARTS[0] ?? [], ['Shelf', 2, 0.75, 5, 47.9, 'pine', null]];
    const cost = (endTrim: Fake | undefined, stock = STOCK): number | undefined =>
      shopPlan(shop(0.125, { parts, stock, endTrim: endTrim ?? null })).plan?.cost;
    expect(cost(undefined)).toBe(9);
    expect(cost(0)).toBe(9);
    expect(cost(2)).toBe(18);
    const rack = ['offcut', 'pine', 0.75, 5.5, 96, 0, 1];
    expect(cost(2, [...STOCK, rack])).toBe(0);
    const [board] =
      shopPlan(shop(0.125, { parts, endTrim: 2 })).plan?.groups.flatMap((one) => one.boards) ?? [];
    expect(board?.pieces[0]?.at).toBeCloseTo(2 * 25.4, 9);
    // 96 less both ends, the piece and one cut.
    expect(board?.offcut).toBeCloseTo((96 - 4 - 47.9 - 0.125) * 25.4, 6);
  });

  it('says that a piece as long as a board does not come out of it once its ends are trimmed', () => {
    const parts = [PARTS[0] ?? [], ['Shelf', 2, 0.75, 5, 93, 'pine', null]];
    expect(shopPlan(shop(0.125, { parts })).problems).toEqual([]);
    expect(shopPlan(shop(0.125, { parts, endTrim: 2 })).problems.map(({ says }) => says)).toEqual([
      'Shelf, 2 of 3/4 by 5 by 93 fits no board like 1x6, 8 ft the way its grain has to run, with 2 trimmed off each of its ends. Add a larger one to the stock table.',
    ]);
  });

  it('says what is to be trimmed off boards where that cannot be read', () => {
    const found = shopPlan(shop(0.125, { endTrim: 'two' }));
    const says =
      'What is trimmed off each end of a board is "two" in Parts!B6; it takes a length in inches, 0 or more. Until then boards are planned from end to end.';
    expect(found.problems.map((one) => one.says)).toEqual([says]);
    expect(isWhole(found)).toBe(false);
  });

  it('never calls itself proven while a part gets no board, and names it', () => {
    const long = ['Rail', 3, 0.75, 2, 120, 'pine', null];
    const found = shopPlan(shop(0.125, { parts: [...PARTS, long] }));
    expect(isWhole(found)).toBe(false);
    expect(found.unplanned).toMatchObject([
      { what: 'Rail, 3 pieces', at: { sheet: 's1', row: 3, column: 0 } },
    ]);
    expect(costSentence(found, money)).toBe(
      '$9.00 for what is planned. One thing is left out, so this is not what all of it costs.',
    );
  });

  it('nor while a part, or a line of stock, cannot be read', () => {
    const parts = [...PARTS, ['Rail', 1, 0.75, 2, null, 'pine', null]];
    expect(shopPlan(shop(0.125, { parts })).unread.map(({ what }) => what)).toEqual(['Rail']);
    const stock = [...STOCK, ['1x6, 10 ft', 'pine', 0.75, 5.5, 120, null, null]];
    const found = shopPlan(shop(0.125, { parts, stock }));
    expect(found.unplanned.map(({ what }) => what)).toEqual(['1x6, 10 ft']);
    expect(costSentence(found, money)).toContain('2 things are left out');
    expect(costSentence(found, money)).not.toContain('proven');
  });

  it.each([
    [
      undefined,
      /^How wide is your saw's kerf\? Type its width into a cell and name that cell kerf/,
    ],
    [null, /^How wide is your saw's kerf\? Type it in Parts!A6\./],
    [
      'thin',
      /^The kerf in Parts!A6 is "thin"; it takes the width of a saw cut in inches, 0 or more\./,
    ],
    [-1, /^The kerf in Parts!A6 is -1; it takes/],
    [{ word: '#DIV/0!' } as const, /^The kerf in Parts!A6 is in error \(#DIV\/0!\); it takes/],
  ])('asks for the kerf where it is %j, and proves nothing without', (kerf, says) => {
    const found = shopPlan(shop(kerf));
    expect(found.kerf.mm).toBe(0);
    expect(found.kerf.says).toMatch(says);
    expect(isWhole(found)).toBe(false);
    expect(costSentence(found, money)).toBe('$9.00 if saw cuts took no wood.');
    const [group] = found.plan?.groups ?? [];
    expect(group === undefined ? '' : groupSentence(group, found.kerf, money)).not.toContain(
      'proven',
    );
  });

  it('is none without a stock table, and says so', () => {
    const book = shop(0.125);
    const found = shopPlan({ ...book, tables: () => book.tables().slice(0, 1) });
    expect(found.plan).toBeUndefined();
    expect(found.missing).toEqual([
      { kind: 'stock', says: 'This workbook has no stock table to buy from.' },
    ]);
    expect(isWhole(found)).toBe(false);
  });
});
