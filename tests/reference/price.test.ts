import { describe, expect, it } from 'vitest';
import { bookWith } from './books.ts';
import { checkOf, enterAll, numberIn } from './dining-table-book.ts';

/** What is done with a price once its cost is known, on the Cost sheet of every piece of furniture. */
const FURNITURE = [
  'base',
  'bench',
  'bookcase',
  'breadboard',
  'cabinet-door',
  'coffee-table',
  'desk',
  'dining-table',
  'plywood-cabinet',
  'round-table',
  'top',
  'trestle-table',
] as const;

describe.each(FURNITURE)('the price of %s', (key) => {
  it('says one profit as a margin and as a markup', () => {
    for (const margin of ['0', '20', '35']) {
      const book = enterAll(bookWith(key, {}), { profit_percent: margin });
      const [cost, price] = [numberIn(book, 'cost_total'), numberIn(book, 'price')];
      expect(numberIn(book, 'profit_money')).toBeCloseTo((price * Number(margin)) / 100, 6);
      expect(cost * (1 + numberIn(book, 'markup_percent') / 100)).toBeCloseTo(price, 6);
    }
  });

  it('is rounded up to whole tens or hundreds where that is asked for, and profit takes the rest', () => {
    for (const step of [0, 1, 10, 25, 100]) {
      const book = enterAll(bookWith(key, {}), { round_step: `${step}` });
      const [exact, price] = [numberIn(book, 'price_exact'), numberIn(book, 'price')];
      expect(exact).toBeCloseTo(numberIn(book, 'cost_total') / 0.8, 6);
      expect(price).toBeCloseTo(step === 0 ? exact : Math.ceil(exact / step) * step, 6);
      expect(numberIn(book, 'profit_money')).toBeCloseTo(price - numberIn(book, 'cost_total'), 6);
      // A quote between both leaves the profit; one below the price worked out does not.
      const quoted = (amount: number) =>
        checkOf(enterAll(book, { quoted_price: `${amount}` }), 'quote')?.state;
      expect(quoted(Math.ceil(exact * 100) / 100)).toBe('pass');
      expect(quoted(Math.floor(exact) - 1)).toBe('stop');
    }
  });

  it('put back as the lowest pays the hourly rate for every hour, and no more', () => {
    const cost = numberIn(bookWith(key, {}), 'cost_total');
    for (const delivery of ['0', '85']) {
      const book = enterAll(bookWith(key, {}), { cost_delivery: delivery });
      const lowest = numberIn(book, 'lowest_price');
      expect(lowest).toBeCloseTo(cost + Number(delivery), 6);
      const at = (price: number): number =>
        numberIn(enterAll(book, { quoted_price: `${price}` }), 'earned_per_hour');
      const rate = numberIn(book, 'hourly_rate');
      expect(at(lowest), delivery).toBeCloseTo(rate, 6);
      const hours = numberIn(book, 'hours_total');
      expect(at(lowest - 10)).toBeCloseTo(rate - 10 / hours, 6);
      expect(at(lowest + 10)).toBeCloseTo(rate + 10 / hours, 6);
    }
  });

  it('is paid in parts that come to it, to the cent', () => {
    const shares = [
      ['40', '0', '0'],
      ['33.3', '33.3', '8.375'],
      ['50', '50', '7'],
      ['0', '0', '19'],
    ] as const;
    const book = bookWith(key, {});
    for (const [first, second, tax] of shares) {
      for (const quoted of ['0', '1234.57', '999.99']) {
        const entries = { deposit_percent: first, second_percent: second, tax_percent: tax };
        enterAll(book, { ...entries, quoted_price: quoted });
        const says = `${quoted} ${first} ${second} ${tax}`;
        const [total, ...parts] = ['pay_total', 'pay_first', 'pay_second', 'pay_last'].map(
          (name) => Math.round(numberIn(book, name) * 100 * 1e6) / 1e6,
        );
        // Whole cents, each of them, and together the whole.
        for (const part of [total, ...parts])
          expect(part, says).toBe(Math.round(part ?? Number.NaN));
        expect(
          parts.reduce((sum, part) => sum + part, 0),
          says,
        ).toBe(total);
        expect(Math.min(...parts), says).toBeGreaterThanOrEqual(0);
        const price = quoted === '0' ? numberIn(book, 'price') : Number(quoted);
        expect(total ?? 0, says).toBeCloseTo(price * (100 + Number(tax)), -0.5);
        expect(checkOf(book, 'payshares')?.state).toBe('pass');
      }
    }
    enterAll(book, { deposit_percent: '60', second_percent: '50' });
    expect(checkOf(book, 'payshares')).toMatchObject({
      state: 'stop',
      says: '60 % with the order and 50 % under way are more than all of it. Ask for less of one.',
    });
  });
});

describe('the wood of a base', () => {
  it('is priced by the list, and its thick blanks are dearer', () => {
    // As the price list of the template says them; its prices are invented.
    for (const [species, board, blank] of [
      ['white oak', 9, 12.5],
      ['black cherry', 8, 11],
      ['black walnut', 12.5, 16],
    ] as const) {
      const book = bookWith('base', { species });
      expect(numberIn(book, 'rough_thickness'), species).toBe(1.5);
      expect(numberIn(book, 'wood_price'), species).toBe(board);
      expect(numberIn(book, 'blank_wood_price'), species).toBe(blank);
      expect(checkOf(book, 'otherwood')?.state, species).toBe('pass');
    }
    const [oak, walnut] = ['white oak', 'black walnut'].map((species) =>
      numberIn(bookWith('base', { species }), 'plan_cost'),
    );
    expect(walnut ?? 0).toBeGreaterThan(oak ?? 0);
  });
});

describe('the sheets of a cabinet', () => {
  it('are priced by the piece, each kind and thickness as the list has it', () => {
    // As the price list of the template says them; its prices are invented. A back of 7/32 in is sold as 1/4 in.
    for (const [sheet, nominal, back, each, backs] of [
      ['hardwood plywood', '3/4', 'hardwood plywood', 88, 38],
      ['birch plywood', '3/4', 'hardboard', 96, 20],
      ['MDF', '1/2', 'birch plywood', 36, 42],
      ['particleboard', '1', 'MDF', 50, 22],
    ] as const) {
      const book = bookWith('plywood-cabinet', { sheet, sheet_nominal: nominal, back_sheet: back });
      const prices = [3, 4].map((row) => book.cell({ sheet: 's9', row, column: 5 }).value);
      expect(prices, sheet).toEqual([
        { kind: 'number', number: each },
        { kind: 'number', number: backs },
      ]);
    }
  });
});
