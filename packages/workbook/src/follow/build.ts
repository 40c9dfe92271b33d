import { type BookState, CHECKS_SHEET } from '@kerfbook/document';
import { formulaAt } from '../book/formula-at.ts';
import { Calculator } from '../engine/calculator.ts';
import { checkContent, sheetContents } from './contents.ts';

export type { Calculator } from '../engine/calculator.ts';

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
