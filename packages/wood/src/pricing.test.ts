import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  priceForMargin,
  priceForMarkup,
  priceRounded,
  priceWithTax,
  taxWithin,
  workHours,
} from './pricing.ts';
import { expectFault } from './testdata/faults.ts';

const money = fc.double({ min: 1, max: 20_000, noNaN: true });
const percent = fc.double({ min: 0, max: 90, noNaN: true });

describe('margin and mark-up', () => {
  it('keeps that share of the price', () => {
    fc.assert(
      fc.property(money, percent, (cost, margin) => {
        const price = priceForMargin(cost, margin);
        expect(((price - cost) / price) * 100).toBeCloseTo(margin, 6);
        expect(((priceForMarkup(cost, margin) - cost) / cost) * 100).toBeCloseTo(margin, 6);
      }),
    );
  });

  // any bookkeeping text: a margin of 20, 25, 33-1/3, 50 % is a mark-up of 25, 33-1/3, 50, 100 %
  it.each([
    [20, 25],
    [25, 100 / 3],
    [100 / 3, 50],
    [50, 100],
  ])('a margin of %d %% is a mark-up of %d %%', (margin, markup) => {
    expect(priceForMargin(1200, margin)).toBeCloseTo(priceForMarkup(1200, markup), 9);
    expectFault(() => priceForMargin(1200, 100), 'range', 'margin_percent');
  });
});

describe('tax', () => {
  it('comes off again as it went on', () => {
    fc.assert(
      fc.property(money, percent, (price, rate) => {
        const total = priceWithTax(price, rate);
        expect(total - taxWithin(total, rate)).toBeCloseTo(price, 6);
      }),
    );
    expect(priceWithTax(1500, 8)).toBeCloseTo(1620, 9);
    expect(taxWithin(1200, 20)).toBeCloseTo(200, 9);
  });
});

describe('PRICE_ROUNDED', () => {
  it.each([
    [1242.18, 50, 1, 1249],
    [1249, 50, 1, 1249],
    [1249.01, 50, 1, 1299],
    [1250, 50, 0, 1250],
    [0.1 + 0.2, 0.1, 0, 0.3],
    [19.96, 1, 0.05, 20.95],
    // found at random: next to nothing was taken off nothing
    [0, 2, 5e-324, 0],
  ])('%d to %d less %d: %d', (price, step, less, rounded) => {
    expect(priceRounded(price, step, less)).toBe(rounded);
  });

  it('is the least of its kind that is not under the price', () => {
    fc.assert(
      fc.property(money, fc.constantFrom(1, 5, 10, 25, 50), (price, step) => {
        const rounded = priceRounded(price, step, 0.05);
        expect(rounded).toBeGreaterThanOrEqual(price - 1e-6);
        expect(rounded - step).toBeLessThan(price);
      }),
    );
    expectFault(() => priceRounded(10, 5, 6), 'range', 'less');
    expectFault(() => priceRounded(10, 0), 'range', 'step');
  });
});

describe('WORK_HOURS', () => {
  it('sets up once and adds the slack to all of it', () => {
    expect(workHours(0.5, 0.25, 8)).toBe(2.5);
    expect(workHours(0.5, 0.25, 8, 20)).toBeCloseTo(3, 12);
    expectFault(() => workHours(0.5, -1, 8), 'range', 'each');
  });
});
