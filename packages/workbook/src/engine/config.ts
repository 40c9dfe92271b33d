import { LIMITS, setFunctionNames } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import { type ConfigParams, HyperFormula } from 'hyperformula';
import { checkEngine } from '#check';
import { registerBudget } from './budget.ts';
import { functionReference } from './described.ts';
import { type FormulaTexts, registerFormulaText } from './formula-text.ts';
import { registerOurs } from './functions.ts';
import { registerOne } from './one.ts';
import { registerOwn } from './own.ts';
import { registerRefused } from './refused.ts';
import { registerSheetOrder, type SheetOrder } from './sheet-order.ts';
import { registerStandard } from './standard.ts';
import { formatNumber, registerText } from './text-format.ts';

checkEngine();
// The engine keeps one list of functions for the whole process; it is filled once, here.
registerOurs(HyperFormula);
registerStandard(HyperFormula);
registerText(HyperFormula);
registerRefused(HyperFormula);
registerOwn(HyperFormula);
registerOne(HyperFormula);
registerFormulaText(HyperFormula);
registerSheetOrder(HyperFormula);
registerBudget(HyperFormula);
const INNER = /^KERFBOOK_/;
const ours = new Set(functionReference().map(({ name }) => name));
const standard = HyperFormula.getRegisteredFunctionNames('enGB').filter((name) => !ours.has(name));
// A result is best named after the function that gives it (`panel_boards`); the bracket tells them
// apart. The standard functions' names stay reserved: every spreadsheet person knows SUM.
setFunctionNames(new Set(standard));

/** Every function a formula may call, standard ones and ours. */
export function functionNames(): readonly string[] {
  return HyperFormula.getRegisteredFunctionNames('enGB').filter((name) => !INNER.test(name));
}

/** The engine's settings; each one that is not the engine's own default has its reason. */
export function engineConfig(
  system: UnitSystem,
  asked: FormulaTexts & SheetOrder,
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
    context: { units: system, ...asked },
  };
}
