import { type At, type BookState, type Edit, type RefusedResult, refuse } from '@kerfbook/document';
import { placeText } from './cells.ts';

/** Changes of how a sheet is looked at: they never change what is in it. */
const LOOKING = new Set<Edit['do']>([
  'setColumn',
  'freeze',
  'hideColumns',
  'hideRows',
  'hideSheet',
  'groupRows',
]);

/** Why a cell stays as it is: the workbook is locked, and it is no input (rule O4). */
export function cellLock(state: BookState, at: At): RefusedResult | undefined {
  if (state.head.locked !== true || state.cell(at)?.role === 'input') return undefined;
  return refuse('W15', placeText(at));
}

/** Why anything but inputs stays as it is; undefined where the workbook is not locked. */
export const bookLock = (state: BookState): RefusedResult | undefined =>
  state.head.locked === true ? refuse('W15', 'What is not an input') : undefined;

/** Why a change by hand is refused while a workbook is locked. */
export function editLock(state: BookState, edit: Edit): RefusedResult | undefined {
  if (state.head.locked !== true || LOOKING.has(edit.do) || edit.do === 'setBook') {
    return undefined;
  }
  switch (edit.do) {
    case 'batch':
      return firstOf(edit.edits, (one) => editLock(state, one));
    case 'enter':
    case 'clear':
    case 'restore':
      return firstOf(edit.cells, (place) => cellLock(state, { sheet: edit.sheet, ...place }));
    default:
      return bookLock(state);
  }
}

function firstOf<T>(
  all: readonly T[],
  problem: (one: T) => RefusedResult | undefined,
): RefusedResult | undefined {
  for (const one of all) {
    const found = problem(one);
    if (found !== undefined) return found;
  }
  return undefined;
}
