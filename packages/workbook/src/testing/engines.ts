import { otherEngine } from '../other-engine.ts';
import type { MakeEngine } from '../port.ts';

/** The judge: whatever engine carries a workbook comes to what this one comes to. */
export const HYPERFORMULA: MakeEngine = otherEngine.need();
