import { type Html, html } from '../page/html.ts';
import type { AmountsOrNot } from './amounts.ts';
import { dayWords } from './days.ts';
import { amountsTable, beginning, lacking, part, signing } from './pieces.ts';
import type { Said } from './said.ts';

/** A payment that was received before, with the number of its receipt. */
export interface EarlierPayment {
  /** The day it was received, `2026-03-14`. */
  readonly day: string;
  /** In the workbook's currency. */
  readonly amount: number;
  /** Of its receipt; left out where it has none. */
  readonly number?: number;
}

/** How a receipt is made. */
export interface ReceiptOptions {
  /** Its number; left out until it has one. */
  readonly number?: number | undefined;
  /** The day it is of, `2026-03-14`. */
  readonly day: string;
  /** What was paid; the deposit, or what is still due after earlier payments, where left out. */
  readonly paid?: number | undefined;
  /** Payments before it. */
  readonly before: readonly EarlierPayment[];
  /** False: without the letterhead of the shop. */
  readonly letterhead: boolean;
}

/** What was paid and what is still due, or what a maker has to do for it to be said. */
export type Reckoned =
  | { readonly ok: true; readonly paid: number; readonly due: number }
  | { readonly ok: false; readonly says: string };

/** What is received now, and what is due after it. */
export function reckoned(
  said: Said,
  priced: AmountsOrNot,
  { paid, before }: Pick<ReceiptOptions, 'paid' | 'before'>,
): Reckoned {
  if (!priced.ok) return priced;
  const { total, deposit } = priced.amounts;
  const earlier = before.reduce((sum, one) => sum + said.money(one.amount).amount, 0);
  const open = said.money(total.amount - earlier).amount;
  const usual = before.length === 0 && deposit !== undefined ? deposit.amount : open;
  const now = said.money(paid ?? usual).amount;
  if (now <= 0) {
    return {
      ok: false,
      says:
        paid === undefined
          ? 'Everything is paid: there is nothing left to give a receipt for.'
          : 'What was paid has to be more than nothing.',
    };
  }
  if (now > open) {
    return {
      ok: false,
      says: `${said.money(now).text} is more than what is due, ${said.money(open).text}. Look at the amount, or at the price.`,
    };
  }
  return { ok: true, paid: now, due: said.money(open - now).amount };
}

/** What was paid, for what, and what is still due. */
export function receiptMain(said: Said, priced: AmountsOrNot, wishes: ReceiptOptions): Html {
  const { number, day, before, letterhead } = wishes;
  const begins = beginning(said, { kind: 'Receipt', number, day, letterhead });
  const sum = reckoned(said, priced, wishes);
  if (!sum.ok || !priced.ok) {
    const says = sum.ok ? '' : sum.says;
    return html`${begins}${part('Received', lacking(says))}`;
  }
  const { price, tax, total } = priced.amounts;
  const lines: (readonly [string, string, true?])[] = [
    [said.title, price.text],
    ...(tax === undefined
      ? []
      : [
          [tax.rate === undefined ? 'Tax' : `Tax, ${tax.rate}`, tax.money.text] as const,
          ['Total', total.text] as const,
        ]),
    ...before.map(
      (one) =>
        [
          `Paid on ${dayWords(one.day)}${one.number === undefined ? '' : `, receipt ${one.number}`}`,
          said.money(one.amount).text,
        ] as const,
    ),
    [`Received on ${dayWords(day)}`, said.money(sum.paid).text, true],
    ['Still due', said.money(sum.due).text, true],
  ];
  const { customer } = said.head;
  return html`${begins}${part(
    'Received',
    html`<p>Received ${said.money(sum.paid).text}${customer === undefined ? '' : ` from ${customer}`} for: ${said.title}.${sum.due === 0 ? ' With that it is paid in full.' : ''}</p>${amountsTable(lines)}${signing(['Received by, day'])}`,
    'paper-agreed',
  )}`;
}
