import { dayOf } from './calendar.ts';
import { gathered, numbersIn } from './gathered.ts';
import type { Matrix } from './matrix.ts';
import { SAYS } from './says.ts';
import {
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

const zero: Taken = { ...number, leftOut: 0 };
const above0: Taken = { ...number, above: 0 };
const whole = (from: number, most?: number): Taken => ({
  as: 'number',
  whole: true,
  least: from,
  ...(most === undefined ? {} : { most }),
});
const refused = (): Failure => fail('NUM');
const divided = (): Failure => fail('DIV_BY_ZERO');

function payment(
  rate: number,
  periods: number,
  present: number,
  future: number,
  early: number,
): number {
  if (rate === 0) return (-present - future) / periods;
  const term = (1 + rate) ** periods;
  return ((future * rate + present * rate * term) * (early ? 1 / (1 + rate) : 1)) / (1 - term);
}

function futureValue(
  rate: number,
  periods: number,
  each: number,
  value: number,
  early: number,
): number {
  if (rate === 0) return -value - each * periods;
  const term = (1 + rate) ** periods;
  return (each * (early ? 1 + rate : 1) * (1 - term)) / rate - value * term;
}

type OfPeriod = (
  rate: number,
  period: number,
  periods: number,
  present: number,
  future: number,
  early: number,
) => number;

const interest: OfPeriod = (rate, period, periods, present, future, early) => {
  const each = payment(rate, periods, present, future, early);
  if (period === 1) return rate * (early ? 0 : -present);
  return (
    rate *
    (early
      ? futureValue(rate, period - 2, each, present, early) - each
      : futureValue(rate, period - 1, each, present, early))
  );
};

const principal: OfPeriod = (rate, period, periods, present, future, early) =>
  payment(rate, periods, present, future, early) -
  interest(rate, period, periods, present, future, early);

const together = (of: OfPeriod): Computing => ({
  takes: [above0, above0, above0, whole(1), whole(1), whole(0, 1)],
  run: (rate: number, periods: number, value: number, from: number, to: number, early: number) => {
    if (from > to) return fail('NUM', SAYS.periods);
    let sum = 0;
    for (let i = from; i <= to; i += 1) sum += of(rate, i, periods, value, 0, early);
    return sum;
  },
});

function presentValue(
  rate: number,
  periods: number,
  each: number,
  future: number,
  early: number,
): Value {
  if (rate === -1) return periods === 0 ? refused() : divided();
  if (rate === 0) return -each * periods - future;
  const term = (1 + rate) ** periods;
  return (((1 - term) * each * (1 + rate * (early ? 1 : 0))) / rate - future) / term;
}

function periodCount(
  rate: number,
  each: number,
  present: number,
  future: number,
  early: number,
): Value {
  if (rate === 0) return each === 0 ? divided() : (-present - future) / each;
  const paid = early ? each * (1 + rate) : each;
  return Math.log((paid - future * rate) / (present * rate + paid)) / Math.log(1 + rate);
}

/** A rate at which payments come to a sum, by steps that come nearer to it. */
function rateOf(
  periods: number,
  each: number,
  present: number,
  future: number,
  early: number,
  guess: number,
): Value {
  if (guess <= -1) return fail('VALUE');
  const near = 1e-7;
  const due = early ? 1 : 0;
  let rate = guess;
  for (let i = 0; i < 50; i += 1) {
    if (rate <= -1) return refused();
    const isNone = Math.abs(rate) < near;
    const term = (1 + rate) ** periods;
    const value = isNone
      ? present * (1 + periods * rate) + each * (1 + rate * due) * periods + future
      : present * term + each * (1 / rate + due) * (term - 1) + future;
    if (Math.abs(value) < near) return rate;
    const change = periods * (1 + rate) ** (periods - 1);
    const slope = isNone
      ? present * periods + each * due * periods
      : present * change +
        each * (1 / rate + due) * change +
        each * (-1 / (rate * rate)) * (term - 1);
    rate -= value / slope;
  }
  return refused();
}

function fixedDeclining(
  cost: number,
  salvage: number,
  life: number,
  period: number,
  months: number,
): Value {
  if ((months === 12 && period > life) || period > life + 1) return fail('NUM', SAYS.periodLong);
  if (salvage >= cost) return 0;
  const rate = Math.round((1 - (salvage / cost) ** (1 / life)) * 1000) / 1000;
  const first = (cost * rate * months) / 12;
  if (period === 1) return first;
  let total = first;
  for (let i = 0; i < period - 2; i += 1) total += (cost - total) * rate;
  if (period === life + 1) return ((cost - total) * rate * (12 - months)) / 12;
  return (cost - total) * rate;
}

function doubleDeclining(
  cost: number,
  salvage: number,
  life: number,
  period: number,
  factor: number,
): Value {
  if (period > life) return refused();
  const full = factor / life;
  const rate = Math.min(full, 1);
  const old = full >= 1 ? (period === 1 ? cost : 0) : cost * (1 - rate) ** (period - 1);
  const next = cost * (1 - rate) ** period;
  return Math.max(old - Math.max(salvage, next), 0);
}

/** A price in parts of a whole, as decimals or the other way round. */
const fraction = (turn: (part: number, parts: number) => number): Computing => ({
  takes: [number, least(0)],
  run: (price: number, given: number) => {
    if (given < 1) return divided();
    let parts = Math.trunc(given);
    while (parts > 10) parts /= 10;
    return Math.trunc(price) + turn(price - Math.trunc(price), parts);
  },
});

function netValue(rate: number, values: readonly number[]): number | Failure {
  let sum = 0;
  for (let i = values.length - 1; i >= 0; i -= 1) {
    sum += values[i] as number;
    if (rate !== -1) sum /= 1 + rate;
    else if (sum !== 0) return divided();
  }
  return sum;
}

function returnWithRates(given: Matrix, financed: number, invested: number): Value {
  const values = numbersIn(given);
  if (values instanceof Failure) return values;
  if (!values.some((one) => one > 0) || !values.some((one) => one < 0)) return divided();
  const gains = netValue(
    invested,
    values.map((one) => Math.max(one, 0)),
  );
  if (gains instanceof Failure) return gains;
  const losses = netValue(
    financed,
    values.map((one) => Math.min(one, 0)),
  );
  if (losses instanceof Failure) return losses;
  const count = values.length;
  const grown = (-gains * (1 + invested) ** count) / losses / (1 + financed);
  return grown ** (1 / (count - 1)) - 1;
}

/** The rate at which payments at given times come to nothing. */
function rateOfReturn(
  values: readonly number[],
  times: readonly number[],
  guess: number,
  goesOn: (value: number, slope: number) => boolean,
  slopeAt: (time: number, value: number, factor: number, base: number) => number,
): Value {
  const near = 1e-10;
  let rate = guess;
  for (let step = 0; step < 50; step += 1) {
    let [value, slope] = [0, 0];
    for (const [i, one] of values.entries()) {
      const time = times[i] as number;
      const factor = (1 + rate) ** time;
      if (!Number.isFinite(factor) || factor === 0) return refused();
      value += one / factor;
      slope -= slopeAt(time, one, factor, 1 + rate);
    }
    if (!goesOn(value, slope)) return refused();
    if (Math.abs(value) < near) return rate;
    if (Math.abs(slope) < near) return refused();
    let next = rate - value / slope;
    if (!Number.isFinite(next)) return refused();
    // Never below losing everything: half the way there instead.
    if (next <= -1) next = (rate - 1) / 2;
    if (Math.abs(next - rate) < near) return next;
    rate = next;
  }
  return refused();
}

const hasBoth = (values: readonly number[]): boolean =>
  values.some((one) => one > 0) && values.some((one) => one < 0);

function yearlyReturn(given: Matrix, guess: number): Value {
  if (guess <= -1) return fail('VALUE');
  const values = numbersIn(given);
  if (values instanceof Failure) return values;
  if (!hasBoth(values)) return refused();
  const times = values.map((_, i) => i);
  return rateOfReturn(
    values,
    times,
    guess,
    () => true,
    (time, value, factor, base) => (time > 0 ? (time * value) / (factor * base) : 0),
  );
}

/** Numbers, an empty cell as 0. */
function allNumbers({ cells }: Matrix): number[] | Failure {
  const all: number[] = [];
  for (const value of cells) {
    if (value instanceof Failure) return value;
    if (value !== null && typeof value !== 'number') return fail('VALUE', SAYS.numberExpected);
    all.push(value ?? 0);
  }
  return all;
}

function datedReturn(given: Matrix, on: Matrix, guess: number): Value {
  if (guess <= -1) return refused();
  const values = allNumbers(given);
  if (values instanceof Failure) return values;
  const dates = allNumbers(on);
  if (dates instanceof Failure) return dates;
  if (values.length !== dates.length) return fail('NUM', SAYS.sameSize);
  if (values.length < 2) return fail('NA');
  if (!hasBoth(values)) return refused();
  const days = dates.map(Math.floor);
  const start = days[0] as number;
  if (start < 0 || days.some((day) => day < start)) return fail('NUM', SAYS.tooSmall);
  return rateOfReturn(
    values,
    days.map((day) => (day - start) / 365),
    guess,
    (value, slope) => Number.isFinite(value) && Number.isFinite(slope),
    (time, value, factor, base) => (time * value) / (factor * base),
  );
}

/** What sums of certain days are worth on the first of them. */
function datedValue(rate: number, given: Matrix, on: Matrix): Value {
  const isNumber = (value: Value): value is number => typeof value === 'number';
  const [values, dates] = [given.cells, on.cells];
  if (!values.every(isNumber) || !dates.every(isNumber)) {
    return fail('VALUE', SAYS.numberExpected);
  }
  if (values.length !== dates.length) return fail('NUM', SAYS.sameSize);
  const days = dates.map(Math.floor);
  const start = days[0] as number;
  if (start < 0 || days.some((day) => day < start)) return fail('NUM', SAYS.tooSmall);
  return values.reduce(
    (total, value, i) => total + value / (1 + rate) ** (((days[i] as number) - start) / 365),
    0,
  );
}

function grownBy(value: number, rates: Matrix): Value {
  const error = rates.cells.find((one) => one instanceof Failure);
  if (error instanceof Failure) return error;
  let grown = value;
  for (const rate of rates.cells) {
    if (typeof rate === 'number') grown *= 1 + rate;
    else if (rate !== null) return fail('VALUE', SAYS.numberExpected);
  }
  return grown;
}

/** A bill that runs for a year at the most. */
const bill = (run: (days: number, given: number) => Value): Computing => ({
  takes: [least(0), least(0), above0],
  run: (settled: number, due: number, given: number) => {
    const [start, end] = [Math.round(settled), Math.round(due)];
    if (start >= end) return refused();
    const [from, to] = [dayOf(start), dayOf(end)];
    const isLater = to.month > from.month || (to.month === from.month && to.day > from.day);
    const isLong = to.year > from.year + 1 || (to.year === from.year + 1 && isLater);
    return isLong ? refused() : run(end - start, given);
  },
});

const discounted = (run: (days: number, discount: number, rest: number) => number): Computing =>
  bill((days, discount) => {
    const rest = 360 - discount * days;
    if (rest === 0) return 0;
    return rest < 0 ? refused() : run(days, discount, rest);
  });

const growth = (periods: number, present: number, future: number): Value =>
  present === 0 || (future < 0 && present > 0) || (future > 0 && present < 0)
    ? refused()
    : (future / present) ** (1 / periods) - 1;

/** Money: payments, what things are worth later, rates. */
export const FINANCE: Family = {
  PMT: { takes: [number, number, number, zero, zero], run: payment },
  IPMT: { takes: [number, number, number, number, zero, zero], run: interest },
  PPMT: { takes: [number, number, number, number, zero, zero], run: principal },
  FV: { takes: [number, number, number, zero, zero], run: futureValue },
  PV: { takes: [number, number, number, zero, zero], run: presentValue },
  NPER: { takes: [number, number, number, zero, zero], run: periodCount },
  RATE: {
    takes: [above0, number, number, zero, zero, { ...number, leftOut: 0.1 }],
    run: rateOf,
  },
  CUMIPMT: together(interest),
  CUMPRINC: together(principal),
  DB: {
    takes: [least(0), least(0), whole(0), whole(0), { ...whole(1, 12), leftOut: 12 }],
    run: fixedDeclining,
  },
  DDB: {
    takes: [least(0), least(0), whole(0), least(0), { ...above0, leftOut: 2 }],
    run: doubleDeclining,
  },
  SLN: numbers(3, (cost = 0, salvage = 0, life = 0) =>
    life === 0 ? divided() : (cost - salvage) / life,
  ),
  SYD: {
    takes: [number, number, above0, above0],
    run: (cost: number, salvage: number, life: number, period: number) =>
      period > life
        ? refused()
        : ((cost - salvage) * (life - period + 1) * 2) / (life * (life + 1)),
  },
  DOLLARDE: fraction((part, parts) => (part * 10) / parts),
  DOLLARFR: fraction((part, parts) => (part * parts) / 10),
  EFFECT: {
    takes: [least(0), least(1)],
    run: (rate: number, given: number) => {
      const periods = Math.trunc(given);
      return (1 + rate / periods) ** periods - 1;
    },
  },
  NOMINAL: {
    takes: [least(0), least(1)],
    run: (rate: number, given: number) => {
      const periods = Math.trunc(given);
      return ((rate + 1) ** (1 / periods) - 1) * periods;
    },
  },
  ISPMT: numbers(4, (rate = 0, period = 0, periods = 0, value = 0) =>
    periods === 0 ? divided() : value * rate * (period / periods - 1),
  ),
  RRI: { takes: [above0, number, number], run: growth },
  PDURATION: {
    takes: [above0, above0, above0],
    run: (rate: number, present: number, future: number) =>
      (Math.log(future) - Math.log(present)) / Math.log(1 + rate),
  },
  FVSCHEDULE: { takes: [number, range], run: grownBy },
  NPV: {
    takes: [number, either],
    again: 1,
    run: (rate: number, ...given: Given[]) => {
      const values = gathered(given, 'numbers');
      return values instanceof Failure ? values : netValue(rate, values);
    },
  },
  MIRR: { takes: [range, number, number], run: returnWithRates },
  IRR: { takes: [range, { ...number, leftOut: 0.1 }], run: yearlyReturn },
  XIRR: { takes: [range, range, { ...number, leftOut: 0.1 }], run: datedReturn },
  XNPV: { takes: [{ ...number, above: -1 }, range, range], run: datedValue },
  TBILLEQ: discounted((_days, discount, rest) => (365 * discount) / rest),
  TBILLPRICE: discounted((days, discount) => 100 * (1 - (discount * days) / 360)),
  TBILLYIELD: bill((days, price) => ((100 - price) * 360) / (price * days)),
};
