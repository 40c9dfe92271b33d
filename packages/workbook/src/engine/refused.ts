import { CellError, ErrorType, FunctionPlugin, type HyperFormula } from 'hyperformula';
import { REFUSED_NAME } from '../results/said.ts';

/** The one function no maker can use: it stands where a formula was refused (rule F6). */
class Refused extends FunctionPlugin {
  static override implementedFunctions = {
    [REFUSED_NAME]: { method: 'refused', parameters: [] },
  };

  refused(): CellError {
    return new CellError(ErrorType.ERROR, REFUSED_NAME);
  }
}

export function registerRefused(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(Refused, { enGB: { [REFUSED_NAME]: REFUSED_NAME } });
}
