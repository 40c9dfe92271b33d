import {
  type At,
  type BookState,
  type CellDocument,
  columnName,
  formulaOf,
  type Scalar,
  writtenText,
} from '@kerfbook/document';
import type { Quantity } from '@kerfbook/wood';
import type { CellValue, CellView, Problem, Shown } from '../api.ts';
import type { Meanings } from '../meaning/book.ts';
import type { Values } from '../port.ts';
import { readEntry } from '../quantities/read.ts';
import { allowProblem, entryText, showValue, unitShown } from '../quantities/show.ts';
import { readContext } from './context.ts';
import type { Mark } from './marks.ts';
import { ownNames } from './own-tables.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
  readonly meanings?: Meanings;
}

const EMPTY: CellDocument = {};

/** Quantities whose cells hold something other than a number. */
const WORDS: ReadonlySet<Quantity> = new Set<Quantity>(['text', 'logical']);

/** One cell as apps see it; the parts that cost reading a formula are worked out when asked for. */
export function viewCell({ state, values, meanings }: Sources, at: At, mark?: Mark): CellView {
  const cell = state.cell(at) ?? EMPTY;
  const context = readContext({ state }, at.sheet, at);
  const value = values.value(at);
  const problem = cellProblem(cell, context, () => ownNames({ state, values }, cell.allow?.from));
  const { value: _value, typed: _typed, formula, override, ...traits } = cell;
  const a1 = (): string => {
    const read = formulaOf(cell);
    return read === undefined ? '' : writtenText(read, at.sheet, state);
  };
  return {
    at,
    address: `${columnName(at.column)}${at.row + 1}`,
    value,
    shown: shownOf(value, context),
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

type Context = ReturnType<typeof readContext>;

export function shownOf(value: CellValue, context: Context): Shown {
  return showValue(value, context);
}

/** What the cell holds by hand, if anything: its override, or its value where it has no formula. */
function heldScalar(cell: CellDocument): Scalar | undefined {
  if (cell.override !== undefined) return cell.override.value;
  return cell.formula === undefined ? cell.value : undefined;
}

/** Words that were not asked for as words: in a cell for numbers, or written like a number. */
function mayBeUnread(cell: CellDocument, held: string): boolean {
  const typed = (cell.override ?? cell).typed;
  if (typed?.startsWith("'")) return false;
  if (cell.quantity === undefined) return /^\s*[\d$€£¥.+-]/.test(held);
  return !WORDS.has(cell.quantity);
}

/** Why an entry cannot stay as it is: it cannot be read, or the cell does not allow it (rule N4). */
function cellProblem(
  cell: CellDocument,
  context: Context,
  namesToo: () => readonly string[],
): Problem | undefined {
  const held = heldScalar(cell);
  if (held === undefined) return undefined;
  if (typeof held === 'string' && mayBeUnread(cell, held)) {
    const reading = readEntry(held, context);
    if (reading.kind === 'unread') return { code: reading.code, says: reading.says };
  }
  if (cell.allow === undefined) return undefined;
  const { allow } = cell;
  const more = allow.list === undefined || allow.from === undefined ? [] : namesToo();
  const says = allowProblem(
    held,
    more.length === 0 ? allow : { ...allow, list: [...(allow.list ?? []), ...more] },
    context,
  );
  return says === undefined ? undefined : { code: 'Q0', says };
}
