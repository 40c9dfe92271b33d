import type { PartProblem } from '@kerfbook/drawing';
import { readVariants, takeEdit, type Variant } from '@kerfbook/studies';
import { type OpenWorkbook, Workbook } from '@kerfbook/workbook';
import { type Amounts, amountsOf } from './amounts.ts';
import { saidOf } from './said.ts';

/** An option of a quote: what it is called, and what it comes to as a whole. */
export interface PricedOption {
  /** What its maker calls it. */
  readonly name: string;
  /** What it comes to, tax included. */
  readonly amounts: Amounts;
}

/** What came of a variants table. */
export interface OptionsReading {
  /** Those that can be built and have a price. */
  readonly options: readonly PricedOption[];
  /** Why others are left out, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** So many rows are read: a customer chooses among a few. */
const MOST_VARIANTS = 20;

/** A workbook as a variant has it, beside the one that is open; or why it cannot be. */
export function asVariant(
  source: OpenWorkbook,
  variant: Variant,
):
  | { readonly ok: true; readonly book: Workbook }
  | { readonly ok: false; readonly problem: PartProblem } {
  const book = Workbook.open(source.document());
  const done = book.apply(takeEdit(book, variant.inputs));
  if (!done.ok) return { ok: false, problem: { at: variant.at, says: done.says } };
  return { ok: true, book };
}

/** What a workbook as a variant has it comes to, or why it is no option. */
export function optionOf(
  variant: Variant,
  book: OpenWorkbook,
):
  | { readonly ok: true; readonly option: PricedOption }
  | { readonly ok: false; readonly problem: PartProblem } {
  const { name, at, inputs } = variant;
  const stop = book.checks().find(({ state }) => state === 'stop');
  if (stop !== undefined) return { ok: false, problem: { at, says: `${LEFT} ${stop.says}` } };
  const own = inputs.some(({ cell }) => cell.name?.toLowerCase() === 'quoted_price');
  const worked = amountsOf(saidOf(book), !own);
  if (!worked.ok) return { ok: false, problem: { at, says: `${LEFT} ${worked.says}` } };
  return { ok: true, option: { name, amounts: worked.amounts } };
}

const LEFT = 'This variant is not among the options of the quote.';

/** The options of a workbook's variants table, each worked out in a copy of the workbook. */
export function optionsOf(source: OpenWorkbook): OptionsReading {
  const { variants, problems } = readVariants(source);
  const options: PricedOption[] = [];
  const against = [...problems];
  for (const variant of variants.slice(0, MOST_VARIANTS)) {
    const made = asVariant(source, variant);
    const priced = made.ok ? optionOf(variant, made.book) : made;
    if (priced.ok) options.push(priced.option);
    else against.push(priced.problem);
  }
  return { options, problems: against };
}
