import { CellError, ErrorType, FunctionPlugin, type HyperFormula } from 'hyperformula';
import { person } from '../results/sentences.ts';

type Run = FunctionPlugin['runFunction'];
type Asts = Parameters<Run>[0];
type State = Parameters<Run>[1];
type Value = ReturnType<FunctionPlugin['evaluateAst']>;

/** How a function that stands around a formula works it out. */
export type Around = (of: {
  /** The formula it stands around. */
  readonly inner: Asts[number];
  /** What else it was given. */
  readonly rest: Asts;
  /** Works one of them out. */
  readonly evaluate: (ast: Asts[number]) => Value;
  readonly config: FunctionPlugin['config'];
}) => Value;

/** Registers a function that the engine is told around formulas and no maker can type. */
export function registerAround(engine: typeof HyperFormula, name: string, around: Around): void {
  class AroundPlugin extends FunctionPlugin {
    static override implementedFunctions = {
      [name]: { method: 'around', parameters: [], repeatLastArgs: 0 },
    };

    around({ args: [inner, ...rest] }: { args: Asts }, state: State): Value {
      if (inner === undefined) return new CellError(ErrorType.ERROR, person('E17'));
      const evaluate = (ast: Asts[number]) => this.evaluateAst(ast, state);
      return around({ inner, rest, evaluate, config: this.config });
    }
  }
  engine.registerFunctionPlugin(AroundPlugin, { enGB: { [name]: name } });
}
