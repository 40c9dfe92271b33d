import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
} from 'hyperformula';
import * as rounding from './rounding.ts';
import { person } from './sentences.ts';

const NUMBER = { argumentType: FunctionArgumentType.NUMBER } as const;
const PLACES = { ...NUMBER, defaultValue: 0 } as const;
const STEP = { ...NUMBER, defaultValue: 1 } as const;

type Compute = (...numbers: number[]) => number | CellError;
type Takes = readonly (typeof NUMBER | typeof PLACES | typeof STEP)[];

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
    value > 0 && step < 0
      ? new CellError(ErrorType.NUM, person('E13'))
      : math(round)(value, step, mode);

/** The rounding family of the standard, made to agree with what cells show. */
const OVERRIDES: Readonly<Record<string, readonly [Takes, Compute]>> = {
  ROUND: [[NUMBER, PLACES], (value = 0, places = 0) => rounding.round(value, places)],
  ROUNDUP: [[NUMBER, PLACES], (value = 0, places = 0) => rounding.roundUp(value, places)],
  ROUNDDOWN: [[NUMBER, PLACES], (value = 0, places = 0) => rounding.roundDown(value, places)],
  TRUNC: [[NUMBER, PLACES], (value = 0, places = 0) => rounding.roundDown(value, places)],
  INT: [[NUMBER], (value = 0) => rounding.int(value)],
  CEILING: [[NUMBER, STEP, PLACES], strict(rounding.multipleAbove)],
  FLOOR: [[NUMBER, STEP, PLACES], strict(rounding.multipleBelow)],
  'CEILING.MATH': [[NUMBER, STEP, PLACES], math(rounding.multipleAbove)],
  'FLOOR.MATH': [[NUMBER, STEP, PLACES], math(rounding.multipleBelow)],
  'CEILING.PRECISE': [[NUMBER, STEP], math(rounding.multipleAbove)],
  'ISO.CEILING': [[NUMBER, STEP], math(rounding.multipleAbove)],
  'FLOOR.PRECISE': [[NUMBER, STEP], math(rounding.multipleBelow)],
  MROUND: [
    [NUMBER, NUMBER],
    (value = 0, step = 0) => {
      if (step === 0) return 0;
      if (value !== 0 && value < 0 !== step < 0) return new CellError(ErrorType.NUM, person('E13'));
      return rounding.multipleNearest(value, step);
    },
  ],
  QUOTIENT: [
    [NUMBER, NUMBER],
    (value = 0, by = 0) =>
      by === 0 ? new CellError(ErrorType.DIV_BY_ZERO, person('E6')) : rounding.quotient(value, by),
  ],
  MOD: [
    [NUMBER, NUMBER],
    (value = 0, by = 0) =>
      by === 0 ? new CellError(ErrorType.DIV_BY_ZERO, person('E6')) : rounding.mod(value, by),
  ],
};

export const OVERRIDDEN: readonly string[] = Object.keys(OVERRIDES);

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

class RoundingFamily extends FunctionPlugin {
  static override implementedFunctions = Object.fromEntries(
    Object.entries(OVERRIDES).map(([name, [parameters]]) => [
      name,
      { method: methodOf(name), parameters: [...parameters] },
    ]),
  );

  /** Runs one function of the family; the named methods made below all come here. */
  family(name: string, ast: Ast, state: State) {
    const compute = OVERRIDES[name]?.[1] ?? (() => 0);
    return this.runFunction(ast.args, state, this.metadata(name), compute);
  }
}

function methodOf(name: string): string {
  return `family_${name.toLowerCase().replaceAll('.', '_')}`;
}

for (const name of OVERRIDDEN) {
  Object.defineProperty(RoundingFamily.prototype, methodOf(name), {
    value(this: RoundingFamily, ast: Ast, state: State) {
      return this.family(name, ast, state);
    },
  });
}

/** Text a formula may come to, in characters. */
export const LONGEST_TEXT = 32_767;

/** REPT within bounds: repetitions of repetitions would fill the memory. */
class BoundedText extends FunctionPlugin {
  static override implementedFunctions = {
    REPT: {
      method: 'rept',
      parameters: [{ argumentType: FunctionArgumentType.STRING }, { ...NUMBER }],
    },
  };

  rept(ast: Ast, state: State) {
    return this.runFunction(
      ast.args,
      state,
      this.metadata('REPT'),
      (text: string, times: number) => {
        if (times < 0) return new CellError(ErrorType.VALUE, person('E9'));
        const count = Math.trunc(rounding.snap(times));
        return text.length * count > LONGEST_TEXT
          ? new CellError(ErrorType.VALUE, person('E18', LONGEST_TEXT))
          : text.repeat(count);
      },
    );
  }
}

/** Replaces the rounding family and REPT of the engine, once for the process. */
export function registerStandard(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(BoundedText, { enGB: { REPT: 'REPT' } });
  const enGB = Object.fromEntries(OVERRIDDEN.map((name) => [name, name]));
  engine.registerFunctionPlugin(RoundingFamily, { enGB });
}
