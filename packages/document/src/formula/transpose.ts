import { rewritten, shiftedCorner } from './shift.ts';

/**
 * A typed formula as it reads when its cell is copied to another with rows turned into columns: what
 * stood above it stands at its left. References with a `$` stay.
 */
export function transposed(a1: string, from: Spot, to: Spot): string {
  return rewritten(a1, (corner) => {
    const { row, column, rowFixed, columnFixed } = corner;
    if (row === undefined || column === undefined || rowFixed || columnFixed) {
      return shiftedCorner(corner, 0, 0);
    }
    const [down, across] = [row - from.row, column - from.column];
    return shiftedCorner(corner, to.row + across - row, to.column + down - column);
  });
}

interface Spot {
  readonly row: number;
  readonly column: number;
}
