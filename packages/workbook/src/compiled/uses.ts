import {
  type At,
  type BookState,
  childrenOf,
  type Formula,
  type KeptReference,
  type Node,
  type SheetState,
} from '@kerfbook/document';
import { OWN_COLUMNS, ownAreasOf } from '../book/own-tables.ts';
import { POSITIONS } from './functions.ts';
import { namedBy } from './standing.ts';

/** Cells of ranges listed one by one, at the most. */
const MOST = 2_000;

/** The cells that a formula uses, in the order of its text, each once; ranges cell by cell up to a bound. */
export function usesOf(formula: Formula, home: string, state: BookState): readonly At[] {
  const places: At[] = [];
  const seen = new Set<string>();
  const add = (at: At): void => {
    const key = `${at.sheet} ${at.row} ${at.column}`;
    if (seen.has(key)) return;
    seen.add(key);
    places.push(at);
  };
  const area = (from: At, to: Omit<At, 'sheet'>): void => {
    let left = MOST - places.length;
    for (let row = from.row; row <= to.row && left > 0; row += 1) {
      for (let column = from.column; column <= to.column && left > 0; column += 1) {
        add({ sheet: from.sheet, row, column });
        left -= 1;
      }
    }
  };
  const reference = (kept: KeptReference): void => {
    const named = namedBy(kept, home, state);
    if (named === undefined) return;
    const { sheet, first, last } = named;
    const from = { sheet, row: first.row ?? 0, column: first.column ?? 0 };
    if (last === undefined) add(from);
    else {
      const isWhole = last.row === undefined || last.column === undefined;
      const used = isWhole ? usedUpTo(state.sheet(sheet)) : { row: -1, column: -1 };
      area(from, { row: last.row ?? used.row, column: last.column ?? used.column });
    }
  };
  const walk = (node: Node): void => {
    if (node.kind === 'reference') reference(node.to);
    else if (node.kind === 'name') {
      const at = state.named(node.name);
      if (at !== undefined) add(at);
    }
    // What is only asked for where it stands is not used.
    else if (node.kind !== 'call' || !POSITIONS.has(node.name)) {
      for (const part of childrenOf(node)) walk(part);
    }
  };
  if (formula.root !== undefined) walk(formula.root);
  if (state.tables.length === 0) return places;
  for (const { sheet, header, last } of ownAreasOf(formula, home, state)) {
    area({ sheet, row: header, column: 0 }, { row: last, column: OWN_COLUMNS - 1 });
  }
  return places;
}

/** The last row and column of a sheet that hold anything; whole columns and rows reach so far. */
function usedUpTo(sheet: SheetState | undefined): {
  readonly row: number;
  readonly column: number;
} {
  let [row, column] = [-1, -1];
  for (const [i, { cells }] of (sheet?.rows ?? []).entries()) {
    for (const [j, { id }] of (sheet?.columns ?? []).entries()) {
      const cell = cells.get(id);
      if (cell?.value === undefined && cell?.formula === undefined) continue;
      row = i;
      column = Math.max(column, j);
    }
  }
  return { row, column };
}
