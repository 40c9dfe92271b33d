import type { PartProblem } from '@kerfbook/drawing';
import { type At, type OpenWorkbook, Workbook } from '@kerfbook/workbook';
import { knownTable, TableRow } from '@kerfbook/drawing';
import { type Amounts, amountsOf } from './amounts.ts';
import { saidOf } from './said.ts';

/** A way to have the furniture otherwise, as a row of the variants table says it. */
export interface Variant {
  /** What its maker calls it. */
  readonly name: string;
  /** Where it stands. */
  readonly at: At;
  /** What each input has in it, as it is typed. */
  readonly entries: readonly { readonly name: string; readonly text: string; readonly at: At }[];
}

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

/** The variants of a workbook; none where it has no such table. */
export function readVariants(source: OpenWorkbook): {
  readonly variants: readonly Variant[];
  readonly problems: readonly PartProblem[];
} {
  const table = knownTable(source, 'variants');
  if (table === undefined || !table.columns.has('variant')) {
    return { variants: [], problems: table?.problems ?? [] };
  }
  const { sheet, first, end } = table;
  const problems = [...table.problems];
  const heads: { readonly name: string; readonly column: number }[] = [];
  const wide = source.sheet(sheet)?.columns ?? 0;
  for (let column = 0; column < wide; column += 1) {
    const at = { sheet, row: first - 1, column };
    const value = source.value(at);
    if (value.kind !== 'text' || value.text.trim() === '') continue;
    if (column === table.columns.get('variant')) continue;
    const name = value.text.trim();
    if (source.named(name) === undefined) {
      problems.push({
        at,
        says: `No cell is named "${name}". Head the column with the name of an input.`,
      });
    } else heads.push({ name, column });
  }
  const variants: Variant[] = [];
  for (let row = first; row < end && variants.length < MOST_VARIANTS; row += 1) {
    const line = new TableRow(source, table, row);
    const name = line.words('variant');
    problems.push(...line.problems);
    if (name === undefined) continue;
    const entries = heads.flatMap((head) => {
      const at = { sheet, row, column: head.column };
      const text = typed(source, at);
      return text === undefined ? [] : [{ name: head.name, text, at }];
    });
    variants.push({ name, at: line.at('variant'), entries });
  }
  return { variants, problems };
}

/** What a cell holds, as one types it; nothing where it is blank or in error. */
function typed(source: OpenWorkbook, at: At): string | undefined {
  const cell = source.cell(at);
  if (cell.value.kind === 'text') return cell.value.text.trim() || undefined;
  if (cell.value.kind === 'logical') return cell.value.logical ? 'TRUE' : 'FALSE';
  return cell.value.kind === 'number' ? String(cell.value.number) : undefined;
}

/** A workbook as a variant has it, beside the one that is open; or why it cannot be. */
export function asVariant(
  source: OpenWorkbook,
  variant: Variant,
):
  | { readonly ok: true; readonly book: Workbook }
  | { readonly ok: false; readonly problem: PartProblem } {
  const book = Workbook.open(source.document());
  for (const { name, text, at } of variant.entries) {
    const cell = book.named(name);
    if (cell === undefined) continue;
    const sign = cell.quantity === 'percent' && /^[\d.]+$/.test(text) ? '%' : '';
    const { sheet, row, column } = cell.at;
    const done = book.apply({
      do: 'enter',
      sheet,
      cells: [{ row, column, text: `${text}${sign}` }],
    });
    if (!done.ok) return { ok: false, problem: { at, says: done.says } };
  }
  return { ok: true, book };
}

/** What a workbook as a variant has it comes to, or why it is no option. */
export function optionOf(
  variant: Variant,
  book: OpenWorkbook,
):
  | { readonly ok: true; readonly option: PricedOption }
  | { readonly ok: false; readonly problem: PartProblem } {
  const { name, at, entries } = variant;
  const stop = book.checks().find(({ state }) => state === 'stop');
  if (stop !== undefined) return { ok: false, problem: { at, says: `${LEFT} ${stop.says}` } };
  const own = entries.some((one) => one.name.toLowerCase() === 'quoted_price');
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
  for (const variant of variants) {
    const made = asVariant(source, variant);
    const priced = made.ok ? optionOf(variant, made.book) : made;
    if (priced.ok) options.push(priced.option);
    else against.push(priced.problem);
  }
  return { options, problems: against };
}
