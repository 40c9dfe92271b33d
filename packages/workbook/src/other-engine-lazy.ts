import { type Lazy, lazy } from '@kerfbook/functions';
import type { MakeEngine } from './port.ts';

/** HyperFormula, loaded when it is asked for; the app's build takes this in the place of `other-engine.ts`. */
export const otherEngine: Lazy<MakeEngine> = lazy(async () => {
  const { HyperFormulaEngine } = await import('./follow/hyperformula.ts');
  return (state) => new HyperFormulaEngine(state);
});
