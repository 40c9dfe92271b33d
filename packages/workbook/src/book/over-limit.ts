import {
  atMost,
  type BookState,
  cellLetters,
  columnName,
  type Edit,
  LIMITS,
  lettersAtMost,
  lettersNow,
  megabytes,
  PER_COLUMN,
  PER_ROW,
  type RefusedResult,
  refuse,
} from '@kerfbook/document';
import type { Done } from '../edit/desk.ts';

/** Letters of an open workbook, at the most. Nothing is taken off until it could be too much. */
const bounds = new WeakMap<BookState, number>();

/**
 * Why a workbook could not be opened again after what was done: a formula or a sentence became longer
 * than it may be kept, or the whole takes too much (rule L1). Counted exactly only near the limit.
 */
export function overLimit(state: BookState, { edit, inverse }: Done): RefusedResult | undefined {
  const grown = growth(edit);
  // What changes formulas without naming them is looked at whole.
  const long = grown === undefined || changesChecks(inverse) ? tooLong(state) : undefined;
  if (long !== undefined) return long;
  const before = bounds.get(state);
  let bound = before === undefined || grown === undefined ? lettersAtMost(state) : before + grown;
  if (bound > LIMITS.book) bound = lettersNow(state);
  bounds.set(state, bound);
  return bound > LIMITS.book ? refuse('W21', megabytes(bound)) : undefined;
}

/** Counts what was put back: it was held against the limits when it came first. */
export function notePutBack(state: BookState, edit: Edit): void {
  const [before, grown] = [bounds.get(state), growth(edit)];
  if (before === undefined || grown === undefined) bounds.delete(state);
  else bounds.set(state, before + grown);
}

/** What was counted no longer holds: something was taken back. */
export const forgetCount = (state: BookState): boolean => bounds.delete(state);

/** Letters that an edit as it was carried out brings, at the most; undefined where it does not tell. */
function growth(edit: Edit): number | undefined {
  switch (edit.do) {
    case 'setCells':
      return edit.cells.some(({ cell }) => (cell?.formula?.length ?? 0) > LIMITS.kept)
        ? undefined
        : total(edit.cells, ({ cell }) => (cell === null ? 0 : cellLetters(LONGEST_ID, cell)));
    case 'insertRows':
      return total(
        edit.rows,
        ({ cells = {} }) =>
          PER_ROW + total(Object.values(cells), (cell) => cellLetters(LONGEST_ID, cell)),
      );
    case 'insertColumns':
      return edit.cells === undefined ? PER_COLUMN * edit.columns.length : undefined;
    case 'setBook':
    case 'setChecks':
    case 'setTables':
      return atMost(edit);
    case 'setColumn':
    case 'freeze':
      return PER_COLUMN;
    case 'hideColumns':
      return PER_COLUMN * edit.columns.length;
    case 'hideRows':
      return PER_ROW * edit.rows.length;
    case 'groupRows':
      return PER_ROW * edit.rows.length;
    case 'moveSheet':
      return 0;
    case 'several': {
      let letters = 0;
      for (const one of edit.edits) {
        const part = growth(one);
        if (part === undefined) return undefined;
        letters += part;
      }
      return letters;
    }
    default:
      return undefined;
  }
}

const LONGEST_ID = 'c'.repeat(12);

function total<T>(all: readonly T[], letters: (one: T) => number): number {
  let sum = 0;
  for (const one of all) sum += letters(one);
  return sum;
}

function changesChecks(inverse: Edit): boolean {
  return inverse.do === 'several' ? inverse.edits.some(changesChecks) : inverse.do === 'setChecks';
}

function tooLong(state: BookState): RefusedResult | undefined {
  for (const sheet of state.sheets) {
    for (const [row, { cells }] of sheet.rows.entries()) {
      for (const [id, { formula = '' }] of cells) {
        if (formula.length <= LIMITS.kept) continue;
        const address = `${columnName(sheet.columnIndex(id) ?? 0)}${row + 1}`;
        return refuse('W20', `${sheet.name}!${address}`, formula.length);
      }
    }
  }
  for (const { name, formula, cells = '', says } of state.checks) {
    const letters = Math.max(formula.length, cells.length);
    if (letters > LIMITS.kept) return refuse('W20', `the check "${name}"`, letters);
    if (says.length > LIMITS.text) return refuse('W22', name, says.length);
  }
  return undefined;
}
