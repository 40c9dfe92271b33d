import type { HyperFormula, SimpleCellAddress, SimpleCellRange } from 'hyperformula';
import type { At } from '../edit/types.ts';

/** Cells of ranges listed one by one, at the most. */
const MOST = 2_000;

/**
 * What the engine found as places: ranges cell by cell up to a bound, names as the
 * cells they stand for (the engine reports a name as an address on no sheet).
 */
export function placesOf(
  engine: HyperFormula,
  found: readonly (SimpleCellAddress | SimpleCellRange)[],
  idOf: readonly string[],
): readonly At[] {
  const places: At[] = [];
  const seen = new Set<string>();
  const add = ({ sheet, row, col }: SimpleCellAddress): void => {
    const id = idOf[sheet];
    const key = `${sheet} ${row} ${col}`;
    if (id === undefined || seen.has(key)) return;
    seen.add(key);
    places.push({ sheet: id, row, column: col });
  };
  for (const one of found) {
    if (!('start' in one)) {
      if (one.sheet >= 0) add(one);
      else for (const at of ofName(engine, one)) add(at);
      continue;
    }
    for (let row = one.start.row; row <= one.end.row && places.length < MOST; row += 1) {
      for (let col = one.start.col; col <= one.end.col && places.length < MOST; col += 1) {
        add({ sheet: one.start.sheet, row, col });
      }
    }
  }
  return places;
}

function ofName(engine: HyperFormula, name: SimpleCellAddress): SimpleCellAddress[] {
  const found = engine.getCellPrecedents(name);
  return found.flatMap((one) => ('start' in one || one.sheet < 0 ? [] : [one]));
}
