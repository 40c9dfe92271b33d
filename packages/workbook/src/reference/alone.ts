import { functionReference } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import type { CellValue } from '../api.ts';
import { Calculator } from '../engine/calculator.ts';
import type { ShowContext } from '../quantities/show.ts';
import { outermostFunction } from './outermost.ts';

/** A formula without a workbook and what it came to: one value, or rows of them. */
export interface Alone {
  /** As it was asked for. */
  readonly formula: string;
  /** How the values are shown: as the result of the one function the formula calls. */
  readonly context: ShowContext;
  /** Rows of columns; one of each where it is one value. */
  readonly rows: readonly (readonly CellValue[])[];
  /** It came to several values, or may. */
  readonly array: boolean;
}

const SHEET = { id: 's1', name: 'Sheet', cells: [] };

/** Works out formulas without a workbook, none of which can lean on another. */
export function workOut(formulas: readonly string[], system: UnitSystem): readonly Alone[] {
  const calculator = Calculator.build({ system, sheets: [SHEET], names: [] });
  try {
    return formulas.map((formula) => {
      const context = contextOf(formula, system);
      const result = calculator.evaluate(formula, SHEET.id);
      return result.kind === 'array'
        ? { formula, context, rows: result.rows, array: true }
        : { formula, context, rows: [[result]], array: false };
    });
  } finally {
    calculator.destroy();
  }
}

/** A formula that is one call of ours shows as that function's result does. */
function contextOf(formula: string, system: UnitSystem): ShowContext {
  const name = outermostFunction(formula);
  const quantity = functionReference().find((one) => one.name === name)?.result.quantity;
  return { system, currency: 'USD', ...(quantity === undefined ? {} : { quantity }) };
}
