import type { CellIn, ValueIn } from '../taking/coming-in.ts';
import type { FormatRead } from '../taking/format-code.ts';
import type { Said } from '../xml/read.ts';
import { plainFormula } from './read-formula.ts';

/** What a cell's elements say, wherever it stands. */
export interface RawCell {
  readonly said: Said;
  /** Its paragraphs. */
  readonly text: string;
  readonly hasText: boolean;
  readonly remark: string;
}

interface Content {
  readonly value?: ValueIn | undefined;
  readonly formula?: string | undefined;
  readonly fills?: CellIn['fills'] | undefined;
  readonly format?: FormatRead | undefined;
}

const ERROR = /^#(?:DIV\/0!|N\/A|NAME\?|NULL!|NUM!|REF!|VALUE!)$/;
/** How some programs show other errors of theirs. */
const OTHER_ERROR = /^Err:\d{3}$/;

/** What a cell holds (OpenDocument 1.3 part 3, 19.387). */
export function contentOf(raw: RawCell): Content {
  const { said } = raw;
  const written = said['table:formula'];
  const formula = written === undefined ? undefined : plainFormula(written);
  if (formula !== undefined && ERROR.test(formula))
    return { value: { kind: 'error', word: formula } };
  return {
    value: valueIn(raw, formula !== undefined),
    formula: formula === '' ? undefined : formula,
    format: formatSaid(said),
    fills: formula === undefined ? undefined : filled(said),
  };
}

function valueIn({ said, text, hasText }: RawCell, hasFormula: boolean): ValueIn | undefined {
  switch (said['office:value-type']) {
    case 'float':
    case 'percentage':
    case 'currency':
      return numberOr(Number(said['office:value'] ?? Number.NaN), said['office:value'] ?? text);
    case 'date':
      return numberOr(serialOf(said['office:date-value'] ?? ''), said['office:date-value'] ?? text);
    case 'time':
      return numberOr(daysOf(said['office:time-value'] ?? ''), said['office:time-value'] ?? text);
    case 'boolean':
      return { kind: 'logical', logical: said['office:boolean-value'] === 'true' };
    default: {
      const isError =
        said['value-type'] === 'error' || (hasFormula && said['office:string-value'] === '');
      if (isError && ERROR.test(text)) return { kind: 'error', word: text };
      if (isError && OTHER_ERROR.test(text)) return { kind: 'error', word: '#VALUE!' };
      const string = said['office:string-value'];
      if (string === undefined && !hasText) return undefined;
      return { kind: 'text', text: string ?? text };
    }
  }
}

const numberOr = (number: number, text: string): ValueIn | undefined =>
  Number.isFinite(number)
    ? { kind: 'number', number }
    : text === ''
      ? undefined
      : { kind: 'text', text };

const DAY_MS = 86_400_000;
/** 1970-01-01, counted from 1899-12-30. */
const FIRST_DAY = 25_569;
const DAY = /^-?\d{4,6}-\d\d-\d\d(T\d\d:\d\d(?::\d\d(?:\.\d{1,9})?)?)?$/;

/** A day as it is counted here. */
function serialOf(text: string): number {
  const found = DAY.exec(text.trim());
  if (found === null) return Number.NaN;
  const time = Date.parse(found[1] === undefined ? `${text.trim()}T00:00:00Z` : `${text.trim()}Z`);
  return time / DAY_MS + FIRST_DAY;
}

const TIME = /^(-?)P(?:(\d{1,7})D)?T?(?:(\d{1,9})H)?(?:(\d{1,9})M)?(?:(\d{1,9}(?:\.\d{1,12})?)S)?$/;

/** A time as days: `PT12H30M00S` is 0.520833… (XML Schema part 2, 3.2.6, without months and years). */
function daysOf(text: string): number {
  const found = TIME.exec(text.trim());
  if (found === null) return Number.NaN;
  const [, sign, ...parts] = found;
  const [days = 0, hours = 0, minutes = 0, seconds = 0] = parts.map((part) => Number(part ?? 0));
  return (sign === '-' ? -1 : 1) * (days + (hours + (minutes + seconds / 60) / 60) / 24);
}

/** What kind of number a cell says it has, beside its style. */
function formatSaid(said: Said): FormatRead | undefined {
  switch (said['office:value-type']) {
    case 'date':
      return { kind: 'date' };
    case 'time':
      return { kind: 'time' };
    case 'currency': {
      const currency = said['office:currency'] ?? '';
      return /^[A-Z]{3}$/.test(currency) ? { kind: 'money', decimals: 2, currency } : undefined;
    }
    default:
      return undefined;
  }
}

/** Rows and columns that an array formula fills. */
function filled(said: Said): CellIn['fills'] | undefined {
  if (said['table:number-matrix-rows-spanned'] === undefined) return undefined;
  const rows = Number(said['table:number-matrix-rows-spanned']);
  const columns = Number(said['table:number-matrix-columns-spanned'] ?? Number.NaN);
  return rows >= 1 && columns >= 1 && Number.isInteger(rows) && Number.isInteger(columns)
    ? { rows, columns }
    : undefined;
}
