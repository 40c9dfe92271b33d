import { type Html, html, type Put } from '../page/html.ts';
import { unbroken } from '../page/making.ts';
import { dayWords } from './days.ts';
import type { Said } from './said.ts';

/** What every paper begins with: whose it is, what it is, its number and day, and whom it is for. */
export interface Begins {
  /** What it is: `Quote`. */
  readonly kind: string;
  /** Its number; left out until it has one. */
  readonly number?: number | undefined;
  /** The day it is of, `2026-03-14`. */
  readonly day: string;
  /** What else stands beside its day. */
  readonly more?: readonly (readonly [says: string, shown: string])[];
  /** False: without the letterhead of the shop. */
  readonly letterhead?: boolean;
}

/** The head of a paper. */
export function beginning(said: Said, { kind, number, day, more = [], letterhead }: Begins): Html {
  const { customer, job } = said.head;
  const lines = [
    ...(customer === undefined ? [] : [['For', customer] as const]),
    ['Date', dayWords(day)] as const,
    ...more,
    ...(job === undefined ? [] : [['Job', job] as const]),
  ];
  return html`${letterhead === false ? undefined : letterheadOf(said)}<header class="paper-begins"><div><p class="paper-kind">${kind}${number === undefined ? undefined : ` ${number}`}</p><h1>${said.title}</h1></div>${factsOf(lines, 'paper-about')}</header>`;
}

const PICTURE = /^data:image\/(?:png|jpeg|webp);base64,[A-Za-z0-9+/]+={0,2}$/;

function letterheadOf({ head }: Said): Html | undefined {
  if (head.letterhead === undefined) return undefined;
  const { name, address = '', tax, logo } = head.letterhead;
  const lines = [...linesOf(address), ...(tax === undefined ? [] : [`Tax number ${tax}`])];
  return html`<div class="paper-letterhead">${
    logo === undefined || !PICTURE.test(logo) ? undefined : html`<img src="${logo}" alt="">`
  }${name === undefined ? undefined : html`<strong>${name}</strong>`}<div>${lines.map(
    (one) => html`<span>${one}</span>`,
  )}</div></div>`;
}

/** A part of a paper under its heading; nothing where there is nothing in it. */
export const part = (heading: string, body: Put, kind = ''): Html | undefined =>
  body === undefined
    ? undefined
    : html`<section class="paper-part ${kind}"><h2>${heading}</h2>${body}</section>`;

/** `what  how much`, a line each. */
export const factsOf = (
  lines: readonly (readonly [says: Put, shown: Put])[],
  kind = '',
): Html | undefined =>
  lines.length === 0
    ? undefined
    : html`<dl class="paper-facts ${kind}">${lines.map(
        ([says, shown]) => html`<div><dt>${says}</dt><dd>${kept(shown)}</dd></div>`,
      )}</dl>`;

/** A list. */
export const listOf = (items: readonly string[]): Html =>
  html`<ul class="paper-list">${items.map((one) => html`<li>${unbroken(one)}</li>`)}</ul>`;

/** Words of the maker, a paragraph a line. */
export const wordsOf = (text: string): Html =>
  html`${linesOf(text).map((line) => html`<p>${line}</p>`)}`;

const linesOf = (text: string): readonly string[] =>
  text.split(/\n+/).filter((line) => line.trim() !== '');

const kept = (put: Put): Put => (typeof put === 'string' ? unbroken(put) : put);

/** Amounts below each other, the last one of weight. */
export const amountsTable = (
  lines: readonly (readonly [says: string, amount: string, isSum?: true])[],
): Html =>
  html`<table class="paper-amounts"><tbody>${lines.map(
    ([says, amount, isSum]) =>
      html`<tr${isSum === true ? SUM : undefined}><th scope="row">${says}</th><td>${amount}</td></tr>`,
  )}</tbody></table>`;

const SUM = html` class="paper-sum"`;

/** Places to sign, side by side. */
export const signing = (who: readonly string[]): Html =>
  html`<div class="paper-signs">${who.map(
    (one) => html`<div><p class="paper-line"></p><p>${one}</p></div>`,
  )}</div>`;

/** What a maker has to do before this can be handed out: it takes the place of what is missing. */
export const lacking = (says: string): Html =>
  html`<div class="paper-lacks" role="note"><p><strong>Not ready to hand out</strong></p><p>${says}</p></div>`;
