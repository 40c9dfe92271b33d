import { type CellView, type OpenWorkbook, showValue, withUnit } from '@kerfbook/workbook';

type Quantity = NonNullable<CellView['quantity']>;

/** What a cell holds, in a maker's word. */
const QUANTITY_WORDS: Readonly<Record<Quantity, string>> = {
  number: 'number',
  count: 'count',
  ratio: 'ratio',
  percent: 'percent',
  moisture: 'moisture content',
  humidity: 'relative humidity',
  length: 'length',
  area: 'area',
  volume: 'volume',
  liquid: 'liquid',
  boardfeet: 'board feet',
  mass: 'weight',
  temperature: 'temperature',
  angle: 'angle',
  force: 'force',
  pressure: 'pressure',
  load_per_length: 'load per length',
  coverage: 'coverage',
  movement_rate: 'movement for 1 % of moisture',
  money: 'money',
  money_per_boardfoot: 'price per board foot',
  money_per_hour: 'hourly rate',
  duration: 'hours',
  date: 'date',
  text: 'words',
  logical: 'yes or no',
};

const ROLE_WORDS: Readonly<Record<NonNullable<CellView['role']>, string>> = {
  input: 'Input',
  calculated: 'Calculated',
  heading: 'Heading',
  note: 'Remark',
};

/** `Input, length in in`; `Calculated, money`. */
export function whatItIs(cell: CellView): string {
  const role = cell.formula === undefined ? cell.role : 'calculated';
  const quantity = cell.quantity === undefined ? undefined : QUANTITY_WORDS[cell.quantity];
  const unit = cell.unit === '' || quantity === undefined ? '' : `, ${cell.unit}`;
  const parts = [role === undefined ? undefined : ROLE_WORDS[role], quantity];
  const words = parts.filter((part) => part !== undefined).join(', ');
  return capital(`${words}${unit}`);
}

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
