import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
  type SimpleCellAddress,
} from 'hyperformula';
import { person } from '../results/sentences.ts';
import { contextOf } from './context.ts';

/** What an engine is told beside its settings, for functions of ours to look at. */
export interface FormulaTexts {
  /** The formula of a cell as its maker reads it. */
  formulaText?(address: SimpleCellAddress): string | undefined;
}

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

/** FORMULATEXT as the maker wrote it: the engine's own text has its stand-ins and other words. */
class FormulaText extends FunctionPlugin {
  static override implementedFunctions = {
    FORMULATEXT: {
      method: 'formulaText',
      parameters: [{ argumentType: FunctionArgumentType.NOERROR }],
      doesNotNeedArgumentsToBeComputed: true,
      isDependentOnSheetStructureChange: true,
      vectorizationForbidden: true,
    },
  };

  formulaText(ast: Ast, state: State) {
    const wrong = () => new CellError(ErrorType.NA, person('E14'));
    return this.runFunctionWithReferenceArgument(
      ast.args,
      state,
      this.metadata('FORMULATEXT'),
      wrong,
      (address: SimpleCellAddress) =>
        contextOf(this.config).formulaText?.(address) ?? new CellError(ErrorType.NA, person('E10')),
    );
  }
}

export function registerFormulaText(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(FormulaText, { enGB: { FORMULATEXT: 'FORMULATEXT' } });
}
