import { SAYS } from './says.ts';

/** An error as a value. */
export class Failure {
  /** `VALUE`, `REF` and so on. */
  readonly type: string;
  /** What the sentence for a person is made of. */
  readonly message: string;
  /** The slot of the cell it began in; left out until it is a cell's value. */
  readonly root: number | undefined;

  constructor(type: string, message = '', root?: number) {
    this.type = type;
    this.message = message;
    this.root = root;
  }

  /** The same with the cell it began in, unless that is known. */
  begunIn(root: number): Failure {
    return this.root === undefined ? new Failure(this.type, this.message, root) : this;
  }
}

/** An error of a kind, with what is said of it. */
export const fail = (type: string, message = ''): Failure => new Failure(type, message);

/** What a slot holds; `null` is an empty cell. */
export type Value = number | string | boolean | null | Failure;

/** The largest relative difference at which two numbers count as one. */
const NEAR = 1e-13;

const OVERFLOW = new Failure('NUM', SAYS.overflow);
const NOT_A_NUMBER = new Failure('VALUE', SAYS.notANumber);

/** A number that was worked out: no result is infinite, and zero has no sign. */
export function finished(value: number): number | Failure {
  if (value - value !== 0) return OVERFLOW;
  return value === 0 ? 0 : value;
}

/** A value that was worked out. */
export const settled = (value: Value): Value =>
  typeof value === 'number' ? finished(value) : value;

/** Near zero a sum is zero: 0.1+0.2-0.3 leaves nothing. */
export function added(left: number, right: number): number {
  const sum = left + right;
  return Math.abs(sum) < NEAR * Math.abs(left) ? 0 : sum;
}

/** Near zero a difference is zero too. */
export function subtracted(left: number, right: number): number {
  const rest = left - right;
  return Math.abs(rest) < NEAR * Math.abs(left) ? 0 : rest;
}

const NUMERIC = /^([+-]?((\.\d+)|(\d+(\.\d*)?)))([eE][+-]?\d+)?$/;
const CURRENCY = '$';

const numeric = (text: string): number | undefined =>
  NUMERIC.test(text) ? Number(text) : undefined;

/** The number that a text stands for: `12`, `30%`, `$4`; nothing where it is none. */
export function numberIn(text: string): number | undefined {
  if (text === '') return 0;
  const trimmed = text.trim();
  if (trimmed.endsWith('%')) {
    const percent = numeric(trimmed.slice(0, -1).trim());
    if (percent !== undefined) return percent / 100;
  }
  const money = trimmed.startsWith(CURRENCY)
    ? trimmed.slice(1).trim()
    : trimmed.endsWith(CURRENCY)
      ? trimmed.slice(0, -1).trim()
      : undefined;
  const amount = money === undefined ? undefined : numeric(money);
  return amount ?? numeric(trimmed);
}

/** A value where a number is needed. */
export function toNumber(value: Value): number | Failure {
  if (typeof value === 'number') return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'string') return numberIn(value) ?? NOT_A_NUMBER;
  return value;
}

/** A value where words are needed. */
export function toText(value: Value): string | Failure {
  if (typeof value === 'string' || value instanceof Failure) return value;
  if (value === null) return '';
  if (typeof value === 'number') return value.toString();
  return value ? 'TRUE' : 'FALSE';
}

/** A value where yes or no is needed; nothing where it is neither. */
export function toLogical(value: Value): boolean | Failure | undefined {
  if (typeof value === 'boolean' || value instanceof Failure) return value;
  if (value === null) return false;
  if (typeof value === 'number') return value !== 0;
  const word = value.toUpperCase();
  if (word === 'TRUE') return true;
  return word === 'FALSE' || word === '' ? false : undefined;
}

const COLLATOR = new Intl.Collator('en', {
  sensitivity: 'accent',
  caseFirst: 'lower',
  ignorePunctuation: false,
});

const near = 1 + NEAR;

/** The same of two numbers: those that are nearly one count as one. */
export function comparedNumbers(left: number, right: number): number {
  if (right >= 0 && left * near >= right && left <= right * near) return 0;
  if (right <= 0 && left * near <= right && left >= right * near) return 0;
  return left > right ? 1 : -1;
}

const rank = (value: number | string | boolean | null): number => {
  if (value === null) return 0;
  if (typeof value === 'number') return 1;
  return typeof value === 'string' ? 2 : 3;
};

function like(value: number | string | boolean | null): number | string | boolean | null {
  if (typeof value === 'string') return '';
  if (typeof value === 'number') return 0;
  return typeof value === 'boolean' ? false : null;
}

/** Which of two values comes first: below 0 the left one, above 0 the right one. */
export function compared(
  a: number | string | boolean | null,
  b: number | string | boolean | null,
): number {
  if (typeof a === 'number' && typeof b === 'number') return comparedNumbers(a, b);
  const left = a === null ? like(b) : a;
  const right = b === null && a !== null ? like(a) : b;
  if (typeof left === 'string' && typeof right === 'string') return COLLATOR.compare(left, right);
  if (typeof left === 'boolean' && typeof right === 'boolean') return Number(left) - Number(right);
  if (typeof left === 'number' && typeof right === 'number') return comparedNumbers(left, right);
  return Math.sign(rank(left) - rank(right));
}
