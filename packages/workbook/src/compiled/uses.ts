import {
  type At,
  type BookState,
  cellOf,
  childrenOf,
  type Formula,
  type KeptReference,
  type Node,
} from '@kerfbook/document';
import { OWN_COLUMNS, ownAreasOf } from '../book/own-tables.ts';
import { POSITIONS } from './functions.ts';

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
  const reference = ({ sheet = home, from, to }: KeptReference): void => {
    const first = cellOf(from, sheet, state);
    const last = to === undefined ? first : cellOf(to, sheet, state);
    if (first === undefined || last === undefined) return;
    if (to === undefined) add(first);
    else area(first, last);
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
