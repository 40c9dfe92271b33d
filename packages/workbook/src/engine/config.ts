import { LIMITS } from '@kerfbook/document';
import { formatNumber } from '@kerfbook/functions/computing';
import type { UnitSystem } from '@kerfbook/wood';
import { type ConfigParams, HyperFormula } from 'hyperformula';
import { checkEngine } from '#check';
import { registerBudget } from './budget.ts';
import type { Context } from './context.ts';
import { registerFormulaText } from './formula-text.ts';
import { registerOurs } from './functions.ts';
import { registerOne } from './one.ts';
import { registerOwn } from './own.ts';
import { registerRefused } from './refused.ts';
import { registerSheetOrder } from './sheet-order.ts';
import { registerStandard } from './standard.ts';
import { registerText } from './text-format.ts';

let prepared = false;

/**
 * Puts our functions beside the engine's own, and in the place of some, and bounds what all of them cost:
 * the engine keeps one list for the whole process. Done before the first engine is made; again, it does
 * nothing.
 *
 * @throws an Error by name where the engine is made differently inside than we know it
 */
export function prepareEngine(): void {
  if (prepared) return;
  checkEngine();
  registerOurs(HyperFormula);
  registerStandard(HyperFormula);
  registerText(HyperFormula);
  registerRefused(HyperFormula);
  registerOwn(HyperFormula);
  registerOne(HyperFormula);
  registerFormulaText(HyperFormula);
  registerSheetOrder(HyperFormula);
  registerBudget(HyperFormula);
  prepared = true;
}

/** The engine's settings; each one that is not the engine's own default has its reason. */
export function engineConfig(
  system: UnitSystem,
  asked: Omit<Context, 'units'>,
): Partial<ConfigParams> {
  return {
    licenseKey: 'gpl-v3',
    maxRows: LIMITS.rows,
    // Wider, `Leg1` would be a cell in a column LEG that silently reads as 0.
    maxColumns: LIMITS.columns,
    // `1 1/2` is a length here, never the first of February: entries are read before the engine.
    parseDateTime: () => undefined,
    // Without it `SUM(A1:A3*2)` is a wrong number without a warning.
    useArrayArithmetic: true,
    evaluateNullToZero: true,
    precisionRounding: 14,
    // Undo is ours (edits with inverses); the engine's own would only keep memory.
    undoLimit: 0,
    ignoreWhiteSpace: 'any',
    accentSensitive: true,
    stringifyDateTime: () => undefined,
    stringifyDuration: () => undefined,
    stringifyCurrency: formatNumber,
    context: { units: system, ...asked } satisfies Context,
  };
}
