import {
  atMost,
  type BookState,
  type Change,
  cellLetters,
  columnName,
  LIMITS,
  lettersAtMost,
  lettersNow,
  megabytes,
  PER_COLUMN,
  PER_ROW,
  type RefusedResult,
  type RowDocument,
  refuse,
} from '@kerfbook/document';

/** Letters of a workbook, at the most. Nothing is taken off until it could be too much. */
const bounds = new WeakMap<BookState, number>();

/**
 * Why a workbook could not be opened again after changes: a formula or a sentence became longer than it
 * may be kept, or the whole takes too much (rule L1). Counted exactly only near the limit.
 */
export function overLimit(
  before: BookState,
  after: BookState,
  changes: readonly Change[],
): RefusedResult | undefined {
  const long = tooLong(after, changes);
  if (long !== undefined) return long;
  const known = bounds.get(before);
  let bound = known === undefined ? lettersAtMost(after) : known + growth(changes);
  if (bound > LIMITS.book) bound = lettersNow(after);
  bounds.set(after, bound);
  return bound > LIMITS.book ? refuse('W21', megabytes(bound)) : undefined;
}

/** Counts what was put back: it was held against the limits when it came first. */
export function notePutBack(before: BookState, after: BookState, changes: readonly Change[]): void {
  const known = bounds.get(before);
  if (known !== undefined) bounds.set(after, known + growth(changes));
}

/** Letters that changes bring, at the most. */
export function growth(changes: readonly Change[]): number {
  return total(changes, (change) => {
    switch (change.change) {
      case 'cells':
        return total(change.cells, ({ cell }) =>
          cell === null ? 0 : cellLetters(LONGEST_ID, cell),
        );
      case 'insert':
        return growthOfItems(change);
      case 'remove':
      case 'order':
        return 0;
      case 'set':
        return ('ids' in change ? change.ids.length : 1) * (PER_ROW + atMost(change.set));
      case 'head':
        return atMost(change.set);
    }
  });
}

function growthOfItems(change: Change & { change: 'insert' }): number {
  switch (change.list) {
    case 'rows':
      return total(change.items, rowLetters);
    case 'columns':
      return PER_COLUMN * change.items.length;
    case 'sheets':
      return total(change.items, ({ rows, ...sheet }) => atMost(sheet) + total(rows, rowLetters));
    default:
      return atMost(change.items);
  }
}

const rowLetters = ({ cells = {} }: RowDocument): number =>
  PER_ROW + total(Object.values(cells), (cell) => cellLetters(LONGEST_ID, cell));

const LONGEST_ID = 'c'.repeat(12);

function total<T>(all: readonly T[], letters: (one: T) => number): number {
  let sum = 0;
  for (const one of all) sum += letters(one);
  return sum;
}

/** The first formula or sentence among what was changed that is too long to be kept. */
function tooLong(state: BookState, changes: readonly Change[]): RefusedResult | undefined {
  for (const change of changes) {
    const found =
      change.change === 'cells'
        ? longCell(state, change)
        : 'list' in change && change.list === 'checks'
          ? longCheck(state)
          : undefined;
    if (found !== undefined) return found;
  }
  return undefined;
}

function longCell(state: BookState, { sheet: id, cells }: Change & { change: 'cells' }) {
  const long = cells.find(({ cell }) => (cell?.formula?.length ?? 0) > LIMITS.kept);
  const sheet = state.sheet(id);
  if (long === undefined || sheet === undefined) return undefined;
  const column = columnName(sheet.columnIndex(long.column) ?? 0);
  const where = `${sheet.name}!${column}${(sheet.rowIndex(long.row) ?? 0) + 1}`;
  return refuse('W20', where, long.cell?.formula?.length ?? 0);
}

function longCheck({ checks }: BookState): RefusedResult | undefined {
  for (const { name, formula, cells = '', says } of checks) {
    const letters = Math.max(formula.length, cells.length);
    if (letters > LIMITS.kept) return refuse('W20', `the check "${name}"`, letters);
    if (says.length > LIMITS.text) return refuse('W22', name, says.length);
  }
  return undefined;
}
