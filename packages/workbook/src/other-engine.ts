import { type Lazy, loaded } from '@kerfbook/functions';
import { HyperFormulaEngine } from './follow/hyperformula.ts';
import type { MakeEngine } from './port.ts';

/** HyperFormula as an engine of workbooks; every module that needs it asks for it here. */
export const otherEngine: Lazy<MakeEngine> = loaded((state) => new HyperFormulaEngine(state));
