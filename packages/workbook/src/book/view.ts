import {
  type At,
  type BookState,
  type CellDocument,
  columnName,
  formulaOf,
  withFormula,
  written,
  writtenText,
} from '@kerfbook/document';
import type { CellValue, CellView, Shown } from '../api.ts';
import type { Meanings } from '../meaning/book.ts';
import type { Values } from '../port.ts';
import { entryText, type ShowContext, showValue, unitShown } from '../quantities/show.ts';
import { readContext } from './context.ts';
import { entryProblem } from './held.ts';
import type { Mark } from './marks.ts';
import { ownNames } from './own-tables.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
  readonly meanings?: Meanings;
}

const EMPTY: CellDocument = {};

/** One cell as apps see it; the parts that cost reading a formula are worked out when asked for. */
export function viewCell({ state, values, meanings }: Sources, at: At, mark?: Mark): CellView {
  const cell = state.cell(at) ?? EMPTY;
  const context = readContext({ state }, at.sheet, at);
  const value = values.value(at);
  const problem = entryProblem(cell, state.head, () =>
    ownNames({ state, values }, cell.allow?.from),
  );
  const { value: _value, typed: _typed, formula, override, other: _other, ...traits } = cell;
  const a1 = (): string => {
    const read = formulaOf(cell);
    return read === undefined ? '' : writtenText(read, at.sheet, state);
  };
  return {
    at,
    address: `${columnName(at.column)}${at.row + 1}`,
    value,
    shown: problem === undefined ? shownOf(value, context) : shownEntry(cell, value, context),
    unit: unitShown(context),
    get entry() {
      if (override !== undefined) return entryText(override, context);
      return formula === undefined ? entryText(cell, context) : a1();
    },
    // Not spread from another object: that would work them out for every cell that scrolls by.
    get formula() {
      return formula === undefined ? undefined : a1();
    },
    get clash() {
      const found = formula === undefined ? undefined : meanings?.clashOf(at);
      return found === undefined ? undefined : { code: found.code, says: found.says };
    },
    ...(override === undefined ? {} : { override: { typed: entryText(override, context) } }),
    ...(problem === undefined ? {} : { problem }),
    ...(mark === undefined ? {} : { mark }),
    ...traits,
  };
}

export function shownOf(value: CellValue, context: ShowContext): Shown {
  return showValue(value, context);
}

/** An entry that may not stay is shown as it was typed, though nothing is worked out from it. */
function shownEntry(cell: CellDocument, value: CellValue, context: ShowContext): Shown {
  const held = cell.override?.value ?? cell.value;
  if (typeof held === 'number') return showValue({ kind: 'number', number: held }, context);
  if (typeof held === 'boolean') return showValue({ kind: 'logical', logical: held }, context);
  return showValue(held === undefined ? value : { kind: 'text', text: held }, context);
}

/** A cell to be put elsewhere: all but its name, its formula with addresses. */
export function copiedCell(state: BookState, at: At): CellDocument | undefined {
  const cell = state.cell(at);
  if (cell === undefined) return undefined;
  const { name: _name, other: _other, ...kept } = cell;
  const formula = formulaOf(cell);
  if (formula === undefined) return kept;
  return withFormula(kept, written(formula, at.sheet, state));
}
