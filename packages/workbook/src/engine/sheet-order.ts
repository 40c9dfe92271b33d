import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  type HyperFormula,
} from 'hyperformula';
import { person } from '../results/sentences.ts';
import { contextOf } from './context.ts';

/** What an engine is told beside its settings of the sheets as their maker sees them. */
export interface SheetOrder {
  /** How many there are. */
  sheetCount?(): number;
  /** The place of a sheet of the engine among them, the first one 1; none for the engine's own. */
  sheetPlace?(sheet: number): number | undefined;
  /** The place of the sheet that is called so. */
  sheetCalled?(name: string): number | undefined;
}

type Run = FunctionPlugin['runFunction'];
type Ast = { args: Parameters<Run>[0] };
type State = Parameters<Run>[1];

/**
 * SHEET and SHEETS as the workbook's sheets stand. The engine numbers sheets as they were added, and
 * has one of its own among them.
 */
class SheetPlaces extends FunctionPlugin {
  static override implementedFunctions = {
    SHEET: {
      method: 'sheet',
      parameters: [{ argumentType: FunctionArgumentType.STRING, optionalArg: true }],
      doesNotNeedArgumentsToBeComputed: true,
      isDependentOnSheetStructureChange: true,
      vectorizationForbidden: true,
    },
    SHEETS: {
      method: 'sheets',
      parameters: [{ argumentType: FunctionArgumentType.STRING, optionalArg: true }],
      doesNotNeedArgumentsToBeComputed: true,
      isDependentOnSheetStructureChange: true,
      vectorizationForbidden: true,
    },
  };

  get #order(): SheetOrder {
    return contextOf(this.config);
  }

  sheet({ args }: Ast, state: State) {
    const place = ({ sheet }: { readonly sheet: number }) =>
      this.#order.sheetPlace?.(sheet) ?? notThere();
    return this.runFunctionWithReferenceArgument(
      args,
      state,
      this.metadata('SHEET'),
      () => place(state.formulaAddress),
      place,
      (name: string) => this.#order.sheetCalled?.(name) ?? notThere(),
    );
  }

  sheets({ args }: Ast, state: State) {
    return this.runFunctionWithReferenceArgument(
      args,
      state,
      this.metadata('SHEETS'),
      () => this.#order.sheetCount?.() ?? notThere(),
      () => 1,
      () => notThere(),
    );
  }
}

const notThere = () => new CellError(ErrorType.NA, person('E10'));

export function registerSheetOrder(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(SheetPlaces, { enGB: { SHEET: 'SHEET', SHEETS: 'SHEETS' } });
}
