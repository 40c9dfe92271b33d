import {
  type BookState,
  type CellDocument,
  type Scalar,
  toAddresses,
  withoutLoose,
} from '@kerfbook/document';
import { ownForEngine } from '../book/own-tables.ts';
import type { Content } from '../engine/input.ts';

/** What the engine is told of a cell: its override, else its formula, else its value (rule E4). */
export function contentOf(
  cell: CellDocument | undefined,
  sheet: string,
  state: BookState,
): Content {
  if (cell === undefined) return null;
  if (cell.override !== undefined) return contentOfValue(cell.override.value);
  if (cell.formula !== undefined) return formulaContent(cell.formula, sheet, state);
  return cell.value === undefined ? null : contentOfValue(cell.value);
}

function formulaContent(kept: string, sheet: string, state: BookState): Content {
  const formula = toAddresses(withoutLoose(kept), sheet, state);
  const own = ownForEngine(formula, sheet, state);
  return own === undefined ? { formula } : { formula, own };
}

function contentOfValue(value: Scalar): Content {
  return typeof value === 'string' ? { text: value } : value;
}
