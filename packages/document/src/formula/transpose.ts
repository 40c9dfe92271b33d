import type { CellDocument } from '../format/schema.ts';
import { rewritten, shiftedCorner } from './shift.ts';
import { formulaOf, withFormula } from './tree/read.ts';

/**
 * A copied cell with its formula as it reads when it is copied to another with rows turned into columns:
 * what stood above it stands at its left. References with a `$` stay.
 */
export function transposedCell(copied: CellDocument, from: Spot, to: Spot): CellDocument {
  const formula = formulaOf(copied);
  if (formula === undefined) return copied;
  const transposed = rewritten(formula, (corner) => {
    const { row, column, rowFixed, columnFixed } = corner;
    if (row === undefined || column === undefined || rowFixed || columnFixed) {
      return shiftedCorner(corner, 0, 0);
    }
    const [down, across] = [row - from.row, column - from.column];
    return shiftedCorner(corner, to.row + across - row, to.column + down - column);
  });
  return withFormula(copied, transposed);
}

interface Spot {
  readonly row: number;
  readonly column: number;
}
