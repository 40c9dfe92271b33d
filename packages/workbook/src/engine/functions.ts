import { functionNames, functionReference } from '@kerfbook/functions';
import type { FunctionDescription, UnitSystem } from '@kerfbook/wood';
import {
  ArraySize,
  CellError,
  EmptyValue,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import {
  CallRefused,
  callDescribed,
  GivenRange,
  stepsOf,
  takesCells,
  tooMany,
} from '../results/described.ts';
import { spend } from '../results/meter.ts';
import { person } from '../results/sentences.ts';
import { contextOf } from './context.ts';
import { numberOf } from './inside.ts';

type Result = number | string | CellError | SimpleRangeValue;

const isError = (value: unknown): value is CellError => value instanceof CellError;

/** A value of the engine as a call of ours takes it: numbers of money or percent are numbers too. */
export function plainOf(value: unknown): unknown {
  if (value === EmptyValue) return null;
  if (typeof value !== 'object' || value === null || isError(value)) return value;
  return numberOf(value);
}

function call(description: FunctionDescription, raw: readonly unknown[], system: UnitSystem) {
  const given = raw.map((value) =>
    value instanceof SimpleRangeValue
      ? new GivenRange(value.data.flat().map(plainOf), value.width())
      : plainOf(value),
  );
  return engineResult(callDescribed(description, given, system, isError));
}

function engineResult(result: ReturnType<typeof callDescribed<CellError>>): Result {
  if (result instanceof CallRefused) return new CellError(ErrorType[result.type], result.message);
  if (typeof result !== 'object' || isError(result)) return result;
  return SimpleRangeValue.onlyNumbers(result.map((value) => [value]));
}

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

const ALL = functionReference();
const BY_NAME = new Map(ALL.map((one) => [one.name, one]));

function methodOf(name: string): string {
  return `wood_${name.toLowerCase()}`;
}

class WoodFunctions extends FunctionPlugin {
  static override implementedFunctions = Object.fromEntries(
    ALL.map((one) => [
      one.name,
      {
        method: methodOf(one.name),
        ...(one.fills === 'column' ? { sizeOfResultArrayMethod: 'columnSize' } : {}),
        // Every argument is optional to the engine: we say ourselves, by name, which one is missing.
        parameters: one.args.map((argument) => ({
          argumentType: takesCells(argument)
            ? FunctionArgumentType.RANGE
            : FunctionArgumentType.NOERROR,
          optionalArg: true,
        })),
      },
    ]),
  );

  /** Runs one function; the named methods made below all come here. */
  described(description: FunctionDescription, ast: Ast, state: State) {
    const { name, args } = description;
    if (ast.args.length > args.length) return engineResult(tooMany(description, ast.args.length));
    const { units: system } = contextOf(this.config);
    const steps = stepsOf(description);
    return this.runFunction(ast.args, state, this.metadata(name), (...raw: unknown[]) => {
      spend(steps);
      return raw.some((value, i) => value instanceof SimpleRangeValue && !takesCells(args[i]))
        ? new CellError(ErrorType.VALUE, person('E8'))
        : call(description, raw, system);
    });
  }

  /** How many cells a column of results takes: as many as its range has. */
  columnSize(ast: Ast, state: State): ArraySize {
    const [first] = ast.args;
    if (first === undefined) return ArraySize.error();
    const { width, height } = this.arraySizeForAst(first, state);
    return new ArraySize(1, width * height);
  }
}

for (const [name, description] of BY_NAME) {
  Object.defineProperty(WoodFunctions.prototype, methodOf(name), {
    value(this: WoodFunctions, ast: Ast, state: State) {
      return this.described(description, ast, state);
    },
  });
}

/** The one whose name the engine keeps to itself. */
const PROTECTED = 'VERSION';

/**
 * Puts our functions beside the standard ones, and tells what all of them are called: the engine's own
 * names are not in the app (`apps/grid/scripts/leave-out.mjs`).
 */
export function registerOurs(engine: typeof HyperFormula): void {
  const names = functionNames().filter((name) => name !== PROTECTED);
  const enGB = Object.fromEntries(names.map((name) => [name, name]));
  engine.registerFunctionPlugin(WoodFunctions, { enGB });
}
