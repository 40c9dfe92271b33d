import {
  CellError,
  ErrorType,
  FunctionPlugin,
  type HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { person } from '../results/sentences.ts';

/** Stands around a formula that has one answer. */
export const ONE_NAME = 'KERFBOOK_ONE';

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

/**
 * `KERFBOOK_ONE(formula)`: the formula's value, or an error where it has several. Checks stand in one
 * column of the engine, where the results of one would lie over the next.
 */
class OneAnswer extends FunctionPlugin {
  static override implementedFunctions = {
    [ONE_NAME]: { method: 'one', parameters: [], repeatLastArgs: 0 },
  };

  one({ args: [inner] }: Ast, state: State) {
    if (inner === undefined) return new CellError(ErrorType.ERROR, person('E17'));
    const value = this.evaluateAst(inner, state);
    if (!(value instanceof SimpleRangeValue)) return value;
    const [first] = value.data[0] ?? [];
    return value.width() * value.height() === 1 && first !== undefined
      ? first
      : new CellError(ErrorType.VALUE, person('E28'));
  }
}

export function registerOne(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(OneAnswer, { enGB: { [ONE_NAME]: ONE_NAME } });
}
