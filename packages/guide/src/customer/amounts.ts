import type { FiguresSaid, Money } from './said.ts';

/** What is asked for, as it is printed: each amount rounded as the workbook writes money, and all of it adds up. */
export interface Amounts {
  /** Before tax. */
  readonly price: Money;
  /** Its rate as it shows, `8 %`, and what it comes to; left out where there is none. */
  readonly tax?: { readonly rate: string | undefined; readonly money: Money };
  /** With tax. */
  readonly total: Money;
  /** Due with the order; left out where nothing is asked for then. */
  readonly deposit?: Money;
  /** Due once the work is under way; left out where nothing is asked for then. */
  readonly second?: Money;
  /** Due on delivery: with the others it comes to the total. */
  readonly balance: Money;
}

/** The amounts, or what a maker has to do for them to be there. */
export type AmountsOrNot =
  | { readonly ok: true; readonly amounts: Amounts }
  | { readonly ok: false; readonly says: string };

/**
 * What a workbook asks for its work. A quoted price is what was promised, whatever the workbook comes to now; else it is
 * the rounded price of a cost workbook, else the price. Tax and deposit are of that.
 * @param worked true: the price as it is worked out, whatever was quoted, as for an option
 */
export function amountsOf(said: FiguresSaid, worked = false): AmountsOrNot {
  const quoted = worked ? 0 : (said.number('quoted_price') ?? 0);
  const isQuoted = quoted > 0;
  const isRounded = !isQuoted && said.number('quote_rounded') !== undefined;
  const name = isQuoted ? 'quoted_price' : isRounded ? 'quote_rounded' : 'price';
  const asked = said.number(name);
  if (!worked && said.fails('quoted_price')) return failing('quoted_price');
  if (!isQuoted && said.fails('quote_rounded')) return failing('quote_rounded');
  if (said.fails(name)) return failing(name);
  if (asked === undefined) {
    return not('There is no price: name the cell of the price price, or type one under it.');
  }
  const price = said.money(asked);
  if (price.amount <= 0) {
    return not(`The price in the cell ${name} is ${price.text}: it has to be more than nothing.`);
  }
  for (const one of ['tax_percent', 'deposit_percent', 'deposit', 'second_percent'] as const) {
    if (said.fails(one)) return failing(one);
  }
  const rate = said.number('tax_percent') ?? 0;
  const kept = (cell: 'quote_with_tax' | 'quote_deposit'): number | undefined =>
    isRounded ? said.number(cell) : undefined;
  if (rate < 0) return not('The rate of tax in the cell tax_percent is less than nothing.');
  const total = said.money(
    kept('quote_with_tax') ?? price.amount + said.money((price.amount * rate) / 100).amount,
  );
  const tax = said.money(total.amount - price.amount);
  if (tax.amount < 0) {
    return not('With tax the price is less than without it: look at the cell quote_with_tax.');
  }
  const deposit = said.money(depositOf(said, total.amount, kept('quote_deposit'), name) ?? 0);
  if (deposit.amount < 0 || deposit.amount > total.amount) {
    return not(
      `The deposit, ${deposit.text}, is not between nothing and the price, ${total.text}.`,
    );
  }
  const share = said.number('second_percent') ?? 0;
  const rest = said.money(total.amount - deposit.amount);
  const asks = said.money((total.amount * share) / 100);
  if (share < 0 || asks.amount > rest.amount + CENT) {
    return not(
      `The second payment, ${asks.text}, is not between nothing and what the deposit leaves, ${rest.text}: look at the cell second_percent.`,
    );
  }
  const second = asks.amount > rest.amount ? rest : asks;
  return {
    ok: true,
    amounts: {
      price,
      ...(tax.amount > 0
        ? { tax: { rate: rate > 0 ? said.shown('tax_percent') : undefined, money: tax } }
        : {}),
      total,
      ...(deposit.amount > 0 ? { deposit } : {}),
      ...(second.amount > 0 ? { second } : {}),
      balance: said.money(rest.amount - second.amount),
    },
  };
}

/** Half and half, each rounded by itself, may come to so much more than the whole. */
const CENT = 0.01;

/** The deposit of the workbook where that is of this price; else by its rate, else as it stands. */
function depositOf(
  said: FiguresSaid,
  total: number,
  kept: number | undefined,
  name: string,
): number | undefined {
  if (kept !== undefined) return kept;
  const deposit = said.number('deposit');
  if (name === 'price' && deposit !== undefined && (said.number('tax_percent') ?? 0) === 0) {
    return deposit;
  }
  const rate = said.number('deposit_percent');
  return rate === undefined ? deposit : (total * rate) / 100;
}

const not = (says: string): AmountsOrNot => ({ ok: false, says });
const failing = (name: string): AmountsOrNot =>
  not(`The cell ${name} is in error, so there is no price to quote. Mend it first.`);
