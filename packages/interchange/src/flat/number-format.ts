import type { CellDocument } from '@kerfbook/document';
import { OWN_UNITS } from '@kerfbook/wood';
import {
  type CellValue,
  contextOf,
  type ShowContext,
  type Style,
  showValue,
  styleOf,
  unitShown,
} from '@kerfbook/workbook';

/** How a cell's number is written in a file, and what is otherwise than in the workbook. */
export interface NumberFormat {
  /** Code after ECMA-376 part 1, 18.8.31; none: general. */
  readonly code?: string;
  /** The unit that the workbook shows, where the file shows the number in its own unit. */
  readonly shownIn?: string;
}

type Head = Parameters<typeof contextOf>[1];

/**
 * The format of a cell's number. A file's number stays in the workbook's own unit, since formulas rest on it: what the
 * workbook shows in another unit bears its own one in the format.
 */
export function numberFormat(
  cell: CellDocument | undefined,
  head: Head,
  value: CellValue,
): NumberFormat {
  const context = contextOf(cell, head);
  const isWords = value.kind === 'text' || value.kind === 'logical';
  if (isWords || context.quantity === 'text' || context.quantity === 'logical') {
    // Words that look like numbers, 8/4 or 1/2, must stay words when they are typed again.
    return context.quantity === 'text' && cell?.formula === undefined ? { code: '@' } : {};
  }
  // A blank to be filled in, or an error that may go, has the format of what will stand there.
  const usual = cell?.formula === undefined ? 0 : 1 / 3;
  const number = value.kind === 'number' ? value.number : usual;
  const style = styleOf(context);
  const own = context.quantity === undefined ? '' : OWN_UNITS[context.quantity][context.system];
  const shown = unitShown(context);
  const isOther = style.as === 'feet-inches' ? own !== 'in' : shown !== own && own !== '';
  if (isOther) return { code: `${decimals(3)}${unitSuffix(own)}`, shownIn: shown || 'ft and in' };
  const code = codeOf(style, context, number);
  return code === undefined ? {} : { code };
}

/** The same of what is not in a cell. */
export const decimals = (places: number, grouped = false): string =>
  `${grouped ? '#,##0' : '0'}${places > 0 ? `.${'0'.repeat(places)}` : ''}`;

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
const unitSuffix = (unit: string): string => (unit === '' ? '' : quoted(` ${unit}`));

function codeOf(style: Style, context: ShowContext, value: number): string | undefined {
  switch (style.as) {
    case 'date':
      return 'yyyy-mm-dd';
    case 'money':
      return moneyCode(context, style);
    case 'fraction':
      return fractionCode(style, value);
    case 'feet-inches':
      return `${fractionCode({ ...style, as: 'fraction' }, value)}${unitSuffix('in')}`;
    case 'plain':
      return undefined;
    case 'decimal':
      return decimalCode(style, context, value);
  }
}

/** What a number shows now tells how many places keep two digits of it. */
function decimalCode(style: Style, context: ShowContext, value: number): string {
  const { text } = showValue({ kind: 'number', number: value }, context);
  const now = /\.(\d+)/.exec(text)?.[1]?.length ?? 0;
  if (context.quantity === 'count' && now === 0) return decimals(0);
  return decimals(Math.max(style.decimals ?? 0, now), style.grouped);
}

/**
 * A fraction that was typed stands as it is, whatever its denominator; one that is worked out is told on the tape's.
 * Numbers that are told in decimals under a size have a section of their own.
 */
function fractionCode(style: Style, value: number): string {
  const { denominator, exactTo, decimalsUnder = 0, decimals: places = 3 } = style;
  const isExact = exactTo !== undefined && Number.isInteger(value * exactTo);
  const fraction = isExact || denominator === undefined ? '# ??/??' : `# ??/${denominator}`;
  if (decimalsUnder === 0 || isExact) return fraction;
  if (!Number.isFinite(decimalsUnder)) return decimals(places);
  return `[<${decimalsUnder}]${decimals(places)};${fraction}`;
}

/** An amount of the workbook's money, its sign where it is put in the workbook. */
function moneyCode(context: ShowContext, style: Style): string {
  const one = showValue({ kind: 'number', number: 1 }, { ...context, quantity: 'money' }).text;
  const number = /\d(?:[.,]\d+)?/.exec(one)?.[0] ?? '1';
  const [before = '', after = ''] = one.split(number);
  const places = style.decimals ?? Math.max(0, number.length - 2);
  const sign = (text: string): string => (text === '' ? '' : quoted(text));
  return `${sign(before)}${decimals(places, true)}${sign(after)}`;
}
