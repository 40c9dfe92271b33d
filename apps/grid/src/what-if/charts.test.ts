import { readdirSync, readFileSync } from 'node:fs';
import { loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { priceShares } from './price-shares.ts';
import { panelYear } from './year.ts';

const folder = new URL('../../../../templates/', import.meta.url);

function template(name: string): Workbook {
  const loaded = loadText(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const NAMES = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.replace('.json', ''));

function numberOf(book: Workbook, name: string): number {
  const value = book.named(name)?.value;
  if (value?.kind !== 'number') throw new Error(`${name} is no number`);
  return value.number;
}

function enter(book: Workbook, name: string, text: string): void {
  const at = book.find(name);
  if (at === undefined) throw new Error(name);
  const { sheet, row, column } = at;
  const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!done.ok) throw new Error(done.says);
}

const sum = (amounts: readonly { readonly amount: number }[]): number =>
  amounts.reduce((so, { amount }) => so + amount, 0);

/** To the cent. */
const CENT = 2;

describe('what a price is made of', () => {
  it.each(NAMES.filter((name) => name !== 'movement'))('comes to the price of %s', (name) => {
    const book = template(name);
    const found = priceShares(book);
    if (found === undefined) throw new Error('no shares');
    const isCost = name === 'cost';
    const [price, profit] = isCost ? ['quote_rounded', undefined] : ['price', 'profit_money'];
    expect(found.price).toBeCloseTo(numberOf(book, price), CENT);
    expect(sum(found.shares)).toBeCloseTo(found.price, 9);
    const of = (group: string) => found.shares.filter((share) => share.group === group);
    const cells = isCost
      ? ['price_material', 'price_labour', 'price_overhead']
      : ['cost_material', 'cost_labour', 'cost_overhead'];
    for (const [i, group] of ['Material', 'Labor', 'Overhead'].entries()) {
      expect(sum(of(group)), group).toBeCloseTo(numberOf(book, cells[i] ?? ''), CENT);
    }
    if (profit !== undefined) expect(sum(of('Profit'))).toBeCloseTo(numberOf(book, profit), CENT);
    // Each operation of the table by itself, and lines of material as they stand beside their cells.
    if (!isCost) {
      expect(of('Labor').length).toBeGreaterThan(4);
      expect(of('Material').length).toBeGreaterThan(3);
    }
  });

  it('follows what was quoted, below the cost too, and the delivery', () => {
    const book = template('dining-table');
    enter(book, 'quoted_price', '1000');
    enter(book, 'cost_delivery', '80');
    const found = priceShares(book);
    expect(found?.price).toBe(1000);
    expect(found?.shares.find(({ group }) => group === 'Delivery')?.amount).toBe(80);
    expect(found?.shares.at(-1)).toEqual({
      group: 'Profit',
      says: 'Profit',
      amount: expect.closeTo(1000 - numberOf(book, 'cost_total'), 6),
    });
    expect(sum(found?.shares ?? [])).toBeCloseTo(1000, 9);
  });

  it('tells a sum as one where its lines do not come to it', () => {
    const book = template('dining-table');
    enter(book, 'cost_material', '900');
    enter(book, 'cost_labour', '100');
    const shares = priceShares(book)?.shares ?? [];
    expect(shares.filter(({ group }) => group === 'Material')).toEqual([
      { group: 'Material', says: 'Material, total', amount: 900 },
    ]);
    expect(shares.filter(({ group }) => group === 'Labor')).toEqual([
      { group: 'Labor', says: 'Labor', amount: 100 },
    ]);
    enter(book, 'cost_labour', '5000');
    const labor = (priceShares(book)?.shares ?? []).filter(({ group }) => group === 'Labor');
    expect(labor.at(-1)?.says).toBe('Other labor');
    expect(sum(labor)).toBeCloseTo(5000, 9);
  });

  it('is not told where there is no price', () => {
    expect(priceShares(template('movement'))).toBeUndefined();
    const book = template('dining-table');
    enter(book, 'price', '=1/0');
    expect(priceShares(book)).toBeUndefined();
  });
});

describe('the year of a panel', () => {
  it('by months is what its cells come to, and widest where the wood is dampest', () => {
    const book = template('movement');
    const year = panelYear(book);
    expect(year?.by).toBe('months');
    expect(year?.points.map(({ says }) => says)).toEqual([
      ...['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August'],
      ...['September', 'October', 'November', 'December'],
    ]);
    const built = numberOf(book, 'panel_width');
    for (const { says, moved, wide } of year?.points ?? []) {
      expect(moved).toBe(numberOf(book, `moved_${says.toLowerCase()}`));
      expect(wide).toBe(built + moved);
    }
    const byWidth = [...(year?.points ?? [])].sort((a, b) => a.moved - b.moved);
    const named = (name: string) => book.named(name)?.shown.text;
    expect(byWidth[0]?.says).toBe(named('month_driest'));
    expect(byWidth.at(-1)?.says).toBe(named('month_dampest'));
  });

  it.each([
    'dining-table',
    'coffee-table',
    'bench',
    'round-table',
    'breadboard',
    'bookcase',
    'top',
  ])('by seasons is what the cells of %s come to', (name) => {
    const book = template(name);
    const width = ['top_width', 'top_diameter', 'seat_width'].find((one) => book.named(one));
    const built = numberOf(book, width ?? '');
    const [dry, humid] = [
      numberOf(book, 'movement_from_build_dry'),
      numberOf(book, 'movement_from_build_humid'),
    ];
    const year = panelYear(book);
    expect(year?.by).toBe('seasons');
    expect(year?.points).toEqual([
      { says: 'Dry season', moved: dry, wide: built + dry },
      { says: 'As built', moved: 0, wide: built },
      { says: 'Humid season', moved: humid, wide: built + humid },
    ]);
  });

  it('has what fasteners need beside what they allow, and none where a workbook has none', () => {
    const book = template('dining-table');
    expect(panelYear(book)?.fasteners).toEqual([
      {
        says: 'Long aprons',
        need: numberOf(book, 'fastener_need_long'),
        reach: numberOf(book, 'fastener_reach_long'),
      },
      {
        says: 'Short aprons',
        need: numberOf(book, 'fastener_need_short'),
        reach: numberOf(book, 'fastener_reach_short'),
      },
    ]);
    expect(panelYear(template('top'))?.fasteners).toEqual([]);
  });

  it('goes by seasons where a month is in error, and is not told where nothing moves', () => {
    const book = template('movement');
    enter(book, 'moved_may', '=1/0');
    expect(panelYear(book)?.by).toBe('seasons');
    expect(panelYear(template('plywood-cabinet'))).toBeUndefined();
    expect(panelYear(template('cost'))).toBeUndefined();
  });
});
