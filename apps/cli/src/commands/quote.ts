import { shopPlan } from '@kerfbook/drawing';
import {
  asVariant,
  CUSTOMER_PAGES,
  type CustomerPageKind,
  type CustomerPageMade,
  customerPage,
  isDay,
  MOST_VALID_DAYS,
  type OptionsReading,
  optionOf,
  PAPERS,
  VALID_DAYS,
} from '@kerfbook/guide';
import { readVariants } from '@kerfbook/studies';
import { readEntry, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { guideFonts } from '../guide-fonts.ts';
import { openAndSet } from '../open-set.ts';
import { provePlans } from '../prove.ts';
import { cellOf } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

/** `quote`: what a customer is handed, as a page ready to print. */
export const quoteCommand: Command = {
  name: 'quote',
  usage:
    'quote FILE --out PAGE [--set name=entry]… [--kind quote|care|receipt] [--paper a4|letter] [--number N] [--date YYYY-MM-DD] [--valid DAYS] [--paid AMOUNT] [--json] [--force]',
  does: `writes the quote, the care note or a receipt for the customer as one HTML page, ready to print; a quote holds ${VALID_DAYS} days where nothing else is said (common practice, no source)`,
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      out: { type: 'string' },
      set: { type: 'string', multiple: true },
      kind: { type: 'string' },
      paper: { type: 'string' },
      number: { type: 'string' },
      date: { type: 'string' },
      valid: { type: 'string' },
      paid: { type: 'string' },
      json: { type: 'boolean' },
      force: { type: 'boolean' },
    });
    const { out } = values;
    if (out === undefined || out === '') {
      throw new Misuse('--out says where the page goes; it is missing.');
    }
    const kind = oneOf('--kind', KINDS, values.kind) ?? 'quote';
    const paper = oneOf('--paper', PAPERS, values.paper);
    const number = wholeOf('--number', values.number, 999_999);
    const valid = wholeOf('--valid', values.valid, MOST_VALID_DAYS);
    const day = values.date ?? today();
    if (!isDay(day)) {
      throw new Misuse(`--date takes a day such as 2026-03-14; it got "${day}".`);
    }
    if (valid !== undefined && kind !== 'quote') throw new Misuse('--valid goes with a quote.');
    if (values.paid !== undefined && kind !== 'receipt') {
      throw new Misuse('--paid goes with --kind receipt.');
    }
    const opened = await openAndSet('make a quote of', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const paid = values.paid === undefined ? undefined : amountOf(book, values.paid);
    const prove = (one: Workbook): Promise<void> => provePlans(one, (of) => shopPlan(of, 'cell'));
    await prove(book);
    const reading = kind === 'quote' ? await provenOptions(book, prove) : NO_OPTIONS;
    const made = customerPage(book, {
      kind,
      paper: paper ?? (book.units === 'us' ? 'letter' : 'a4'),
      day,
      options: reading.options,
      fonts: await guideFonts(),
      ...(number === undefined ? {} : { number }),
      ...(valid === undefined ? {} : { valid }),
      ...(paid === undefined ? {} : { paid }),
    });
    const told = [
      ...refused.map(({ cell, says }) => `${cell} ${says}`),
      ...reading.problems.map(({ at, says }) => `${cellOf(book, at)} ${says}`),
      ...(made.lacks === undefined ? [] : [made.lacks]),
    ];
    for (const says of told) io.err(says);
    const trouble = await io.write(out, made.page, values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    if (values.json === true) printJson(io, inJson(book, kind, day, number, made));
    return told.length > 0 ? 1 : 0;
  },
};

const KINDS = Object.keys(CUSTOMER_PAGES) as CustomerPageKind[];
const NO_OPTIONS: OptionsReading = { options: [], problems: [] };

/** The options of a quote with their plans proven, as the quote itself has its own. */
async function provenOptions(
  book: Workbook,
  prove: (book: Workbook) => Promise<void>,
): Promise<OptionsReading> {
  const { variants, problems } = readVariants(book);
  const options: OptionsReading['options'][number][] = [];
  const against = [...problems];
  for (const variant of variants) {
    const made = asVariant(book, variant);
    if (made.ok) await prove(made.book);
    const priced = made.ok ? optionOf(variant, made.book) : made;
    if (priced.ok) options.push(priced.option);
    else against.push(priced.problem);
  }
  return { options, problems: against };
}

/** The amounts as numbers, rounded as they are printed. */
function inJson(
  { currency }: Workbook,
  kind: CustomerPageKind,
  date: string,
  number: number | undefined,
  { amounts, until, options, receipt, lacks }: CustomerPageMade,
) {
  return {
    kind,
    ...(number === undefined ? {} : { number }),
    date,
    ...(until === undefined ? {} : { validUntil: until }),
    ...(amounts === undefined
      ? {}
      : {
          currency,
          price: amounts.price.amount,
          ...(amounts.tax === undefined ? {} : { tax: amounts.tax.money.amount }),
          total: amounts.total.amount,
          ...(amounts.deposit === undefined ? {} : { deposit: amounts.deposit.amount }),
          ...(amounts.second === undefined ? {} : { second: amounts.second.amount }),
          later: amounts.balance.amount,
        }),
    ...(receipt === undefined ? {} : { paid: receipt.paid, due: receipt.due }),
    ...(kind === 'quote'
      ? {
          options: options.map((one) => ({ name: one.name, total: one.amounts.total.amount })),
        }
      : {}),
    ...(lacks === undefined ? {} : { lacks }),
  };
}

function oneOf<T extends string>(
  option: string,
  all: readonly T[],
  word: string | undefined,
): T | undefined {
  const found = all.find((one) => one === word?.toLowerCase());
  if (word !== undefined && found === undefined) {
    throw new Misuse(`${option} takes ${all.join(', ')}; it got "${word}".`);
  }
  return found;
}

function wholeOf(option: string, word: string | undefined, most: number): number | undefined {
  if (word === undefined) return undefined;
  const number = /^\d{1,9}$/.test(word) ? Number(word) : 0;
  if (number < 1 || number > most) {
    throw new Misuse(`${option} takes a whole number from 1 to ${most}; it got "${word}".`);
  }
  return number;
}

function amountOf({ units, currency }: Workbook, text: string): number {
  const read = readEntry(text, { quantity: 'money', system: units, currency });
  if (read.kind === 'value' && typeof read.value === 'number') return read.value;
  throw new Misuse(`--paid takes an amount such as 500; it got "${text}".`);
}

/** The day it is here. */
function today(): string {
  const now = new Date();
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
