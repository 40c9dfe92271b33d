import { CallRefused } from './described.ts';
import * as rounding from './rounding.ts';
import { person } from './sentences.ts';

type Compute = (...numbers: number[]) => number | CallRefused;

/** What each number is where it is left out; `undefined`: it must not be. */
type Takes = readonly (number | undefined)[];

/** With a mode other than 0, a negative value is rounded away from zero (OpenFormula 6.17.1). */
const math =
  (round: (value: number, step: number) => number): Compute =>
  (value = 0, step = 1, mode = 0) => {
    if (value === 0 || step === 0) return 0;
    const size = Math.abs(step);
    return round(value, mode !== 0 && value < 0 ? -size : size);
  };

const signs = () => new CallRefused('NUM', person('E13'));

/** The same, refusing a positive value with a negative step (OpenFormula 6.17.1 and 6.17.3). */
const strict =
  (round: (value: number, step: number) => number): Compute =>
  (value = 0, step = 1, mode = 0) =>
    value > 0 && step < 0 ? signs() : math(round)(value, step, mode);

const byZero = () => new CallRefused('DIV_BY_ZERO', person('E6'));

/** The rounding family of the standard, made to agree with what cells show. */
export const ROUNDING: Readonly<Record<string, readonly [Takes, Compute]>> = {
  ROUND: [[undefined, 0], (value = 0, places = 0) => rounding.round(value, places)],
  ROUNDUP: [[undefined, 0], (value = 0, places = 0) => rounding.roundUp(value, places)],
  ROUNDDOWN: [[undefined, 0], (value = 0, places = 0) => rounding.roundDown(value, places)],
  TRUNC: [[undefined, 0], (value = 0, places = 0) => rounding.roundDown(value, places)],
  INT: [[undefined], (value = 0) => rounding.int(value)],
  CEILING: [[undefined, 1, 0], strict(rounding.multipleAbove)],
  FLOOR: [[undefined, 1, 0], strict(rounding.multipleBelow)],
  'CEILING.MATH': [[undefined, 1, 0], math(rounding.multipleAbove)],
  'FLOOR.MATH': [[undefined, 1, 0], math(rounding.multipleBelow)],
  'CEILING.PRECISE': [[undefined, 1], math(rounding.multipleAbove)],
  'ISO.CEILING': [[undefined, 1], math(rounding.multipleAbove)],
  'FLOOR.PRECISE': [[undefined, 1], math(rounding.multipleBelow)],
  MROUND: [
    [undefined, undefined],
    (value = 0, step = 0) => {
      if (step === 0) return 0;
      if (value !== 0 && value < 0 !== step < 0) return signs();
      return rounding.multipleNearest(value, step);
    },
  ],
  QUOTIENT: [
    [undefined, undefined],
    (value = 0, by = 0) => (by === 0 ? byZero() : rounding.quotient(value, by)),
  ],
  MOD: [
    [undefined, undefined],
    (value = 0, by = 0) => (by === 0 ? byZero() : rounding.mod(value, by)),
  ],
};
