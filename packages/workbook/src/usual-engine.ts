import { otherEngine } from '#other-engine';
import { CompiledEngine } from './compiled/engine.ts';
import type { MakeEngine } from './port.ts';

/** What works out workbooks: compiled formulas, and HyperFormula where one is not compiled. */
export const usualEngine: MakeEngine = (state, onward) =>
  new CompiledEngine(state, otherEngine, onward);
