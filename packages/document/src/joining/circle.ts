import type { BookDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { readFormula } from '../formula/tree/read.ts';
import { cellsIn, type Home, homeKey, namedCells } from './named.ts';

/**
 * Cells that would be worked out from themselves, one after the other, of the first such circle that goes
 * through one of the cells asked for; nothing where there is none.
 */
export function circleThrough(
  book: BookDocument,
  asked: readonly Home[],
): ReadonlySet<string> | undefined {
  const reads = reading(book);
  for (const start of asked) {
    const way = wayBack(homeKey(start), reads);
    if (way !== undefined) return way;
  }
  return undefined;
}

/** The cells on a way from a cell over what it reads back to itself. */
function wayBack(
  start: string,
  reads: (key: string) => readonly string[],
): ReadonlySet<string> | undefined {
  const cameFrom = new Map<string, string>();
  const open = [start];
  for (let key = open.pop(); key !== undefined; key = open.pop()) {
    for (const next of reads(key)) {
      if (next === start) {
        const way = new Set([start]);
        for (let at: string | undefined = key; at !== undefined; at = cameFrom.get(at)) way.add(at);
        return way;
      }
      if (cameFrom.has(next)) continue;
      cameFrom.set(next, key);
      open.push(next);
    }
  }
  return undefined;
}

/** What each cell with a formula reads, by keys of places. */
function reading(book: BookDocument): (key: string) => readonly string[] {
  const named = namedCells(book);
  const formulas = new Map<string, { readonly sheet: string; readonly text: string }>();
  const grids = new Map(book.sheets.map((sheet) => [sheet.id, gridOf(sheet)]));
  for (const { cell, ...home } of cellsIn(book)) {
    if (cell.formula !== undefined) {
      formulas.set(homeKey(home), { sheet: home.sheet, text: cell.formula });
    }
  }
  const known = new Map<string, readonly string[]>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const formula = formulas.get(key);
    const reads = formula === undefined ? [] : [...readBy(formula, named, grids, formulas)];
    known.set(key, reads);
    return reads;
  };
}

interface Grid {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  readonly rowAt: ReadonlyMap<string, number>;
  readonly columnAt: ReadonlyMap<string, number>;
}

function gridOf({ rows, columns }: BookDocument['sheets'][number]): Grid {
  const at = (ids: readonly string[]) => new Map(ids.map((id, index) => [id, index]));
  const [rowIds, columnIds] = [rows.map(({ id }) => id), columns.map(({ id }) => id)];
  return { rows: rowIds, columns: columnIds, rowAt: at(rowIds), columnAt: at(columnIds) };
}

function* readBy(
  formula: { readonly sheet: string; readonly text: string },
  named: ReturnType<typeof namedCells>,
  grids: ReadonlyMap<string, Grid>,
  formulas: ReadonlyMap<string, unknown>,
): Generator<string> {
  for (const { type, value, reference } of readFormula(formula.text).tokens) {
    const home = type === 'range_named' ? named.get(nameKey(value)) : undefined;
    if (home !== undefined) yield homeKey(home);
    if (reference === undefined) continue;
    const sheet = reference.sheet ?? formula.sheet;
    const grid = grids.get(sheet);
    if (grid === undefined) continue;
    const { from, to = from } = reference;
    const [top, bottom] = span(grid.rowAt, from.row, to.row, grid.rows.length);
    const [left, right] = span(grid.columnAt, from.column, to.column, grid.columns.length);
    for (const row of grid.rows.slice(top, bottom + 1)) {
      for (const column of grid.columns.slice(left, right + 1)) {
        const key = homeKey({ sheet, row, column });
        if (formulas.has(key)) yield key;
      }
    }
  }
}

/** The first and the last of a run, counted from 0; an empty one where an end of it is not there. */
function span(
  at: ReadonlyMap<string, number>,
  from: string | undefined,
  to: string | undefined,
  length: number,
): readonly [number, number] {
  const one = from === undefined ? 0 : at.get(from);
  const two = to === undefined ? length - 1 : at.get(to);
  if (one === undefined || two === undefined) return [0, -1];
  return one <= two ? [one, two] : [two, one];
}
