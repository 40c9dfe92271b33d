/**
 * What was wrong with a job, for a program.
 * `no-parts`, `no-stock`: a list that must not be empty; `bad-size`, `bad-count`, `bad-price`,
 * `bad-kerf`, `bad-trim`: a number that cannot be one; `too-many`: more pieces than are planned;
 * `too-long`, `too-big`: a part that fits nothing; `supply-short`: stock runs out;
 * `not-enough`: all the boards together do not reach what is wanted.
 */
export type CuttingFaultCode =
  | 'no-parts'
  | 'no-stock'
  | 'bad-size'
  | 'bad-count'
  | 'bad-price'
  | 'bad-kerf'
  | 'bad-trim'
  | 'too-many'
  | 'too-long'
  | 'too-big'
  | 'supply-short'
  | 'not-enough';

/**
 * Thrown when a job cannot be planned. The message is one sentence for people, with numbers in the
 * unit the job came in; `figures` holds the same numbers and names, for a caller that shows another
 * unit.
 */
export class CuttingFault extends Error {
  /** Which of the things that can be wrong. */
  readonly code: CuttingFaultCode;
  /** The numbers its sentence gives, by what they are. */
  readonly figures: Readonly<Record<string, number | string>>;

  constructor(
    code: CuttingFaultCode,
    says: string,
    figures: Readonly<Record<string, number | string>> = {},
  ) {
    super(says);
    this.name = 'CuttingFault';
    this.code = code;
    this.figures = figures;
  }
}

/** A number as a sentence shows it: six significant digits, no trailing zeros. */
export function shown(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : 'not a usable number';
}

/** A size that has to be a number above zero. */
export function positiveSize(value: unknown, what: string): number {
  if (typeof value === 'number' && value > 0 && value <= LONGEST) return value;
  throw badNumber('bad-size', value, what, `a number above 0 and up to ${shown(LONGEST)}`);
}

/** A size that may be zero. */
export function sizeOrZero(
  value: unknown,
  what: string,
  code: 'bad-size' | 'bad-kerf' | 'bad-trim' = 'bad-size',
): number {
  if (typeof value === 'number' && value >= 0 && value <= LONGEST) return value;
  throw badNumber(code, value, what, `a number of 0 or more, up to ${shown(LONGEST)}`);
}

/** A count of pieces: a whole number, 0 or more. */
export function wholeCount(value: unknown, what: string): number {
  if (typeof value === 'number' && Number.isInteger(value) && value >= 0) return value;
  throw badNumber('bad-count', value, what, 'a whole number of 0 or more');
}

/** A price: 0 or more. */
export function priceOf(value: unknown, what: string): number {
  if (typeof value === 'number' && value >= 0 && value <= DEAREST) return value;
  throw badNumber('bad-price', value, what, `an amount of 0 or more, up to ${shown(DEAREST)}`);
}

function badNumber(code: CuttingFaultCode, value: unknown, what: string, takes: string) {
  const got = typeof value === 'number' ? shown(value) : `"${String(value).slice(0, 40)}"`;
  const figures = typeof value === 'number' ? { what, got: value } : { what };
  return new CuttingFault(code, `${what} is ${got}; it takes ${takes}.`, figures);
}

/** Beyond these, sums of whole units would no longer be exact in a double. */
const LONGEST = 1_000_000;
const DEAREST = 1_000_000;
