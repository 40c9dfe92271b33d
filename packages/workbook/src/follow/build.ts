import { type At, type BookState, CHECKS_SHEET, toAddresses } from '@kerfbook/document';
import { Calculator } from '../engine/calculator.ts';
import { checkContent, sheetContents } from './contents.ts';

/** The engine told everything of a workbook as it stands; `now` holds it as it is at any time later. */
export function buildCalculator(now: { readonly state: BookState }): Calculator {
  const { state } = now;
  const checks = state.checks.map((_, row) => [checkContent(state, row)]);
  return Calculator.build({
    system: state.head.units,
    sheets: [
      ...state.sheets.map((sheet) => ({
        id: sheet.id,
        name: sheet.name,
        cells: sheetContents(sheet, state),
      })),
      { id: CHECKS_SHEET, name: CHECKS_SHEET, cells: checks },
    ],
    names: state.names(),
    order: () => now.state.sheets,
    formulaText: (at) => formulaText(now.state, at),
  });
}

/** The formula of a cell, or of a check, as its maker reads it. */
function formulaText(state: BookState, at: At): string | undefined {
  const check = at.sheet === CHECKS_SHEET ? state.checks[at.row] : undefined;
  if (check !== undefined) return toAddresses(check.formula, CHECKS_SHEET, state);
  const cell = state.cell(at);
  if (cell?.formula === undefined || cell.override !== undefined) return undefined;
  return toAddresses(cell.formula, at.sheet, state);
}
