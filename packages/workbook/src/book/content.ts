import type { CellDocument, Scalar } from '../document/schema.ts';
import type { Content } from '../engine/calculator.ts';
import { type SheetIndex, toAddresses } from '../formula/references.ts';

/** What the engine is told of a cell: its override, else its formula, else its value (rule E4). */
export function contentOf(
  cell: CellDocument | undefined,
  sheet: string,
  index: SheetIndex,
): Content {
  if (cell === undefined) return null;
  if (cell.override !== undefined) return contentOfValue(cell.override.value);
  if (cell.formula !== undefined) return { formula: toAddresses(cell.formula, sheet, index) };
  return cell.value === undefined ? null : contentOfValue(cell.value);
}

export function contentOfValue(value: Scalar): Content {
  return typeof value === 'string' ? { text: value } : value;
}
