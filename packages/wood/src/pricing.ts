import { countOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { ceilSettled, settle } from './exact.ts';
import { between, notNegative } from './guards.ts';

const COST = numberOf('money', 'cost', 'what it costs you, labor and materials together');
const MARGIN = numberOf(
  'percent',
  'margin_percent',
  'share of the price to keep, percent, 0 to 99',
);
const MARKUP = numberOf(
  'percent',
  'markup_percent',
  'what is added to the cost, percent of the cost, 0 to 1000',
);
const PRICE = numberOf('money', 'price', 'price before tax');
const TOTAL = numberOf('money', 'total', 'price with the tax in it');
const TAX = numberOf('percent', 'tax_percent', 'tax, percent of the price before it, 0 to 100');
const EXACT = numberOf('money', 'price', 'price as it was worked out');
const STEP = numberOf('money', 'step', 'round prices a customer sees: 5, 10, 50 …');
const LESS = optional(
  numberOf('money', 'less', 'what to stay under the round price: 1 for 1,249'),
  '0',
);
const SETUP = numberOf('duration', 'setup', 'hours to set up for this part, once');
const EACH = numberOf('duration', 'each', 'hours for one of it');
const COUNT = countOf('count', 'how many of it');
const SLACK = optional(
  numberOf('percent', 'slack_percent', 'what interruptions and mishaps add, percent, 0 to 500'),
  '0',
);

const LEAST_STEP = 0.01;
const MOST_STEP = 1e6;
const DEAREST = 1e9;

/**
 * Price of which a share is kept.
 * @param cost money
 * @param marginPercent % of the price, 0 to 99
 * @returns money: cost / (1 − margin)
 * @throws Fault `kind`, `range`
 * Source: common practice, no source: margin is of the price, mark-up of the cost.
 */
export function priceForMargin(cost: number, marginPercent: number): number {
  return notNegative(COST, cost) / (1 - between(MARGIN, marginPercent, 0, 99) / 100);
}

/**
 * Price that adds a share of the cost to it.
 * @param cost money
 * @param markupPercent % of the cost, 0 to 1000
 * @returns money: cost x (1 + mark-up)
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function priceForMarkup(cost: number, markupPercent: number): number {
  return notNegative(COST, cost) * (1 + between(MARKUP, markupPercent, 0, 1000) / 100);
}

/**
 * Price with the tax on it.
 * @param price money
 * @param taxPercent %, 0 to 100
 * @returns money: price x (1 + tax)
 * @throws Fault `kind`, `range`
 * Source: arithmetic; the rate is that of the place and of the goods.
 */
export function priceWithTax(price: number, taxPercent: number): number {
  return notNegative(PRICE, price) * (1 + between(TAX, taxPercent, 0, 100) / 100);
}

/**
 * Tax that is in a price.
 * @param total money, tax included
 * @param taxPercent %, 0 to 100
 * @returns money: total x tax / (1 + tax)
 * @throws Fault `kind`, `range`
 * Source: arithmetic.
 */
export function taxWithin(total: number, taxPercent: number): number {
  const rate = between(TAX, taxPercent, 0, 100) / 100;
  return (notNegative(TOTAL, total) * rate) / (1 + rate);
}

/**
 * Next price up that reads well.
 * @param price money
 * @param step money, 0.01 to a million
 * @param less money under the round one, less than the step; 0 when left out
 * @returns money: a multiple of the step, less `less`, that is no less than the price
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function priceRounded(price: number, step: number, less = 0): number {
  const exact = between(EXACT, price, 0, DEAREST);
  const round = between(STEP, step, LEAST_STEP, MOST_STEP);
  const under = between(LESS, less, 0, round);
  return Math.max(0, settle(ceilSettled((exact + under) / round) * round - under));
}

/**
 * Hours that some alike parts take.
 * @param setup h
 * @param each h
 * @param count how many, also a part of one
 * @param slackPercent % on top, 0 to 500; 0 when left out
 * @returns h: (setup + each x count) x (1 + slack)
 * @throws Fault `kind`, `range`
 * Source: common practice, no source.
 */
export function workHours(setup: number, each: number, count: number, slackPercent = 0): number {
  const slack = between(SLACK, slackPercent, 0, 500) / 100;
  const bench = notNegative(EACH, each) * notNegative(COUNT, count);
  return (notNegative(SETUP, setup) + bench) * (1 + slack);
}

const PRACTICE = 'common practice, no source';
const TAXES =
  'Which tax applies to a sale, and how much of it is yours to pay, depends on local law: ask there.';

export const PRICING_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PRICE_FOR_MARGIN',
    task: 'Price',
    answers: 'What price leaves a given margin over the cost.',
    args: [COST, MARGIN],
    result: { quantity: 'money', means: 'price before tax' },
    source: PRACTICE,
    example: '=PRICE_FOR_MARGIN(1200, 30)',
    notes: 'A margin of 30 % is of the price: a markup of 43 % on the cost.',
    run: priceForMargin,
  },
  {
    name: 'PRICE_FOR_MARKUP',
    task: 'Price',
    answers: 'What price a given markup on the cost comes to.',
    args: [COST, MARKUP],
    result: { quantity: 'money', means: 'price before tax' },
    source: PRACTICE,
    example: '=PRICE_FOR_MARKUP(1200, 30)',
    notes: 'A markup of 30 % is of the cost: a margin of 23 % of the price.',
    run: priceForMarkup,
  },
  {
    name: 'PRICE_WITH_TAX',
    task: 'Price',
    answers: 'What a customer pays with the tax.',
    args: [PRICE, TAX],
    result: { quantity: 'money', means: 'price with the tax' },
    source: 'arithmetic',
    example: '=PRICE_WITH_TAX(1500, 8)',
    notes: TAXES,
    run: priceWithTax,
  },
  {
    name: 'TAX_WITHIN',
    task: 'Price',
    answers: 'How much tax is in a price that has it.',
    args: [TOTAL, TAX],
    result: { quantity: 'money', means: 'the tax' },
    source: 'arithmetic',
    example: '=TAX_WITHIN(1620, 8)',
    notes: TAXES,
    run: taxWithin,
  },
  {
    name: 'PRICE_ROUNDED',
    task: 'Price',
    answers: 'The next round price, at or above one that was worked out.',
    args: [EXACT, STEP, LESS],
    result: { quantity: 'money', means: 'never under the price worked out' },
    source: PRACTICE,
    example: '=PRICE_ROUNDED(1242.18, 50, 1)',
    notes: 'Round once, at the very end: with the tax in it if that is what the customer sees.',
    run: priceRounded,
  },
  {
    name: 'WORK_HOURS',
    task: 'Price',
    answers: 'How many hours a run of like parts takes, setup included.',
    args: [SETUP, EACH, COUNT, SLACK],
    result: { quantity: 'duration', means: 'hours' },
    source: PRACTICE,
    example: '=WORK_HOURS(0.5, 0.25, 8, 15)',
    notes:
      'One row for each kind of part, then their sum times the rate. Write down what the last one took.',
    run: workHours,
  },
];
