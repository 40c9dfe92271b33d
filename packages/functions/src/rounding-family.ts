import * as rounding from './rounding.ts';

/** Why a function of numbers has no answer. */
export type NoAnswer = 'divided by zero' | 'different signs';

/** How a function of numbers is worked out, the same in every engine. */
export interface OfNumbers {
  /** What each number is where it is left out; `undefined`: it must not be. */
  readonly takes: readonly (number | undefined)[];
  /** The answer to as many numbers as `takes` has, each finite, or why there is none; it never throws. */
  run(...numbers: number[]): number | NoAnswer;
}

type Compute = OfNumbers['run'];

/** With a mode other than 0, a negative value is rounded away from zero (OpenFormula 6.17.1). */
const math =
  (round: (value: number, step: number) => number): Compute =>
  (value = 0, step = 1, mode = 0) => {
    if (value === 0 || step === 0) return 0;
    const size = Math.abs(step);
    return round(value, mode !== 0 && value < 0 ? -size : size);
  };

/** The same, refusing a positive value with a negative step (OpenFormula 6.17.1 and 6.17.3). */
const strict =
  (round: (value: number, step: number) => number): Compute =>
  (value = 0, step = 1, mode = 0) =>
    value > 0 && step < 0 ? 'different signs' : math(round)(value, step, mode);

/** The rounding family of the standard, made to agree with what cells show. */
export const ROUNDING: Readonly<Record<string, OfNumbers>> = {
  ROUND: { takes: [undefined, 0], run: (value = 0, places = 0) => rounding.round(value, places) },
  ROUNDUP: {
    takes: [undefined, 0],
    run: (value = 0, places = 0) => rounding.roundUp(value, places),
  },
  ROUNDDOWN: {
    takes: [undefined, 0],
    run: (value = 0, places = 0) => rounding.roundDown(value, places),
  },
  TRUNC: {
    takes: [undefined, 0],
    run: (value = 0, places = 0) => rounding.roundDown(value, places),
  },
  INT: { takes: [undefined], run: (value = 0) => rounding.int(value) },
  CEILING: { takes: [undefined, 1, 0], run: strict(rounding.multipleAbove) },
  FLOOR: { takes: [undefined, 1, 0], run: strict(rounding.multipleBelow) },
  'CEILING.MATH': { takes: [undefined, 1, 0], run: math(rounding.multipleAbove) },
  'FLOOR.MATH': { takes: [undefined, 1, 0], run: math(rounding.multipleBelow) },
  'CEILING.PRECISE': { takes: [undefined, 1], run: math(rounding.multipleAbove) },
  'ISO.CEILING': { takes: [undefined, 1], run: math(rounding.multipleAbove) },
  'FLOOR.PRECISE': { takes: [undefined, 1], run: math(rounding.multipleBelow) },
  MROUND: {
    takes: [undefined, undefined],
    run: (value = 0, step = 0) => {
      if (step === 0) return 0;
      if (value !== 0 && value < 0 !== step < 0) return 'different signs';
      return rounding.multipleNearest(value, step);
    },
  },
  QUOTIENT: {
    takes: [undefined, undefined],
    run: (value = 0, by = 0) => (by === 0 ? 'divided by zero' : rounding.quotient(value, by)),
  },
  MOD: {
    takes: [undefined, undefined],
    run: (value = 0, by = 0) => (by === 0 ? 'divided by zero' : rounding.mod(value, by)),
  },
};
