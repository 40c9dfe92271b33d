import { SAYS } from '@kerfbook/functions/computing';
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

/**
 * FORMULATEXT as the maker wrote it: the engine's own text has its stand-ins and other words. ISFORMULA too: the
 * engine holds formulas where an entry is refused.
 */
class FormulaText extends FunctionPlugin {
  static override implementedFunctions = {
    FORMULATEXT: {
      method: 'formulaText',
      parameters: [{ argumentType: FunctionArgumentType.NOERROR }],
      doesNotNeedArgumentsToBeComputed: true,
      isDependentOnSheetStructureChange: true,
      vectorizationForbidden: true,
    },
    ISFORMULA: {
      method: 'isFormula',
      parameters: [{ argumentType: FunctionArgumentType.NOERROR }],
      doesNotNeedArgumentsToBeComputed: true,
      isDependentOnSheetStructureChange: true,
      vectorizationForbidden: true,
    },
  };

  isFormula(ast: Ast, state: State) {
    return this.runFunctionWithReferenceArgument(
      ast.args,
      state,
      this.metadata('ISFORMULA'),
      () => new CellError(ErrorType.NA, person('E14')),
      (address: SimpleCellAddress) => contextOf(this.config).formulaText?.(address) !== undefined,
    );
  }

  formulaText(ast: Ast, state: State) {
    const wrong = () => new CellError(ErrorType.NA, SAYS.arguments);
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
  engine.registerFunctionPlugin(FormulaText, {
    enGB: { FORMULATEXT: 'FORMULATEXT', ISFORMULA: 'ISFORMULA' },
  });
}
