import { BookState, DOCUMENT_VERSION, readFormula } from '@kerfbook/document';
import { functionReference } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import type { CellValue } from '../api.ts';
import type { ShowContext } from '../quantities/show.ts';
import { usualEngine } from '../usual-engine.ts';
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

const SHEET = 's1';

/** A workbook with nothing in it. */
const nothing = (units: UnitSystem): BookState =>
  BookState.of({
    kerfbook: DOCUMENT_VERSION,
    title: 'Nothing',
    units,
    sheets: [{ id: SHEET, name: 'Sheet', columns: [], rows: [] }],
    checks: [],
    tables: [],
  });

/** Works out formulas without a workbook, none of which can lean on another. */
export function workOut(formulas: readonly string[], system: UnitSystem): readonly Alone[] {
  const engine = usualEngine(nothing(system));
  try {
    return formulas.map((formula) => {
      const context = contextOf(formula, system);
      const result = engine.evaluate(formula, SHEET);
      return result.kind === 'array'
        ? { formula, context, rows: result.rows, array: true }
        : { formula, context, rows: [[result]], array: false };
    });
  } finally {
    engine.destroy();
  }
}

/** A formula that is one call of ours shows as that function's result does. */
function contextOf(formula: string, system: UnitSystem): ShowContext {
  const name = outermostFunction(readFormula(formula));
  const quantity = functionReference().find((one) => one.name === name)?.result.quantity;
  return { system, currency: 'USD', ...(quantity === undefined ? {} : { quantity }) };
}
