import {
  type At,
  type BookState,
  childrenOf,
  type KeptCorner,
  type KeptReference,
  LIMITS,
  type Node,
  nameKey,
} from '@kerfbook/document';
import type { Corner, Named, Standing } from '@kerfbook/functions/computing';
import { formulaAt } from '../book/formula-at.ts';

/** What functions of where cells stand ask for a formula in a cell of a workbook. */
export function standingIn(state: BookState, own: At): Standing {
  const placeOf = (is: (sheet: BookState['sheets'][number]) => boolean): number | undefined => {
    const at = state.sheets.findIndex(is);
    return at < 0 ? undefined : at + 1;
  };
  return {
    own,
    most: { rows: LIMITS.rows, columns: LIMITS.columns },
    sheetCount: () => state.sheets.length,
    sheetPlace: (id) => placeOf((sheet) => sheet.id === id),
    sheetCalled: (name) => placeOf((sheet) => nameKey(sheet.name) === nameKey(name)),
    formulaText: (at) =>
      formulaAt(state, at)
        ?.map(({ value }) => value)
        .join(''),
  };
}

/** The cells that a reference names as they stand; nothing where one of its ends is gone. */
export function namedBy(
  { sheet, from, to }: KeptReference,
  home: string,
  state: BookState,
): Named | undefined {
  const on = sheet ?? home;
  const first = cornerAt(from, on, state);
  const last = to === undefined ? undefined : cornerAt(to, on, state);
  if (first === undefined || (to !== undefined && last === undefined)) return undefined;
  if (last === undefined) return { sheet: on, first };
  return { sheet: on, ...turned(first, last) };
}

function cornerAt(
  { row, column, rowFixed, columnFixed }: KeptCorner,
  sheet: string,
  state: BookState,
): Corner | undefined {
  const rowAt = row === undefined ? undefined : state.rowIndex(sheet, row);
  const columnAt = column === undefined ? undefined : state.columnIndex(sheet, column);
  if (
    (row !== undefined && rowAt === undefined) ||
    (column !== undefined && columnAt === undefined)
  )
    return undefined;
  return {
    rowFixed,
    columnFixed,
    ...(rowAt === undefined ? {} : { row: rowAt }),
    ...(columnAt === undefined ? {} : { column: columnAt }),
  };
}

/** The upper left and the lower right, whichever way they were written; a `$` goes along. */
function turned(a: Corner, b: Corner): { readonly first: Corner; readonly last: Corner } {
  const down = (a.row ?? 0) <= (b.row ?? 0);
  const across = (a.column ?? 0) <= (b.column ?? 0);
  const made = (row: Corner, column: Corner): Corner => ({
    rowFixed: row.rowFixed,
    columnFixed: column.columnFixed,
    ...(row.row === undefined ? {} : { row: row.row }),
    ...(column.column === undefined ? {} : { column: column.column }),
  });
  return {
    first: made(down ? a : b, across ? a : b),
    last: made(down ? b : a, across ? b : a),
  };
}

/** Whether a part of a formula needs values of cells. */
export function readsCells(node: Node): boolean {
  if (node.kind === 'reference' || node.kind === 'name') return true;
  return childrenOf(node).some(readsCells);
}

export function withoutBrackets(node: Node): Node {
  return node.kind === 'bracket' ? withoutBrackets(node.of) : node;
}

/** Whether a part of a formula calls a function. */
export const calls = (node: Node): boolean => node.kind === 'call' || childrenOf(node).some(calls);
