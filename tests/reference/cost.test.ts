import { guideSections } from '@kerfbook/guide';
import { joinBooks, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { bookWith, documentOf, type Inputs, numberOf } from './books.ts';
import { checkOf, enterAll, numberIn } from './dining-table-book.ts';
import { up, wordOf } from './solid-wood-by-hand.ts';
import { describeBookItself } from './support/book-itself.ts';
import { describeSizes } from './support/sizes.ts';

/** Columns of the lines on Material: how many, price of one. On Hours: set-up, each, pieces. */
function linesOf(book: Workbook, name: string, columns: number): readonly (readonly number[])[] {
  const sheet = book.sheets().find((one) => one.name === name)?.id ?? '';
  const numbers = Array.from({ length: 40 }, (_, row) =>
    Array.from({ length: columns }, (_, i) => {
      const value = book.value({ sheet, row, column: i + 1 });
      return value.kind === 'number' ? value.number : Number.NaN;
    }),
  );
  return numbers.filter((line) => line.every((one) => !Number.isNaN(one)));
}

/** Wood stands in the first two lines; hardware and finish are not spared. */
const WOOD_LINES = 2;
const OPERATIONS = 9;

/** A job by its inputs alone: nothing but sums, shares and what is in the lines. */
function jobOf(inputs: Inputs, book: Workbook): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const bought = linesOf(book, 'Material', 2).map(([many = 0, each = 0]) => many * each);
  const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
  const wood = sum(bought.slice(0, WOOD_LINES)) * (1 + at('wood_spare') / 100);
  const material = wood + sum(bought.slice(WOOD_LINES)) + at('cost_material');
  const handled = material * (1 + at('handling_percent') / 100);
  const operations = linesOf(book, 'Hours', 3).slice(0, OPERATIONS);
  const own = sum(
    operations.map(
      ([setup = 0, each = 0, pieces = 0]) =>
        (setup + each * pieces) * (1 + at('slack_percent') / 100),
    ),
  );
  const hours = own + at('hours_total');
  const labour = hours * at('hourly_rate');
  const overhead = ((handled + labour) * at('overhead_percent')) / 100;
  const delivery = at('cost_delivery');
  const cost = handled + labour + overhead + delivery;
  const profit = at('profit_percent') / 100;
  const isMargin = wordOf(inputs, 'profit_kind') === 'margin';
  const price = isMargin ? cost / (1 - profit) : cost * (1 + profit);
  const step = at('round_step') || 0.01;
  const quote = up(price / step) * step;
  // What is paid is paid in cents, and what the first two payments leave is the third.
  const cents = (amount: number): number => Math.round(amount * 100 + 1e-7) / 100;
  const paid = cents(quote * (1 + at('tax_percent') / 100));
  const first = cents((paid * at('deposit_percent')) / 100);
  const second = cents((paid * at('second_percent')) / 100);
  return {
    job_material: material,
    price_material: handled,
    job_hours: hours,
    job_labour: labour,
    rate_needed: at('year_wages') / (at('year_weeks') * at('bench_hours')),
    price_overhead: overhead,
    job_cost: cost,
    price_by_margin: cost / (1 - profit),
    price_by_markup: cost * (1 + profit),
    job_price: price,
    job_profit: price - cost,
    profit_margin: (100 * (price - cost)) / price,
    profit_markup: (100 * (price - cost)) / cost,
    quote_rounded: quote,
    quote_tax: paid - quote,
    quote_with_tax: paid,
    quote_deposit: first,
    quote_second: second,
    quote_balance: paid - first - second,
    price_floor: cost,
    hour_earns: (quote - handled - overhead - delivery) / hours,
  };
}

describeSizes('cost', 'a job', jobOf, {
  sizes: [
    ['as it ships', {}],
    [
      'in three payments, with a tax that leaves parts of a cent',
      { tax_percent: '8.375', round_step: '1', deposit_percent: '33', second_percent: '33' },
    ],
    ['with a markup and no tax', { profit_kind: 'markup', profit_percent: '35', tax_percent: '0' }],
    ['to the next cent', { round_step: '0', tax_percent: '0' }],
    ['with material and hours from elsewhere', { cost_material: '420', hours_total: '30' }],
    [
      'at a higher rate, rounded to fifty',
      { hourly_rate: '72', round_step: '50', wood_spare: '30', cost_delivery: '140' },
    ],
    [
      'without profit, slack or handling',
      { profit_percent: '0', slack_percent: '0', handling_percent: '0', round_step: '1' },
    ],
  ],
  metric: { hourly_rate: '60', overhead_percent: '25' },
});

describe('a quote', () => {
  it('at the lowest price pays the hourly rate for every hour, and no more', () => {
    const book = bookWith('cost', {});
    const floor = enterAll(bookWith('cost', {}), {
      quote_rounded: `${numberIn(book, 'price_floor')}`,
    });
    expect(numberIn(floor, 'hour_earns')).toBeCloseTo(numberIn(book, 'hourly_rate'), 9);
    expect(checkOf(floor, 'floor')?.state).toBe('pass');
    const under = enterAll(floor, { quote_rounded: `${numberIn(book, 'price_floor') - 1}` });
    expect(checkOf(under, 'floor')?.state).toBe('stop');
  });

  it('of furniture takes its material and its hours', () => {
    const joined = joinBooks(documentOf('bench'), documentOf('cost'));
    if (!joined.ok) throw new Error(joined.says);
    const book = Workbook.open(joined.document);
    const [alone, bench] = [bookWith('cost', {}), bookWith('bench', {})];
    expect(book.problems()).toEqual([]);
    for (const [all, own, given] of [
      ['job_material', 'lines_material', 'cost_material'],
      ['job_hours', 'lines_hours', 'hours_total'],
    ] as const) {
      const sum = numberIn(alone, own) + numberIn(bench, given);
      expect(numberIn(book, all), all).toBeCloseTo(sum, 9);
    }
    // The rate is the furniture's: it was there.
    expect(numberIn(enterAll(book, { hourly_rate: '80' }), 'rate_needed')).toBeLessThan(80);
  });
});

describeBookItself('cost', 'the workbook of cost', [
  ['rate', { hourly_rate: '30' }, '$30.00'],
  ['markup', { profit_kind: 'markup' }, 'leaves a margin of'],
  ['floor', { quote_rounded: '2000' }, '$2,000.00'],
  ['profit', { quote_rounded: '3000' }, '$3,000.00'],
  ['deposit', { deposit_percent: '10' }, 'lend the customer the wood'],
  ['real', { hours_real: '60', material_real: '900' }, 'true times'],
]);

it('says in its plan what all of the material costs, not what another workbook brings of it', () => {
  const book = bookWith('cost', { cost_material: '1000' });
  const needs = guideSections(book).find(({ id }) => id === 'needs')?.html ?? '';
  const shown = (name: string): string => book.named(name)?.shown.text ?? '(no such cell)';
  expect(shown('job_material')).not.toBe(shown('cost_material'));
  expect(needs).toContain(shown('job_material'));
  expect(needs).not.toContain(`>${shown('cost_material')}<`);
});
