import {
  type CellDocument,
  type Edit,
  type Formula,
  LIMITS,
  refuse,
  typedOf,
  withFormula,
  withIds,
} from '@kerfbook/document';
import { cellsProblem, limitProblem, namesProblem, putCells } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';
import { Extents } from './enter.ts';

/**
 * `place`: whole cells, their formulas as they are typed, as a paste or a fill brings them. What is
 * carried out is the growth of the sheet and the cells (rule N1).
 */
export function placeCells(desk: Desk, edit: Edit & { do: 'place' }): Refusal {
  if (desk.state.sheet(edit.sheet) === undefined) return refuse('W1', edit.sheet);
  const need = new Extents(desk);
  const typed = new Map<CellDocument, Formula>();
  for (const { row, column, cell } of edit.cells) {
    const outside = limitProblem({ row, column });
    if (outside !== undefined) return outside;
    if ((cell?.formula?.length ?? 0) > LIMITS.text) return refuse('W13');
    need.reach(edit.sheet, row + 1, column + 1);
    if (cell?.formula === undefined) continue;
    const formula = typedOf(cell as CellDocument & { formula: string });
    typed.set(cell, formula);
    need.reachOf(formula, edit.sheet);
  }
  const trouble = cellsProblem(edit.cells) ?? namesProblem(desk, edit.sheet, edit.cells);
  if (trouble !== undefined) return trouble;
  const tooLarge = need.grow();
  if (tooLarge !== undefined) return tooLarge;
  const kept = (cell: CellDocument): CellDocument => {
    const formula = typed.get(cell);
    return formula === undefined
      ? cell
      : withFormula(cell, withIds(formula, edit.sheet, desk.state));
  };
  const writes = edit.cells.map(({ row, column, cell }) => ({
    row,
    column,
    cell: cell === null ? undefined : kept(cell),
  }));
  putCells(desk, edit.sheet, writes);
  return undefined;
}
