import { type Html, html, type Put } from '../page/html.ts';
import { capital } from '../page/making.ts';
import type { AmountsOrNot } from './amounts.ts';
import { dayAfter, daysWords, dayWords } from './days.ts';
import { amountsTable, beginning, factsOf, lacking, part, signing, wordsOf } from './pieces.ts';
import type { Said } from './said.ts';
import type { PricedOption } from './variants.ts';

/** What of a quote its maker may leave out, each with what its tick says. */
export const QUOTE_PARTS = {
  letterhead: 'Letterhead',
  drawing: 'Drawing',
  views: 'Views with sizes',
  sizes: 'Sizes',
  wood: 'Wood',
  finish: 'Finish',
  included: 'What is included',
  perSeat: 'Price per seat',
  deposit: 'Deposit',
  options: 'Options',
  due: 'Delivery date',
  terms: 'Terms',
  sign: 'Place to sign',
} as const;

/** One of them. */
export type QuotePart = keyof typeof QUOTE_PARTS;

/** What is not on a quote until its maker asks for it: what leads to how it is built, and to another price. */
export const FIRST_WITHOUT: readonly QuotePart[] = ['views', 'perSeat'];

/** How a quote is made. */
export interface QuoteOptions {
  /** Its number; left out until it has one. */
  readonly number?: number | undefined;
  /** The day it is of, `2026-03-14`. */
  readonly day: string;
  /** How many days it holds. */
  readonly valid: number;
  /** What is left out of it. */
  readonly without: ReadonlySet<QuotePart>;
  /** Ways to have it otherwise. */
  readonly options: readonly PricedOption[];
}

/** What is offered, for how much, and what is agreed by signing it. */
export function quoteMain(said: Said, priced: AmountsOrNot, wishes: QuoteOptions): Html {
  const { number, day, valid, without } = wishes;
  const has = (one: QuotePart): boolean => !without.has(one);
  const until = dayAfter(day, valid);
  return html`${beginning(said, {
    kind: 'Quote',
    number,
    day,
    letterhead: has('letterhead'),
    more: [['Valid until', `${dayWords(until)}, ${daysWords(valid)}`]],
  })}${has('drawing') ? drawing(said) : undefined}${factsOf(factLines(said, has), 'paper-two')}${
    has('views') ? viewsOf(said) : undefined
  }${has('included') ? included(said, has) : undefined}${price(said, priced, has)}${
    has('options') ? optionsPart(wishes.options) : undefined
  }${agreement(said, priced, until, has)}`;
}

const drawing = (said: Said): Html | undefined => {
  const svg = said.picture(180, 56);
  return svg === undefined ? undefined : html`<div class="paper-drawing">${svg}</div>`;
};

const viewsOf = (said: Said): Html =>
  html`${said.views().map((one) => html`<div class="paper-view">${one}</div>`)}`;

type Has = (one: QuotePart) => boolean;

function factLines(said: Said, has: Has): readonly (readonly [says: string, shown: string])[] {
  const line = (on: boolean, says: string, shown: string | undefined) =>
    on && shown !== undefined ? [[says, capital(shown)] as const] : [];
  return [
    ...(has('sizes') ? said.sizes : []),
    ...line(has('wood'), 'Wood', said.wood),
    ...line(has('finish'), 'Finish', said.shown('finish')),
    ...line(has('sizes'), 'Seats', said.shown('seats')),
  ];
}

/** What the price is for: as the workbook says it, else what can be said of any piece; common practice, no source. */
function included(said: Said, has: Has): Html {
  const told = said.shown('included');
  const not = said.shown('not_included');
  const isDrawn = has('drawing') && said.sizes.length > 0;
  const things = [
    said.sizes.length > 0 && has('sizes') ? 'in these sizes' : undefined,
    has('wood') && said.wood !== undefined ? `in ${said.wood}` : undefined,
    has('finish') && said.shown('finish') !== undefined
      ? `finished with ${lower(said.shown('finish') ?? '')}`
      : undefined,
  ].filter((one) => one !== undefined);
  const usual = `The piece as it is ${isDrawn ? 'drawn and described' : 'named'} on this quote${things.length === 0 ? '' : `: ${things.join(', ')}`}.`;
  return html`<div class="paper-pair">${part('Included', told === undefined ? html`<p>${usual}</p>` : wordsOf(told))}${part(
    'Not included',
    not === undefined
      ? html`<p>Anything that neither this quote nor its terms name, such as delivery, setting up, fastening to a wall, and changes made after the order.</p>`
      : wordsOf(not),
  )}</div>`;
}

/** Words as they go on within a sentence; what is written in capitals stays. */
const lower = (words: string): string =>
  /^[A-Z][a-z]/.test(words) ? words.slice(0, 1).toLowerCase() + words.slice(1) : words;

function price(said: Said, priced: AmountsOrNot, has: Has): Html | undefined {
  if (!priced.ok) return part('Price', lacking(priced.says));
  const { amounts } = priced;
  const { tax, deposit, second } = amounts;
  const isTaxed = tax !== undefined;
  const perSeat = has('perSeat') ? said.number('price_per_seat') : undefined;
  const seats = said.number('seats');
  const lines: (readonly [string, string, true?])[] = [
    ...(isTaxed
      ? [
          [said.title, amounts.price.text] as const,
          [tax.rate === undefined ? 'Tax' : `Tax, ${tax.rate}`, tax.money.text] as const,
          ['Total', amounts.total.text, true] as const,
        ]
      : [[said.title, amounts.total.text, true] as const]),
    // Of what is asked for here, which may be another price than the workbook's own.
    ...(perSeat === undefined || seats === undefined || seats < 1
      ? []
      : [['For each seat', said.money(amounts.total.amount / seats).text] as const]),
    ...(has('deposit') && (deposit !== undefined || second !== undefined)
      ? [
          ...(deposit === undefined
            ? []
            : [['Deposit, due with the order', deposit.text] as const]),
          ...(second === undefined
            ? []
            : [['Second payment, once the work is under way', second.text] as const]),
          ['Due on delivery', amounts.balance.text] as const,
        ]
      : []),
  ];
  const { due } = said.head;
  return part(
    'Price',
    html`${amountsTable(lines)}${has('due') && due !== undefined ? html`<p>Delivery: ${dayWords(due)}.</p>` : undefined}`,
    'paper-price',
  );
}

function optionsPart(options: readonly PricedOption[]): Html | undefined {
  if (options.length === 0) return undefined;
  const isTaxed = options.some(({ amounts }) => amounts.tax !== undefined);
  return part(
    'Options',
    html`<p>The same piece otherwise, each at its price as a whole${isTaxed ? ', tax included' : ''}. Tell us which one before you sign.</p>${amountsTable(
      options.map(({ name, amounts }) => [name, amounts.total.text] as const),
    )}`,
  );
}

function agreement(said: Said, priced: AmountsOrNot, until: string, has: Has): Put {
  const { terms, agreed } = said.head;
  // Terms that fit on the page that is signed stand on it.
  return html`<div class="paper-end">${has('terms') && terms !== undefined ? part('Terms', wordsOf(terms)) : undefined}${
    has('sign') && priced.ok
      ? part(
          'Agreed',
          html`<p>${agreed === undefined ? `This quote holds until ${dayWords(until)}. Signed by both, it is the order.` : `The price was agreed on ${dayWords(agreed)}. Signed by both, this quote is the order.`}</p>${signing(['Customer, day', 'Shop, day'])}`,
          'paper-agreed',
        )
      : undefined
  }</div>`;
}
