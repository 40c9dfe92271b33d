import {
  type BookState,
  type CellDocument,
  type Formula,
  formulaOf,
  type Scalar,
  withoutAddresses,
  writtenTokens,
} from '@kerfbook/document';
import { refusedEntry } from '../book/held.ts';
import { ownForEngine } from '../book/own-tables.ts';
import type { Content, FormulaContent } from '../engine/input.ts';

/** What the engine is told of a cell: its override, else its formula, else its value (rule E4). */
export function contentOf(
  cell: CellDocument | undefined,
  sheet: string,
  state: BookState,
): Content {
  if (cell === undefined) return null;
  if (cell.override === undefined) {
    const formula = formulaOf(cell);
    if (formula !== undefined) return formulaContent(formula, sheet, state);
  }
  const held = cell.override?.value ?? cell.value;
  if (held === undefined) return null;
  const refused = refusedEntry(cell, state.head);
  return refused === undefined ? contentOfValue(held) : { refused };
}

/** A formula as the engine is told of it. */
export function formulaContent(read: Formula, sheet: string, state: BookState): FormulaContent {
  const formula = writtenTokens(withoutAddresses(read), sheet, state);
  const own = ownForEngine(read, sheet, state);
  return own === undefined ? { formula } : { formula, own };
}

function contentOfValue(value: Scalar): Content {
  return typeof value === 'string' ? { text: value } : value;
}
