import { countOf, lengthOf, numberOf, optional } from './arguments.ts';
import type { FunctionDescription } from './describe.ts';
import { roundSettled } from './exact.ts';
import { eitherSign, someNumber, whole } from './guards.ts';
import { MM_PER_INCH } from './quantity.ts';

const LENGTH = lengthOf('length', 'the length to write');
const DENOMINATOR = optional(
  countOf('denominator', 'parts an inch is divided into, 1 to 128'),
  '16ths of an inch',
);
const valueIn = (unit: string) => numberOf('number', 'value', `a bare number of ${unit}`);
const INCHES = valueIn('inches');
const FEET = valueIn('feet');
const MILLIMETRES = valueIn('millimeters');
const CENTIMETRES = valueIn('centimeters');

const FINEST = 128;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** `33 3/16`, `3/16` or `33` from a count of fractions of an inch. */
function writeInches(count: number, perInch: number): string {
  const inches = Math.floor(count / perInch);
  const over = count % perInch;
  if (over === 0) return String(inches);
  const common = divisor(perInch, over);
  const fraction = `${over / common}/${perInch / common}`;
  return inches === 0 ? fraction : `${inches} ${fraction}`;
}

interface Counted {
  readonly sign: string;
  readonly count: number;
  readonly perInch: number;
}

/** A length as a whole number of fractions of an inch; a tie goes away from zero. */
function countFractions(length: number, denominator: number): Counted {
  const perInch = whole(DENOMINATOR, denominator, 1, FINEST);
  const given = eitherSign(LENGTH, length);
  const count = roundSettled(Math.abs(given) * perInch);
  return { sign: given < 0 && count > 0 ? '-' : '', count, perInch };
}

/**
 * A length as inches and the nearest fraction, in lowest terms.
 * @param length in, either sign
 * @param denominator parts of an inch, 1 to 128; 16 when left out
 * @returns text such as `33 3/16`; a tie rounds away from zero
 * @throws Fault `kind`, `range`
 * Source: arithmetic.
 */
export function fraction(length: number, denominator = 16): string {
  const { sign, count, perInch } = countFractions(length, denominator);
  return sign + writeInches(count, perInch);
}

/**
 * A length as feet, inches and the nearest fraction.
 * @param length in, either sign
 * @param denominator parts of an inch, 1 to 128; 16 when left out
 * @returns text such as `5' 6 3/8"`; under a foot only inches; a tie rounds away from zero
 * @throws Fault `kind`, `range`
 * Source: arithmetic.
 */
export function feetInches(length: number, denominator = 16): string {
  const { sign, count, perInch } = countFractions(length, denominator);
  const feet = Math.floor(count / (12 * perInch));
  const inches = writeInches(count % (12 * perInch), perInch);
  return feet === 0 ? `${sign}${inches}"` : `${sign}${feet}' ${inches}"`;
}

/** A bare number of some unit as a length of ours; `perUnit` is a fraction, so that 1 mm is exact. */
function lengthFrom(argument: typeof INCHES, value: unknown, over: number, under: number): number {
  const inches = (someNumber(argument, value) * over) / under;
  // Judged as a length: the number itself has no unit to be judged by.
  eitherSign({ name: argument.name, quantity: 'length' }, inches);
  return inches;
}

/**
 * A bare number of inches as a length.
 * @param value inches, either sign
 * @returns in
 * @throws Fault `kind`, `range`
 * Source: definition.
 */
export function inches(value: number): number {
  return lengthFrom(INCHES, value, 1, 1);
}

/**
 * A bare number of feet as a length.
 * @param value feet, either sign
 * @returns in: 12 to the foot
 * @throws Fault `kind`, `range`
 * Source: definition.
 */
export function feet(value: number): number {
  return lengthFrom(FEET, value, 12, 1);
}

/**
 * A bare number of millimetres as a length.
 * @param value mm, either sign
 * @returns in: 25.4 mm to the inch, exactly
 * @throws Fault `kind`, `range`
 * Source: international inch (NIST SP 811, appendix B).
 */
export function millimetres(value: number): number {
  return lengthFrom(MILLIMETRES, value, 1, MM_PER_INCH);
}

/**
 * A bare number of centimetres as a length.
 * @param value cm, either sign
 * @returns in: 2.54 cm to the inch, exactly
 * @throws Fault `kind`, `range`
 * Source: international inch (NIST SP 811, appendix B).
 */
export function centimetres(value: number): number {
  return lengthFrom(CENTIMETRES, value, 10, MM_PER_INCH);
}

const INCH = 'international inch, 25.4 mm exactly (NIST SP 811, appendix B)';

export const LENGTH_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'FRACTION',
    task: 'Writing lengths',
    answers: 'How a length is written in inches and a fraction.',
    args: [LENGTH, DENOMINATOR],
    result: { quantity: 'text', means: 'inches and the nearest fraction' },
    source: 'arithmetic',
    example: '=FRACTION(33.19)',
    notes: 'A tie rounds away from zero. In a metric workbook too, the answer is in inches.',
    run: fraction,
  },
  {
    name: 'FEET_INCHES',
    task: 'Writing lengths',
    answers: 'How a length is written in feet, inches and a fraction.',
    args: [LENGTH, DENOMINATOR],
    result: { quantity: 'text', means: 'feet, inches and the nearest fraction' },
    source: 'arithmetic',
    example: '=FEET_INCHES(66.375)',
    notes:
      'A tie rounds away from zero. In a metric workbook too, the answer is in feet and inches.',
    run: feetInches,
  },
  {
    name: 'IN',
    task: 'Writing lengths',
    answers: 'What a number of inches is as a length of this workbook.',
    args: [INCHES],
    result: { quantity: 'length', means: 'the same length' },
    source: INCH,
    example: '=IN(1.5)',
    run: inches,
  },
  {
    name: 'FT',
    task: 'Writing lengths',
    answers: 'What a number of feet is as a length of this workbook.',
    args: [FEET],
    result: { quantity: 'length', means: 'the same length' },
    source: `12 inches; ${INCH}`,
    example: '=FT(7)',
    run: feet,
  },
  {
    name: 'MM',
    task: 'Writing lengths',
    answers: 'What a number of millimeters is as a length of this workbook.',
    args: [MILLIMETRES],
    result: { quantity: 'length', means: 'the same length' },
    source: INCH,
    example: '=MM(38)',
    run: millimetres,
  },
  {
    name: 'CM',
    task: 'Writing lengths',
    answers: 'What a number of centimeters is as a length of this workbook.',
    args: [CENTIMETRES],
    result: { quantity: 'length', means: 'the same length' },
    source: INCH,
    example: '=CM(90)',
    run: centimetres,
  },
];
