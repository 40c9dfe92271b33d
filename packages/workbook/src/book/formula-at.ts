import {
  type At,
  type BookState,
  CHECKS_SHEET,
  formulaOf,
  type Token,
  writtenTokens,
} from '@kerfbook/document';

/** The formula of a cell, or of a check, as its maker reads it; nothing where a value lies over it. */
export function formulaAt(state: BookState, at: At): readonly Token[] | undefined {
  const check = at.sheet === CHECKS_SHEET ? state.checks[at.row] : undefined;
  if (check !== undefined) return writtenTokens(formulaOf(check), CHECKS_SHEET, state);
  const cell = state.cell(at);
  const formula = cell?.override === undefined ? cell && formulaOf(cell) : undefined;
  return formula && writtenTokens(formula, at.sheet, state);
}
