import { otherEngine } from './other-engine.ts';
import type { MakeEngine } from './port.ts';

/** In the app HyperFormula is there from the start, and works workbooks out alone. */
export const usualEngine: MakeEngine = otherEngine.need();
