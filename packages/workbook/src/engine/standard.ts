import { STANDARD, standardFunction } from '@kerfbook/functions';
import { Failure, repeated, substituted } from '@kerfbook/functions/computing';
import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
} from 'hyperformula';
import { refusalOf } from '../results/described.ts';
import { LONGEST_TEXT } from '../results/meter.ts';
import { person } from '../results/sentences.ts';

const NUMBER = { argumentType: FunctionArgumentType.NUMBER } as const;

/** Those of numbers alone: the rounding family of the standard, made to agree with what cells show. */
const OVERRIDDEN = STANDARD.flatMap(({ name, computes }) =>
  computes === undefined ? [] : [{ name, computes }],
);

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

class RoundingFamily extends FunctionPlugin {
  static override implementedFunctions = Object.fromEntries(
    OVERRIDDEN.map(({ name, computes: { takes } }) => [
      name,
      {
        method: methodOf(name),
        parameters: takes.map((defaultValue) =>
          defaultValue === undefined ? NUMBER : { ...NUMBER, defaultValue },
        ),
      },
    ]),
  );

  /** Runs one function of the family; the named methods made below all come here. */
  family(name: string, ast: Ast, state: State) {
    const computes = standardFunction(name)?.computes;
    return this.runFunction(ast.args, state, this.metadata(name), (...numbers: number[]) => {
      const result = computes?.run(...numbers) ?? 0;
      if (typeof result === 'number') return result;
      const { type, message } = refusalOf(result);
      return new CellError(ErrorType[type], message);
    });
  }
}

function methodOf(name: string): string {
  return `family_${name.toLowerCase().replaceAll('.', '_')}`;
}

for (const { name } of OVERRIDDEN) {
  Object.defineProperty(RoundingFamily.prototype, methodOf(name), {
    value(this: RoundingFamily, ast: Ast, state: State) {
      return this.family(name, ast, state);
    },
  });
}

/** What a function costs is noted by the description of its first argument: each has one of its own. */
const TEXT = { argumentType: FunctionArgumentType.STRING } as const;

/**
 * Functions of words within bounds: repetitions of repetitions would fill the memory, and SUBSTITUTE would
 * look for ever for the place between two where nothing is to go.
 */
class BoundedText extends FunctionPlugin {
  static override implementedFunctions = {
    REPT: {
      method: 'rept',
      parameters: [{ ...TEXT }, NUMBER],
    },
    SUBSTITUTE: {
      method: 'substitute',
      parameters: [{ ...TEXT }, TEXT, TEXT, { ...NUMBER, optionalArg: true }],
    },
  };

  substitute(ast: Ast, state: State) {
    return this.runFunction(
      ast.args,
      state,
      this.metadata('SUBSTITUTE'),
      (words: string, old: string, by: string, which?: number) => {
        const result = substituted(words, old, by, which);
        if (!(result instanceof Failure)) return result;
        return new CellError(ErrorType.VALUE, result.message);
      },
    );
  }

  rept(ast: Ast, state: State) {
    return this.runFunction(
      ast.args,
      state,
      this.metadata('REPT'),
      (text: string, times: number) => {
        const result = repeated(text, times, LONGEST_TEXT);
        if (typeof result === 'object') return result.words;
        const says = result === 'negative' ? person('E9') : person('E18', LONGEST_TEXT);
        return new CellError(ErrorType.VALUE, says);
      },
    );
  }
}

/** Replaces the rounding family, REPT and SUBSTITUTE of the engine, once for the process. */
export function registerStandard(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(BoundedText, {
    enGB: { REPT: 'REPT', SUBSTITUTE: 'SUBSTITUTE' },
  });
  const enGB = Object.fromEntries(OVERRIDDEN.map(({ name }) => [name, name]));
  engine.registerFunctionPlugin(RoundingFamily, { enGB });
}
