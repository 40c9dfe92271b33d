import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type BookDocument, loadText, Workbook } from '../index.ts';
import { type ShopFigures, shopFigures, takeFigures } from './shop-figures.ts';
import { SHOP_NAMES } from './shop-names.ts';

const TEMPLATES = join(import.meta.dirname, '../../../../templates');

function shipped(key: string): BookDocument {
  const loaded = loadText(readFileSync(join(TEMPLATES, `${key}.json`), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

const keys = readdirSync(TEMPLATES)
  .filter((file) => file.endsWith('.json'))
  .map((file) => file.slice(0, -'.json'.length));

function enter(book: Workbook, name: string, text: string): void {
  const at = book.named(name)?.at;
  if (at === undefined) throw new Error(`no ${name}`);
  const { sheet, row, column } = at;
  const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!done.ok) throw new Error(done.says);
}

function typed(key: string, entries: Readonly<Record<string, string>>): BookDocument {
  const book = Workbook.open(shipped(key));
  for (const [name, text] of Object.entries(entries)) enter(book, name, text);
  return book.document();
}

function compared(book: Workbook, shop: BookDocument): ShopFigures {
  const found = shopFigures(book, shop);
  if (!found.ok) throw new Error(found.says);
  return found;
}

const numberAt = (book: Workbook, name: string): number => {
  const value = book.named(name)?.value;
  if (value?.kind !== 'number') throw new Error(`${name} is no number`);
  return value.number;
};

describe('figures of the shop', () => {
  it('H11 are shared by every workbook that ships, and what belongs to a piece of furniture is none of them', () => {
    const shop = shipped('dining-table');
    for (const key of keys) {
      const { shared, figures } = compared(Workbook.open(shipped(key)), shop);
      // A movement study and a base without boards have a saw cut or less in common with a shop.
      expect(shared, key).toBeGreaterThanOrEqual(key === 'movement' ? 0 : 3);
      expect(figures.map(({ what, mine, shops }) => `${key}: ${what} ${mine} ${shops}`)).toEqual(
        [],
      );
    }
    for (const piece of [
      'top_length',
      'species',
      'cost_consumables',
      'quoted_price',
      'moisture_build',
    ]) {
      expect(SHOP_NAMES.has(piece)).toBe(false);
    }
  });

  it('H11 differ where the shop has another one, are taken as one step, and what rests on them follows', () => {
    const shop = typed('dining-table', { hourly_rate: '60', kerf: '3/32', jointer_width: '8' });
    const book = Workbook.open(shipped('bench'));
    const before = { price: numberAt(book, 'price'), length: numberAt(book, 'seat_length') };
    const { figures } = compared(book, shop);
    expect(
      figures.map(({ what, mine, shops }) => [what.replace(/ \(.*/, ''), mine, shops]),
    ).toEqual([
      ['Width of the jointer', '6 in', '8 in'],
      ['Saw kerf', '1/8 in', '3/32 in'],
      ['Hourly rate', '$45.00 /h', '$60.00 /h'],
    ]);
    const done = book.apply(takeFigures(figures));
    expect(done.ok).toBe(true);
    expect(numberAt(book, 'price')).toBeGreaterThan(before.price);
    expect(numberAt(book, 'seat_length')).toBe(before.length);
    expect(compared(book, shop).figures).toEqual([]);
    book.undo();
    expect(numberAt(book, 'price')).toBe(before.price);
    expect(numberAt(book, 'hourly_rate')).toBe(45);
  });

  it('H11 know a wood by what stands beside its price', () => {
    const shop = Workbook.open(shipped('dining-table'));
    const sheet = shop.named('hourly_rate')?.at.sheet ?? '';
    const row = rowOf(shop, sheet, 'white oak');
    const done = shop.apply({ do: 'enter', sheet, cells: [{ row, column: 1, text: '10.25' }] });
    expect(done.ok).toBe(true);
    const { figures } = compared(Workbook.open(shipped('bookcase')), shop.document());
    expect(figures.map(({ what, text }) => [what.replace(/ \(.*/, ''), text])).toEqual([
      ['white oak', '10.25'],
    ]);
  });

  it('H11 are brought to the units of the workbook as they are, on no round figures', () => {
    const metric = Workbook.open(shipped('bench'));
    expect(metric.apply({ do: 'changeUnits', to: 'metric' }).ok).toBe(true);
    const { figures } = compared(
      metric,
      typed('dining-table', { jointer_width: '8', kerf: '3/32' }),
    );
    expect(figures.find(({ key }) => key === 'kerf')?.shops).toBe('2.4 mm');
    const jointer = figures.find(({ key }) => key === 'jointer_width');
    expect(jointer?.shops).toBe('203.2 mm');
    expect(metric.apply(takeFigures(figures)).ok).toBe(true);
    expect(numberAt(metric, 'kerf')).toBeCloseTo((25.4 * 3) / 32, 9);
    expect(numberAt(metric, 'jointer_width')).toBeCloseTo(203.2, 9);
  });

  it('H11 leave amounts in other money alone, and say that they did', () => {
    const shop = { ...typed('dining-table', { hourly_rate: '60', kerf: '3/32' }), currency: 'EUR' };
    const { figures, otherMoney } = compared(Workbook.open(shipped('bench')), shop);
    expect(otherMoney).toBe(true);
    expect(figures.map(({ key }) => key)).toEqual(['kerf']);
  });

  it('H11 pass over a formula: what is worked out there is no figure of the shop', () => {
    const book = Workbook.open(shipped('bench'));
    enter(book, 'hourly_rate', '=40+7');
    const { figures } = compared(book, typed('dining-table', { hourly_rate: '60' }));
    expect(figures).toEqual([]);
  });
});

function rowOf(book: Workbook, sheet: string, words: string): number {
  const rows = book.sheet(sheet)?.rows ?? 0;
  for (let row = 0; row < rows; row += 1) {
    if (book.cell({ sheet, row, column: 0 }).shown.text === words) return row;
  }
  throw new Error(`no ${words}`);
}
