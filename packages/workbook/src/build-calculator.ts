import { type BookState, CHECKS_SHEET, toAddresses } from '@kerfbook/document';
import { checkContent } from './edit/formulas.ts';
import { sheetContents } from './edit/sheets.ts';
import { Calculator } from './engine/calculator.ts';

/** The engine told everything of a workbook as it stands. */
export function buildCalculator(state: BookState): Calculator {
  const checks = state.checks.map((_, row) => [checkContent(state, row)]);
  return Calculator.build({
    system: state.head.units,
    sheets: [
      ...state.sheets.map((sheet) => ({
        id: sheet.id,
        name: sheet.name,
        cells: sheetContents(sheet, { state }),
      })),
      { id: CHECKS_SHEET, name: CHECKS_SHEET, cells: checks },
    ],
    names: state.names(),
    order: () => state.sheets,
    formulaText: (at) => {
      const check = at.sheet === CHECKS_SHEET ? state.checks[at.row] : undefined;
      if (check !== undefined) return toAddresses(check.formula, CHECKS_SHEET, state);
      const cell = state.cell(at);
      if (cell?.formula === undefined || cell.override !== undefined) return undefined;
      return toAddresses(cell.formula, at.sheet, state);
    },
  });
}
