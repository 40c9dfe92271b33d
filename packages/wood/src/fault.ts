import { OWN_UNITS, ownFromUs, type Quantity, type UnitSystem } from './quantity.ts';

/**
 * Why a function could not answer.
 * `kind`: the argument is of the wrong kind or missing (`#VALUE!` in a cell);
 * `range`: a number outside the physical or published range (`#NUM!`);
 * `unknown`: a text that names nothing in the tables (`#N/A`).
 */
export type FaultClass = 'kind' | 'range' | 'unknown';

/** What a sentence about a wrong argument is made of. */
export interface FaultDetail {
  /** What kind of slip it is, which decides the mark: `#VALUE!`, `#NUM!` or `#N/A`. */
  readonly class: FaultClass;
  /** Name of the argument, as in its description. */
  readonly argument: string;
  /** What was given; a number is in us units. */
  readonly got: unknown;
  /** What the argument is for, so that numbers are said in the workbook's units. */
  readonly quantity: Quantity;
  /** What the argument takes, in words; `{n}` stands for the next number of `bounds`. */
  readonly takes: string;
  /** Numbers mentioned in `takes`, in us units, shown in the reader's own. */
  readonly bounds?: readonly number[];
  /** Nearest known names, or what to do instead. */
  readonly hint?: string;
  /** What is wrong with an `unknown`, when it is not simply unknown: `names more than one wood`. */
  readonly problem?: string;
}

/** Thrown by the pure functions; {@link faultSentence} makes the sentence a maker reads. */
export class Fault extends Error {
  /** What the sentence is made of. */
  readonly detail: FaultDetail;

  constructor(detail: FaultDetail) {
    super(faultSentence(detail, 'us'));
    this.name = 'Fault';
    this.detail = detail;
  }
}

const LONGEST_QUOTE = 40;

/** Digits of a number as people say it, whole ones apart. */
const SAID_DIGITS = 4;

/** A number as people say it: four digits, more only where it has more whole ones. */
function rounded(value: number, digits: number): string {
  const size = Math.abs(value);
  if (size >= 1e15) return String(value);
  const whole = size < 1 ? 1 : Math.floor(Math.log10(size)) + 1;
  return String(Number(value.toPrecision(Math.min(15, Math.max(digits, whole)))));
}

/** With so many digits as tell it from the numbers that stand beside it. */
function plain(value: number, beside: readonly number[]): string {
  for (let digits = SAID_DIGITS; digits < 15; digits += 2) {
    const text = rounded(value, digits);
    if (!beside.some((other) => other !== value && rounded(other, digits) === text)) return text;
  }
  return String(value);
}

function withUnit(
  quantity: Quantity,
  us: number,
  system: UnitSystem,
  beside: readonly number[] = [],
): string {
  const unit = OWN_UNITS[quantity][system];
  const own = ownFromUs(quantity, us, system);
  // The largest numbers a cell can hold run over when an inch becomes 25.4 mm.
  if (!Number.isFinite(own)) return 'a number too large to use';
  const text = plain(
    own,
    beside.map((one) => ownFromUs(quantity, one, system)),
  );
  if (unit === '') return text;
  return unit === '°' ? `${text}°` : `${text} ${unit}`;
}

function quoted(text: string): string {
  return text.length <= LONGEST_QUOTE ? `"${text}"` : `"${text.slice(0, LONGEST_QUOTE)}…"`;
}

function given(detail: FaultDetail, system: UnitSystem): string {
  const { got, quantity } = detail;
  if (typeof got !== 'number') return quoted(String(got));
  return Number.isFinite(got)
    ? withUnit(quantity, got, system, detail.bounds)
    : 'not a number that can be used';
}

/**
 * One plain sentence in the reader's own units, then the hint where there is one. In a formula several functions
 * may take an argument of the name: `of` says which one it is.
 */
export function faultSentence(detail: FaultDetail, system: UnitSystem, of?: string): string {
  const { got, quantity } = detail;
  const argument = of === undefined ? detail.argument : `${detail.argument} of ${of}`;
  let next = 0;
  const takes = detail.takes.replaceAll('{n}', () =>
    withUnit(quantity, detail.bounds?.[next++] ?? 0, system),
  );
  const hint = detail.hint === undefined ? '' : ` ${detail.hint}`;
  if (got === undefined || got === null) return `${argument} is missing; it takes ${takes}.${hint}`;
  const what = given(detail, system);
  if (detail.class === 'unknown')
    return `${argument} ${what} ${detail.problem ?? 'is not known'}; it takes ${takes}.${hint}`;
  return `${argument} is ${what}; it takes ${takes}.${hint}`;
}
