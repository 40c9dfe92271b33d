import type { PartProblem } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { html } from '../page/html.ts';
import { type PageFonts, type Paper, printedPage } from '../page/printed-page.ts';
import { GUIDE_STYLES } from '../page/styles.ts';
import { type Amounts, amountsOf } from './amounts.ts';
import { careMain } from './care-note.ts';
import { dayAfter, VALID_DAYS } from './days.ts';
import { FIRST_WITHOUT, type QuotePart, quoteMain } from './quote.ts';
import { type EarlierPayment, receiptMain, reckoned } from './receipt.ts';
import { saidOf } from './said.ts';
import { CUSTOMER_STYLES } from './styles.ts';
import { optionsOf, type PricedOption } from './variants.ts';

/** What a customer is handed, each with what it is called. */
export const CUSTOMER_PAGES = { quote: 'Quote', care: 'Care note', receipt: 'Receipt' } as const;

/** One of them. */
export type CustomerPageKind = keyof typeof CUSTOMER_PAGES;

/** How such a page is made. */
export interface CustomerPageOptions {
  /** Which one. */
  readonly kind: CustomerPageKind;
  /** The sheet it is laid out for. */
  readonly paper: Paper;
  /** The letters it is set in; the reader's own where left out. */
  readonly fonts?: PageFonts;
  /** Its number; left out until it has one. */
  readonly number?: number;
  /** The day it is of, `2026-03-14`. */
  readonly day: string;
  /** How many days a quote holds; {@link VALID_DAYS} where left out. */
  readonly valid?: number;
  /** What of it is left out; {@link FIRST_WITHOUT} where nothing is said. */
  readonly without?: readonly QuotePart[];
  /** Options of a quote that were worked out already; those of the variants table where left out. */
  readonly options?: readonly PricedOption[];
  /** What was paid now; the deposit, or what is due, where left out. */
  readonly paid?: number;
  /** What was paid before. */
  readonly before?: readonly EarlierPayment[];
}

/** A page for a customer, and what its maker should know of it. */
export interface CustomerPageMade {
  /** One page of HTML, ready to print; no script and no workbook is in it. */
  readonly page: string;
  /** Why it is not ready to be handed out; left out where it is. */
  readonly lacks?: string;
  /** Variants that are no options, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** What it asks for, where there is a price. */
  readonly amounts?: Amounts;
  /** The options it names. */
  readonly options: readonly PricedOption[];
  /** The last day on which a quote holds. */
  readonly until?: string;
  /** What a receipt says was paid and is still due. */
  readonly receipt?: { readonly paid: number; readonly due: number };
}

/**
 * What a customer gets of an open workbook, to print and as a file: the quote, the care note or the receipt. It is made
 * from {@link saidOf} alone, the list of what may be said: costs, profit, rates, remarks and notes cannot come into it.
 */
export function customerPage(source: OpenWorkbook, wishes: CustomerPageOptions): CustomerPageMade {
  const { kind, number, day, valid = VALID_DAYS, paid, before = [], paper, fonts } = wishes;
  const said = saidOf(source);
  const without = new Set(wishes.without ?? FIRST_WITHOUT);
  const letterhead = !without.has('letterhead');
  const priced = amountsOf(said);
  const wantsOptions = kind === 'quote' && !without.has('options');
  const reading =
    !wantsOptions || wishes.options !== undefined
      ? { options: wantsOptions ? (wishes.options ?? []) : [], problems: [] }
      : optionsOf(source);
  const { options, problems } = reading;
  const sum = kind === 'receipt' ? reckoned(said, priced, { paid, before }) : undefined;
  const main =
    kind === 'quote'
      ? quoteMain(said, priced, { number, day, valid, without, options })
      : kind === 'care'
        ? careMain(said, { number, day, letterhead })
        : receiptMain(said, priced, { number, day, paid, before, letterhead });
  const called = `${CUSTOMER_PAGES[kind]}${number === undefined ? '' : ` ${number}`}`;
  const page = printedPage({
    title: `${called}, ${said.title}`,
    language: 'en',
    paper,
    ...(fonts === undefined ? {} : { fonts }),
    styles: GUIDE_STYLES + CUSTOMER_STYLES,
    main: html`<main class="paper" data-kind="${kind}">
${main}
</main>`,
  });
  const lacks = kind === 'care' || priced.ok ? undefined : priced.says;
  const unpaid = sum === undefined || sum.ok ? undefined : sum.says;
  return {
    page,
    problems,
    options,
    ...(lacks === undefined && unpaid === undefined ? {} : { lacks: lacks ?? unpaid ?? '' }),
    ...(kind !== 'care' && priced.ok ? { amounts: priced.amounts } : {}),
    ...(kind === 'quote' ? { until: dayAfter(day, valid) } : {}),
    ...(sum?.ok === true ? { receipt: { paid: sum.paid, due: sum.due } } : {}),
  };
}
