import type { At } from '@kerfbook/document';
import type { HyperFormula, SimpleCellAddress, SimpleCellRange } from 'hyperformula';

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
    const { sheet, row: top, col: first } = one.start;
    if (idOf[sheet] === undefined) continue;
    const { row: bottom, col: last } = endOf(engine, one);
    let left = MOST - places.length;
    for (let row = top; row <= bottom && left > 0; row += 1) {
      for (let col = first; col <= last && left > 0; col += 1) {
        add({ sheet, row, col });
        left -= 1;
      }
    }
  }
  return places;
}

/** The last cell of a range; whole columns and rows end where what their sheet holds does. */
function endOf(engine: HyperFormula, { start, end }: SimpleCellRange): SimpleCellAddress {
  if (Number.isFinite(end.row) && Number.isFinite(end.col)) return end;
  const { width, height } = engine.getSheetDimensions(start.sheet);
  return { ...end, row: Math.min(end.row, height - 1), col: Math.min(end.col, width - 1) };
}

function ofName(engine: HyperFormula, name: SimpleCellAddress): SimpleCellAddress[] {
  const found = engine.getCellPrecedents(name);
  return found.flatMap((one) => ('start' in one || one.sheet < 0 ? [] : [one]));
}

/**
 * Cells that use a cell. A range that holds it, or a name of it (an address on no sheet), is no user:
 * those that use the range or the name are.
 */
export function usersIn(engine: HyperFormula, cell: SimpleCellAddress): SimpleCellAddress[] {
  const users: SimpleCellAddress[] = [];
  const passed = new Set<string>();
  let edge = engine.getCellDependents(cell);
  while (edge.length > 0) {
    edge = edge.flatMap((one) => {
      if (!('start' in one) && one.sheet >= 0) {
        users.push(one);
        return [];
      }
      const key = JSON.stringify(one);
      if (passed.has(key)) return [];
      passed.add(key);
      return engine.getCellDependents(one);
    });
  }
  return users;
}
