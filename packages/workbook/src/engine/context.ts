import type { UnitSystem } from '@kerfbook/wood';
import type { ConfigParams } from 'hyperformula';
import type { FormulaTexts } from './formula-text.ts';
import type { SheetOrder } from './sheet-order.ts';

/** What an engine is told beside its settings, for functions of ours to look at. */
export interface Context extends FormulaTexts, SheetOrder {
  readonly units: UnitSystem;
}

/** It travels through HyperFormula, which knows nothing of it; where an engine is not ours, there is none. */
export const contextOf = ({ context }: Pick<ConfigParams, 'context'>): Context =>
  (context as Context | undefined) ?? { units: 'us' };
