import type { CellDocument, Scalar } from '@kerfbook/document';

/** The text of the formula that a cell comes to: none where a value lies over it. */
export const computedIn = (cell: CellDocument | undefined): string | undefined =>
  cell?.override === undefined ? cell?.formula : undefined;

/** What a cell holds that has no formula, or a value over it. */
export function heldIn(cell: CellDocument | undefined): Scalar | null {
  return cell?.override?.value ?? cell?.value ?? null;
}
