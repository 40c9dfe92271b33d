import { type CellView, type OpenWorkbook, showValue, withUnit } from '@kerfbook/workbook';
import { kindInWords } from '../page/kind-words.ts';
import { isToTypeOver } from '../session/to-type-over.ts';

const ROLE_WORDS: Readonly<Record<NonNullable<CellView['role']>, string>> = {
  input: 'Input',
  calculated: 'Calculated',
  heading: 'Heading',
  note: 'Remark',
};

/** `Input, length, in`; `Calculated, money`. */
export function whatItIs(cell: CellView): string {
  const role = cell.formula === undefined ? cell.role : 'calculated';
  const parts = [role === undefined ? undefined : roleWords(role, cell), kindInWords(cell)];
  return capital(parts.filter((part) => part !== undefined).join(', '));
}

const roleWords = (role: NonNullable<CellView['role']>, cell: CellView): string =>
  isToTypeOver(cell) && cell.override === undefined
    ? 'Calculated until you type over it'
    : ROLE_WORDS[role];

/** What a cell allows, in a sentence; undefined where it allows anything. */
export function whatItAllows(book: OpenWorkbook, cell: CellView): string | undefined {
  const { allow } = cell;
  if (allow === undefined) return undefined;
  const show = (number: number): string => shown(book, cell, number);
  const whole = allow.whole === true ? 'whole numbers' : undefined;
  const range = rangeWords(
    allow.min === undefined ? undefined : show(allow.min),
    allow.max === undefined ? undefined : show(allow.max),
  );
  const words = [whole, range].filter((part) => part !== undefined).join(', ');
  if (words !== '') return `Allowed: ${words}.`;
  return allow.list === undefined ? undefined : `One of ${allow.list.length} choices.`;
}

/** What the formula under an override comes to. */
export function underOverride(book: OpenWorkbook, cell: CellView): string | undefined {
  if (cell.formula === undefined || cell.override === undefined) return undefined;
  const value = book.evaluate(cell.formula, cell.at.sheet);
  if (value.kind === 'error') return value.error.says;
  return withUnit(showValue(value, showing(book, cell)).text, cell.unit);
}

function rangeWords(min: string | undefined, max: string | undefined): string | undefined {
  if (min !== undefined && max !== undefined) return `${min} to ${max}`;
  if (min !== undefined) return `${min} and more`;
  return max === undefined ? undefined : `up to ${max}`;
}

function shown(book: OpenWorkbook, cell: CellView, number: number): string {
  return showValue({ kind: 'number', number }, showing(book, cell)).text;
}

function showing(book: OpenWorkbook, cell: CellView) {
  return {
    system: book.units,
    currency: book.currency,
    ...(cell.quantity === undefined ? {} : { quantity: cell.quantity }),
    ...(cell.show === undefined ? {} : { show: cell.show }),
  };
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
