import { CellError, ErrorType, FunctionPlugin, type HyperFormula } from 'hyperformula';
import { REFUSED_ENTRY, REFUSED_NAME } from '../results/said.ts';

/**
 * The functions no maker can use: they stand where a formula was refused (rule F6), and where an entry may not
 * be computed with (rule N4).
 */
class Refused extends FunctionPlugin {
  static override implementedFunctions = {
    [REFUSED_NAME]: { method: 'refused', parameters: [] },
    [REFUSED_ENTRY]: { method: 'refusedEntry', parameters: [] },
  };

  refused(): CellError {
    return new CellError(ErrorType.ERROR, REFUSED_NAME);
  }

  refusedEntry(): CellError {
    return new CellError(ErrorType.VALUE, REFUSED_ENTRY);
  }
}

export function registerRefused(engine: typeof HyperFormula): void {
  engine.registerFunctionPlugin(Refused, {
    enGB: { [REFUSED_NAME]: REFUSED_NAME, [REFUSED_ENTRY]: REFUSED_ENTRY },
  });
}
