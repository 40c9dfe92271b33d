/** A number in two parts, of twice the digits: what `high` leaves out is in `low`. */
export interface Double {
  readonly high: number;
  readonly low: number;
}

export const ZERO: Double = { high: 0, low: 0 };

const SPLITTER = 2 ** 27 + 1;
const MOST_SPLIT = 2 ** 996;
const MOST_PRODUCT = 2 ** 1023;
const MOST_DIVIDED = 2 ** 1000;

/** What a sum of two numbers is, with what it rounds away. */
export function sumOf(a: number, b: number): Double {
  const high = a + b;
  return { high, low: Math.abs(a) >= Math.abs(b) ? b - (high - a) : a - (high - b) };
}

/** The same of a product. */
function productOf(a: number, b: number): Double {
  const high = a * b;
  const splits = Math.abs(a) <= MOST_SPLIT && Math.abs(b) <= MOST_SPLIT;
  if (splits && Math.abs(high) <= MOST_PRODUCT) return { high, low: roundedAway(a, b, high) };
  if (!Number.isFinite(high)) return { high, low: 0 };
  const [larger, smaller] = Math.abs(a) >= Math.abs(b) ? [a, b] : [b, a];
  const scaled = larger / 2 ** 53;
  return { high, low: roundedAway(scaled, smaller, scaled * smaller) * 2 ** 53 };
}

function roundedAway(a: number, b: number, product: number): number {
  const [aHigh, bHigh] = [upper(a), upper(b)];
  const [aLow, bLow] = [a - aHigh, b - bHigh];
  return aHigh * bHigh - product + aHigh * bLow + aLow * bHigh + aLow * bLow;
}

/** The upper half of a number's digits. */
function upper(value: number): number {
  const scaled = SPLITTER * value;
  return scaled - (scaled - value);
}

export function plus(x: Double, y: Double): Double {
  const sum = sumOf(x.high, y.high);
  if (!Number.isFinite(sum.high)) return { high: sum.high, low: 0 };
  const low = sum.low + x.low + y.low;
  const high = sum.high + low;
  return { high, low: low - (high - sum.high) };
}

export const minus = (x: Double, y: Double): Double => plus(x, { high: -y.high, low: -y.low });

export function by(x: Double, y: Double): Double {
  const product = productOf(x.high, y.high);
  return { high: product.high, low: product.low + x.high * y.low + x.low * y.high };
}

export function times(x: Double, factor: number): Double {
  const product = productOf(x.high, factor);
  return { high: product.high, low: product.low + x.low * factor };
}

/** By a power of two, which loses nothing. */
export const scaled = ({ high, low }: Double, power: number): Double => ({
  high: high * power,
  low: low * power,
});

export function over(x: Double, divisor: number): Double {
  if (Math.abs(x.high) > MOST_DIVIDED && Number.isFinite(x.high)) {
    return scaled(over(scaled(x, 2 ** -64), divisor), 2 ** 64);
  }
  const quotient = x.high / divisor;
  const product = productOf(quotient, divisor);
  return sumOf(quotient, (x.high - product.high - product.low + x.low) / divisor);
}

export function divided(x: Double, y: Double): Double {
  const quotient = x.high / y.high;
  if (!Number.isFinite(quotient) || !Number.isFinite(y.high)) return { high: quotient, low: 0 };
  if (Math.abs(x.high) > MOST_DIVIDED) {
    return scaled(divided(scaled(x, 2 ** -64), y), 2 ** 64);
  }
  const rest = minus(x, times(y, quotient));
  return sumOf(quotient, rest.high / y.high);
}

export const rounded = ({ high, low }: Double): number => high + low;

/** By two to a power that may be too large to be a number itself. */
export function shifted(value: number, power: number): number {
  const half = Math.trunc(power / 2);
  return value * 2 ** half * 2 ** (power - half);
}
