import { STANDARD } from '@kerfbook/functions';
import { refusalOf } from '../results/described.ts';
import {
  compared,
  Failure,
  numberIn,
  SAYS,
  toLogical,
  toNumber,
  toText,
  type Value,
} from './values.ts';

/** What a function takes in one place. */
export interface Taken {
  /** `any`: whatever it is, errors too; the others make it what they say. */
  readonly as: 'number' | 'text' | 'logical' | 'any' | 'noError';
  readonly leftOut?: number | boolean;
  readonly least?: number;
  readonly above?: number;
  readonly whole?: true;
}

/** A standard function of single values. */
export interface Plain {
  readonly takes: readonly Taken[];
  /** So many of the last arguments may come again and again. */
  readonly again?: number;
  /** Arguments are what `takes` says, or nothing where they are left out. */
  readonly run: (...args: never[]) => Value;
}

const number: Taken = { as: 'number' };
const text: Taken = { as: 'text' };
const logical: Taken = { as: 'logical' };
const any: Taken = { as: 'any' };

const fail = (type: string, message = ''): Failure => new Failure(type, message);
const numbers = (count: number, run: (...numbers: number[]) => Value): Plain => ({
  takes: Array.from({ length: count }, () => number),
  run,
});
const asks = (run: (value: Value) => boolean): Plain => ({ takes: [any], run });
const none = (run: () => Value): Plain => ({ takes: [], run });

const even = (value: number): number => {
  const whole = Math.ceil(value);
  return whole % 2 === 0 ? whole : whole + 1;
};
const odd = (value: number): number => {
  const whole = Math.ceil(value);
  return whole % 2 === 1 ? whole : whole + 1;
};

/** Those of numbers alone, as the catalogue has them. */
const ofNumbers: Readonly<Record<string, Plain>> = Object.fromEntries(
  STANDARD.flatMap(({ name, computes }): [string, Plain][] => {
    if (computes === undefined) return [];
    const takes = computes.takes.map((leftOut) =>
      leftOut === undefined ? number : { ...number, leftOut },
    );
    const run = (...args: number[]): Value => {
      const result = computes.run(...args);
      if (typeof result === 'number') return result;
      const { type, message } = refusalOf(result);
      return fail(type, message);
    };
    return [[name, { takes, run }]];
  }),
);

function switched(chosen: Value, ...args: Value[]): Value {
  let i = 0;
  for (; i + 1 < args.length; i += 2) {
    const candidate = args[i] ?? null;
    if (candidate instanceof Failure || chosen instanceof Failure) continue;
    if (compared(chosen, candidate) === 0) return args[i + 1] ?? null;
  }
  return i < args.length ? (args[i] ?? null) : fail('NA', SAYS.noDefault);
}

function firstTrue(...args: (Value | undefined)[]): Value {
  for (let i = 0; i < args.length; i += 2) if (args[i] === true) return args[i + 1] ?? null;
  return fail('NA', SAYS.noCondition);
}

function numberRead(value: Value): Value {
  if (typeof value === 'number' || value instanceof Failure) return value;
  const refused = fail('VALUE', SAYS.notANumber);
  if (typeof value !== 'string') return refused;
  const read = (words: string): number | undefined =>
    words.trim() === '' ? undefined : numberIn(words.trim());
  const bracketed = /^\(([^()]+)\)$/.exec(value.trim())?.[1];
  const negative = bracketed === undefined ? undefined : read(bracketed);
  return negative === undefined ? (read(value) ?? refused) : -negative;
}

/** Standard functions whose arguments are single values, by name. */
export const PLAIN: ReadonlyMap<string, Plain> = new Map(
  Object.entries<Plain>({
    ...ofNumbers,
    TRUE: none(() => true),
    FALSE: none(() => false),
    // The engine's own, of fourteen places.
    PI: none(() => Number(Math.PI.toFixed(14))),
    IFERROR: {
      takes: [any, any],
      run: (value: Value, other: Value) => (value instanceof Failure ? other : value),
    },
    IFNA: {
      takes: [any, any],
      run: (value: Value, other: Value) =>
        value instanceof Failure && value.type === 'NA' ? other : value,
    },
    IFS: { takes: [logical, any], again: 2, run: firstTrue },
    SWITCH: { takes: [{ as: 'noError' }, any, any], again: 1, run: switched },
    CHOOSE: {
      takes: [{ as: 'number', whole: true, least: 1 }, any],
      again: 1,
      run: (which: number, ...args: Value[]) =>
        which > args.length ? fail('NUM', SAYS.selector) : (args[which - 1] ?? null),
    },
    NOT: { takes: [logical], run: (value: boolean) => !value },
    ABS: numbers(1, (value = 0) => Math.abs(value)),
    SQRT: numbers(1, (value = 0) => Math.sqrt(value)),
    POWER: numbers(2, (base = 0, power = 0) => base ** power),
    EXP: numbers(1, (value = 0) => Math.exp(value)),
    LN: numbers(1, (value = 0) => Math.log(value)),
    LOG10: numbers(1, (value = 0) => Math.log10(value)),
    LOG: {
      takes: [
        { as: 'number', above: 0 },
        { as: 'number', above: 0, leftOut: 10 },
      ],
      run: (value: number, base: number) => Math.log(value) / Math.log(base),
    },
    SIN: numbers(1, (value = 0) => Math.sin(value)),
    COS: numbers(1, (value = 0) => Math.cos(value)),
    TAN: numbers(1, (value = 0) => Math.tan(value)),
    ASIN: numbers(1, (value = 0) => Math.asin(value)),
    ACOS: numbers(1, (value = 0) => Math.acos(value)),
    ATAN: numbers(1, (value = 0) => Math.atan(value)),
    ATAN2: numbers(2, (x = 0, y = 0) =>
      x === 0 && y === 0 ? fail('DIV_BY_ZERO') : Math.atan2(y, x),
    ),
    RADIANS: numbers(1, (value = 0) => value * (Math.PI / 180)),
    DEGREES: numbers(1, (value = 0) => value * (180 / Math.PI)),
    SIGN: numbers(1, (value = 0) => (value > 0 ? 1 : value < 0 ? -1 : 0)),
    EVEN: numbers(1, (value = 0) => (value < 0 ? -even(-value) : even(value))),
    ODD: numbers(1, (value = 0) => (value < 0 ? -odd(-value) : odd(value))),
    LEN: { takes: [text], run: (words: string) => words.length },
    LEFT: {
      takes: [text, { ...number, leftOut: 1 }],
      run: (words: string, count: number) =>
        count < 0 ? fail('VALUE', SAYS.negativeLength) : words.slice(0, count),
    },
    RIGHT: {
      takes: [text, { ...number, leftOut: 1 }],
      run: (words: string, count: number) => {
        if (count < 0) return fail('VALUE', SAYS.negativeLength);
        return count === 0 ? '' : words.slice(-count);
      },
    },
    MID: {
      takes: [text, number, number],
      run: (words: string, start: number, count: number) => {
        if (start < 1) return fail('VALUE', SAYS.belowOne);
        if (count < 0) return fail('VALUE', SAYS.negativeLength);
        return words.substring(start - 1, start + count - 1);
      },
    },
    UPPER: { takes: [text], run: (words: string) => words.toUpperCase() },
    LOWER: { takes: [text], run: (words: string) => words.toLowerCase() },
    EXACT: { takes: [text, text], run: (a: string, b: string) => a === b },
    VALUE: { takes: [any], run: numberRead },
    T: {
      takes: [any],
      run: (value: Value) => (value instanceof Failure || typeof value === 'string' ? value : ''),
    },
    ISNUMBER: asks((value) => typeof value === 'number'),
    ISTEXT: asks((value) => typeof value === 'string'),
    ISNONTEXT: asks((value) => typeof value !== 'string'),
    ISLOGICAL: asks((value) => typeof value === 'boolean'),
    ISBLANK: asks((value) => value === null),
    ISERROR: asks((value) => value instanceof Failure),
    ISERR: asks((value) => value instanceof Failure && value.type !== 'NA'),
    ISNA: asks((value) => value instanceof Failure && value.type === 'NA'),
  }),
);

/** The value as a function takes it; nothing where it cannot be that. */
export function taken(value: Value, { as, least, above, whole }: Taken): Value | undefined {
  switch (as) {
    case 'number': {
      const given = toNumber(value);
      if (given instanceof Failure) return given;
      if (least !== undefined && given < least) return fail('NUM', SAYS.tooSmall);
      if (above !== undefined && given <= above) return fail('NUM', SAYS.tooSmall);
      if (whole && !Number.isInteger(given)) return fail('NUM', SAYS.whole);
      return given;
    }
    case 'text':
      return toText(value);
    case 'logical':
      return toLogical(value);
    default:
      return value;
  }
}
