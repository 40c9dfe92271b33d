import { LIMITS } from '@kerfbook/document';

/** A place of a sheet, row and column counted from 0, as one number: places are asked for by it for every cell of a file. */
export const placeKey = (row: number, column: number): number => row * LIMITS.columns + column;

/** The row of {@link placeKey}. */
export const rowOf = (key: number): number => Math.floor(key / LIMITS.columns);

/** The column of {@link placeKey}. */
export const columnOf = (key: number): number => key % LIMITS.columns;

/** Cells row by row, each place once: of two cells that say they stand in one place the last. */
export function inOrder<T extends { readonly row: number; readonly column: number }>(
  cells: readonly T[],
): readonly T[] {
  const isIn = cells.every((cell, at) => {
    const before = cells[at - 1];
    return (
      before === undefined || placeKey(before.row, before.column) < placeKey(cell.row, cell.column)
    );
  });
  if (isIn) return cells;
  const last = new Map(cells.map((cell) => [placeKey(cell.row, cell.column), cell]));
  return [...last.values()].sort((a, b) => a.row - b.row || a.column - b.column);
}
