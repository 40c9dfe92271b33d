import { ROUNDING } from '../rounding-family.ts';
import { gathered } from './gathered.ts';
import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import {
  type Aids,
  type Computing,
  either,
  type Family,
  type Given,
  least,
  number,
  numbers,
  range,
  type Taken,
} from './takes.ts';
import { Failure, fail, type Value } from './values.ts';

const none = (run: () => Value): Computing => ({ takes: [], run });
const one = (run: (value: number) => Value): Computing => ({ takes: [number], run });
const divided = (): Failure => fail('DIV_BY_ZERO');
/** Of fourteen places. */
const PI = Number(Math.PI.toFixed(14));

const even = (value: number): number => {
  const up = Math.ceil(value);
  return up % 2 === 0 ? up : up + 1;
};
const odd = (value: number): number => {
  const up = Math.ceil(value);
  return up % 2 === 1 ? up : up + 1;
};

/** The rounding family, as every engine has it. */
const rounding = ({ divides, signs }: Rounding): Family =>
  Object.fromEntries(
    Object.entries(ROUNDING).map(([name, { takes, run }]) => [
      name,
      {
        takes: takes.map((leftOut) => (leftOut === undefined ? number : { ...number, leftOut })),
        run: (...args: number[]): Value => {
          const result = run(...args);
          if (typeof result === 'number') return result;
          return result === 'divided by zero' ? fail('DIV_BY_ZERO', divides) : fail('NUM', signs);
        },
      },
    ]),
  );

type Rounding = Pick<Aids, 'divides' | 'signs'>;

/** Numbers that multiply up to `most`, one by one, each `step` less than the one before. */
function factorial(most: number, step: 1 | 2): number {
  const top = Math.trunc(most);
  let product = 1;
  if (step === 1) for (let i = 1; i <= top; i += 1) product *= i;
  else for (let i = top; i >= 1; i -= 2) product *= i;
  return product;
}

function combinations(of: number, choose: number): number {
  const fewer = 2 * choose > of ? of - choose : choose;
  let ways = 1;
  for (let i = 1; i <= fewer; i += 1) ways *= (of - fewer + i) / i;
  return Math.round(ways);
}

function greatestDivisor(a: number, b: number): number {
  let [more, less] = a < b ? [b, a] : [a, b];
  while (less > 0) [more, less] = [less, more % less];
  return more;
}

const leastMultiple = (a: number, b: number): number =>
  a === 0 || b === 0 ? 0 : a * (b / greatestDivisor(a, b));

const ofWholes = (from: number, join: (a: number, b: number) => number): Computing => ({
  takes: [either],
  again: 1,
  run: (...given: Given[]) => {
    const all = gathered(given, 'coerced');
    if (all instanceof Failure) return all;
    let result = from;
    for (const value of all) {
      if (value < 0) return fail('NUM', SAYS.tooSmall);
      result = join(result, Math.trunc(value));
    }
    return result > Number.MAX_SAFE_INTEGER ? fail('NUM', SAYS.tooLarge) : result;
  },
});

const positive: Taken = { as: 'number', whole: true, least: 0 };
const bits = (run: (a: number, b: number) => number): Computing => ({
  takes: [positive, positive],
  run,
});

const MOST_SHIFTED = 2 ** 48 - 1;
const shift = (turn: 1 | -1): Computing => ({
  takes: [positive, { as: 'number', whole: true, least: -53, most: 53 }],
  run: (value: number, places: number) => {
    const to = turn * places;
    const moved = to < 0 ? Math.floor(value / 2 ** -to) : value * 2 ** to;
    return moved > MOST_SHIFTED ? fail('NUM', 'Result of bitshift is too long.') : moved;
  },
});

function multinomial(...counts: number[]): Value {
  let all = 0;
  let ways = 1;
  for (const given of counts) {
    if (given < 0) return fail('NUM', SAYS.tooSmall);
    const count = Math.trunc(given);
    for (let i = 1; i <= count; i += 1) ways *= (all + i) / i;
    all += count;
  }
  return Math.round(ways);
}

function seriesSum(x: number, from: number, step: number, given: Matrix): Value {
  const factors: number[] = [];
  for (const value of given.cells) {
    if (value instanceof Failure) return value;
    if (typeof value === 'number') factors.push(value);
    else if (value !== null) return fail('VALUE', SAYS.numberExpected);
  }
  let sum = 0;
  for (const factor of factors.reverse()) {
    sum *= x ** step;
    sum += factor;
  }
  return sum * x ** from;
}

/** What is made of numbers alone. */
export const numberFamily = (aids: Rounding): Family => ({
  ...rounding(aids),
  PI: none(() => PI),
  ABS: one(Math.abs),
  SQRT: one(Math.sqrt),
  SQRTPI: { takes: [least(0)], run: (value: number) => Math.sqrt(PI * value) },
  POWER: numbers(2, (base = 0, power = 0) => base ** power),
  EXP: one(Math.exp),
  LN: one(Math.log),
  LOG10: one(Math.log10),
  LOG: {
    takes: [
      { as: 'number', above: 0 },
      { as: 'number', above: 0, leftOut: 10 },
    ],
    run: (value: number, base: number) => Math.log(value) / Math.log(base),
  },
  SIN: one(Math.sin),
  COS: one(Math.cos),
  TAN: one(Math.tan),
  ASIN: one(Math.asin),
  ACOS: one(Math.acos),
  ATAN: one(Math.atan),
  ATAN2: numbers(2, (x = 0, y = 0) => (x === 0 && y === 0 ? divided() : Math.atan2(y, x))),
  COT: one((value) => (value === 0 ? divided() : 1 / Math.tan(value))),
  ACOT: one((value) => (value === 0 ? PI / 2 : Math.atan(1 / value))),
  SEC: one((value) => 1 / Math.cos(value)),
  CSC: one((value) => (value === 0 ? divided() : 1 / Math.sin(value))),
  SINH: one(Math.sinh),
  COSH: one(Math.cosh),
  TANH: one(Math.tanh),
  ASINH: one(Math.asinh),
  ACOSH: one(Math.acosh),
  ATANH: one(Math.atanh),
  COTH: one((value) => (value === 0 ? divided() : 1 / Math.tanh(value))),
  ACOTH: one((value) => (value === 0 ? fail('NUM', SAYS.notZero) : Math.atanh(1 / value))),
  SECH: one((value) => 1 / Math.cosh(value)),
  CSCH: one((value) => (value === 0 ? divided() : 1 / Math.sinh(value))),
  RADIANS: one((value) => value * (Math.PI / 180)),
  DEGREES: one((value) => value * (180 / Math.PI)),
  SIGN: one((value) => (value > 0 ? 1 : value < 0 ? -1 : 0)),
  EVEN: one((value) => (value < 0 ? -even(-value) : even(value))),
  ODD: one((value) => (value < 0 ? -odd(-value) : odd(value))),
  RAND: { takes: [], changes: true, run: Math.random },
  RANDBETWEEN: {
    takes: [number, number],
    changes: true,
    run: (least: number, most: number) => {
      if (most < least) return fail('NUM', SAYS.order);
      const from = Math.ceil(least);
      return from + Math.floor(Math.random() * (Math.floor(most) + 1 - from || 1));
    },
  },
  DELTA: {
    takes: [number, { as: 'number', leftOut: 0 }],
    run: (a: number, b: number) => (a === b ? 1 : 0),
  },
  FACT: {
    takes: [{ as: 'number', least: 0, most: 170 }],
    run: (value: number) => factorial(value, 1),
  },
  FACTDOUBLE: {
    takes: [{ as: 'number', least: 0, most: 288 }],
    run: (value: number) => factorial(value, 2),
  },
  COMBIN: {
    takes: [{ as: 'number', least: 0, below: 1030 }, least(0)],
    run: (of: number, choose: number) =>
      choose > of ? fail('NUM', SAYS.order) : combinations(Math.trunc(of), Math.trunc(choose)),
  },
  COMBINA: {
    takes: [least(0), least(0)],
    run: (from: number, take: number) => {
      const [of, choose] = [Math.trunc(from), Math.trunc(take)];
      if (of + choose - 1 >= 1030) return fail('NUM', SAYS.tooLarge);
      return of === 0 && choose === 0 ? 1 : combinations(of + choose - 1, choose);
    },
  },
  GCD: ofWholes(0, greatestDivisor),
  LCM: ofWholes(1, leastMultiple),
  MULTINOMIAL: { takes: [number], again: 1, spread: true, run: multinomial },
  SERIESSUM: { takes: [number, number, number, range], run: seriesSum },
  BITAND: bits((a, b) => a & b),
  BITOR: bits((a, b) => a | b),
  BITXOR: bits((a, b) => a ^ b),
  BITLSHIFT: shift(1),
  BITRSHIFT: shift(-1),
  ISEVEN: one((value) => value % 2 === 0),
  ISODD: one((value) => value % 2 === 1),
});
