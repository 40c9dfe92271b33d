/**
 * Plans are made in whole numbers, so that noise of binary fractions never decides whether a part
 * fits. Lengths count in ten-millionths of the caller's unit: 1/128 in and 0.1 mm are whole there.
 * Parts and kerfs are rounded down to it and stock up, so six parts of 100/6 do come out of 100;
 * the price is an overrun of at most a ten-millionth a part, which no saw can show.
 */
export const LENGTH_STEP = 1e-7;

/** Money counts in ten-thousandths, rounded down, so that a bound stays below every true cost. */
export const MONEY_STEP = 1e-4;

/** Share of a step that is taken for noise. */
const NOISE = 1e-2;

/** Whole steps, rounded down. */
export function stepsDown(value: number, step: number): number {
  return Math.floor(value / step + NOISE);
}

/** Whole steps, rounded up. */
export function stepsUp(value: number, step: number): number {
  return Math.ceil(value / step - NOISE);
}

/** Greatest common divisor of whole numbers; 0 where all are 0 or there are none. */
export function commonDivisor(values: readonly number[]): number {
  let divisor = 0;
  for (const value of values) {
    let other = Math.abs(value);
    while (other > 0) {
      const rest = divisor % other;
      divisor = other;
      other = rest;
    }
  }
  return divisor;
}
