import {
  type At,
  type BookState,
  CHECKS_SHEET,
  formulaOf,
  type Token,
  writtenTokens,
} from '@kerfbook/document';
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
    formulaAt: (at) => formulaAt(now.state, at),
  });
}

/** The formula of a cell, or of a check, as its maker reads it. */
export function formulaAt(state: BookState, at: At): readonly Token[] | undefined {
  const check = at.sheet === CHECKS_SHEET ? state.checks[at.row] : undefined;
  if (check !== undefined) return writtenTokens(formulaOf(check), CHECKS_SHEET, state);
  const cell = state.cell(at);
  const formula = cell?.override === undefined ? cell && formulaOf(cell) : undefined;
  return formula && writtenTokens(formula, at.sheet, state);
}
