import type { OpenOptions } from '@kerfbook/workbook';
import { HyperFormulaEngine } from '@kerfbook/workbook/hyperformula';

/** HyperFormula alone, which says what formulas come to. */
export const JUDGE: OpenOptions = { engine: (state) => new HyperFormulaEngine(state) };
