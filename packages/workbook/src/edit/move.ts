import {
  type At,
  type CellDocument,
  type Edit,
  type Formula,
  formulaCells,
  formulaOf,
  type KeptCorner,
  type KeptReference,
  listChanges,
  type Place,
  refuse,
  rereferred,
  turnedCheck,
  withFormula,
} from '@kerfbook/document';
import { limitProblem, putCells, type Write } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';
import { Extents } from './enter.ts';

/**
 * `moveCells`: cells go elsewhere with everything said of them, and whoever used them uses them
 * there (G41). Cells in the way are replaced. What is carried out are whole cells and checks.
 */
export function moveCells(desk: Desk, edit: Edit & { do: 'moveCells' }): Refusal {
  const isSheet = (id: string): boolean => desk.state.sheet(id) !== undefined;
  if (!isSheet(edit.sheet) || !isSheet(edit.to.sheet)) return refuse('W1', edit.sheet);
  const { row: top, column: left, rows, columns } = edit.from;
  const last = { row: edit.to.row + rows - 1, column: edit.to.column + columns - 1 };
  const outside =
    limitProblem(edit.to) ?? limitProblem(last) ?? limitProblem({ row: top, column: left });
  if (outside !== undefined) return outside;
  const need = new Extents(desk);
  need.reach(edit.to.sheet, last.row + 1, last.column + 1);
  // Empty cells beyond the edge move as well: they leave nothing behind.
  need.reach(edit.sheet, top + rows, left + columns);
  const tooLarge = need.grow();
  if (tooLarge !== undefined) return tooLarge;
  const way = new Way(desk, edit);
  const taken = takenCells(desk, edit);
  const bySheet = new Map<string, Map<string, Write>>();
  const write = (at: At, cell: CellDocument | undefined): void => {
    const writes = bySheet.get(at.sheet) ?? new Map<string, Write>();
    writes.set(`${at.row} ${at.column}`, { row: at.row, column: at.column, cell });
    bySheet.set(at.sheet, writes);
  };
  // Users first, the emptied places and the arrivals over them.
  for (const { at, cell } of formulaCells(desk.state)) {
    const before = formulaOf(cell);
    const formula = way.follow(before, at.sheet);
    if (formula !== before) write(at, withFormula(cell, formula));
  }
  for (const { place } of taken) write({ sheet: edit.sheet, ...place }, undefined);
  for (const { place, cell } of taken) {
    const formula = cell && formulaOf(cell);
    const arrived = formula === undefined ? cell : withFormula(cell ?? {}, way.carry(formula));
    write(
      {
        sheet: edit.to.sheet,
        row: place.row - top + edit.to.row,
        column: place.column - left + edit.to.column,
      },
      arrived,
    );
  }
  // The cells left behind first, so that a name is free where it arrives.
  const order = [edit.sheet, ...[...bySheet.keys()].filter((sheet) => sheet !== edit.sheet)];
  for (const sheet of order) {
    const writes = bySheet.get(sheet);
    if (writes !== undefined) putCells(desk, sheet, [...writes.values()]);
  }
  followChecks(desk, way);
  return undefined;
}

function takenCells(
  { state }: Desk,
  { sheet, from }: Edit & { do: 'moveCells' },
): { place: Place; cell: CellDocument | undefined }[] {
  const taken = [];
  for (let row = from.row; row < from.row + from.rows; row += 1) {
    for (let column = from.column; column < from.column + from.columns; column += 1) {
      taken.push({ place: { row, column }, cell: state.cell({ sheet, row, column }) });
    }
  }
  return taken;
}

function followChecks(desk: Desk, way: Way): void {
  const before = desk.state.checks;
  const after = before.map((check) =>
    turnedCheck(check, (formula, home) => way.follow(formula, home)),
  );
  desk.change(...listChanges({ list: 'checks' }, before, after));
}

/** Where references into the moved cells lead afterwards. */
class Way {
  readonly #desk: Desk;
  readonly #edit: Edit & { do: 'moveCells' };

  constructor(desk: Desk, edit: Edit & { do: 'moveCells' }) {
    this.#desk = desk;
    this.#edit = edit;
  }

  /** A formula that stays where it is. */
  follow(formula: Formula, home: string): Formula {
    return rereferred(formula, (reference) => {
      const moved = this.#moved(reference, home);
      return moved && this.#named(moved, home);
    });
  }

  /** A formula that moves along. */
  carry(formula: Formula): Formula {
    const { sheet, to } = this.#edit;
    return rereferred(formula, (reference) => {
      const moved = this.#moved(reference, sheet);
      if (moved !== undefined) return this.#named(moved, to.sheet);
      return to.sheet === sheet ? undefined : { ...reference, sheet: reference.sheet ?? sheet };
    });
  }

  /** A reference on the sheet its cells are on now; without it where the formula is at home. */
  #named({ sheet: written, ...rest }: KeptReference, home: string): KeptReference {
    const sheet = this.#edit.to.sheet;
    return sheet === home && written === undefined ? rest : { ...rest, sheet };
  }

  /** The reference after the move; undefined where it does not lie wholly in what is moved. */
  #moved(reference: KeptReference, home: string): KeptReference | undefined {
    if ((reference.sheet ?? home) !== this.#edit.sheet) return undefined;
    const from = this.#corner(reference.from);
    const to = reference.to === undefined ? undefined : this.#corner(reference.to);
    if (from === undefined || (reference.to !== undefined && to === undefined)) return undefined;
    return { ...reference, from, ...(to === undefined ? {} : { to }) };
  }

  #corner(corner: KeptCorner): KeptCorner | undefined {
    const { state } = this.#desk;
    const { sheet, from, to } = this.#edit;
    if (corner.row === undefined || corner.column === undefined) return undefined;
    const row = state.rowIndex(sheet, corner.row);
    const column = state.columnIndex(sheet, corner.column);
    if (row === undefined || column === undefined) return undefined;
    if (row < from.row || row >= from.row + from.rows) return undefined;
    if (column < from.column || column >= from.column + from.columns) return undefined;
    const newRow = state.rowId(to.sheet, row - from.row + to.row);
    const newColumn = state.columnId(to.sheet, column - from.column + to.column);
    if (newRow === undefined || newColumn === undefined) return undefined;
    return { ...corner, row: newRow, column: newColumn };
  }
}
