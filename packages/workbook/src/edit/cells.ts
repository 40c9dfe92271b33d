import {
  type CellDocument,
  type CellTraits,
  cellSchema,
  columnName,
  type Edit,
  keptNameProblem,
  LIMITS,
  misfit,
  type NameProblem,
  nameKey,
  numbered,
  type Place,
  type RefusedResult,
  refuse,
} from '@kerfbook/document';
import type { Desk, Refusal } from './desk.ts';

export interface Write extends Place {
  readonly cell: CellDocument | undefined;
}

/** Plans whole cells for places that are there. Everything was checked before. */
export function putCells(desk: Desk, sheet: string, writes: readonly Write[]): void {
  if (writes.length === 0) return;
  const cells = writes.map(({ row, column, cell = null }) => ({
    row: desk.state.rowId(sheet, row) ?? '',
    column: desk.state.columnId(sheet, column) ?? '',
    cell,
  }));
  desk.change({ change: 'cells', sheet, cells });
}

/** `setCells`: whole cells in saved form, from a log, a paste or an undo. */
export function setCells(desk: Desk, edit: Edit & { do: 'setCells' }): Refusal {
  const trouble = placesProblem(desk, edit.sheet, edit.cells) ?? cellsProblem(edit.cells);
  if (trouble !== undefined) return trouble;
  const names = namesProblem(desk, edit.sheet, edit.cells);
  if (names !== undefined) return names;
  const writes = edit.cells.map(({ row, column, cell }) => ({
    row,
    column,
    cell: cell ?? undefined,
  }));
  putCells(desk, edit.sheet, writes);
  return undefined;
}

/** `clear`: takes out what cells hold; an overridden cell gets its formula back (rule O3). */
export function clearCells(desk: Desk, edit: Edit & { do: 'clear' }): Refusal {
  const inside = edit.cells.filter((place) => desk.state.cell({ sheet: edit.sheet, ...place }));
  const trouble = placesProblem(desk, edit.sheet, inside);
  if (trouble !== undefined) return trouble;
  const writes = inside.map((place) => ({
    ...place,
    cell: emptied(desk.state.cell({ sheet: edit.sheet, ...place })),
  }));
  putCells(desk, edit.sheet, writes);
  return undefined;
}

/** The cell without what it holds; `undefined` when nothing else is said of it. */
export function emptied(cell: CellDocument | undefined): CellDocument | undefined {
  if (cell === undefined) return undefined;
  const { override, ...kept } = cell;
  if (override !== undefined) return kept;
  const { value: _value, typed: _typed, formula: _formula, other: _other, ...traits } = cell;
  return Object.keys(traits).length === 0 ? undefined : traits;
}

/** `restore`: the formula's own result shows again. */
export function restoreFormulas(desk: Desk, edit: Edit & { do: 'restore' }): Refusal {
  const trouble = placesProblem(desk, edit.sheet, edit.cells);
  if (trouble !== undefined) return trouble;
  const writes: Write[] = [];
  for (const { row, column } of edit.cells) {
    const cell = desk.state.cell({ sheet: edit.sheet, row, column });
    if (cell?.override === undefined) continue;
    const { override: _override, ...kept } = cell;
    writes.push({ row, column, cell: kept });
  }
  const [first] = edit.cells;
  if (writes.length === 0 && first !== undefined) {
    return refuse('W11', `${columnName(first.column)}${first.row + 1}`);
  }
  putCells(desk, edit.sheet, writes);
  return undefined;
}

/** `describeCells`: what is said of cells, not what they hold. */
export function describeCells(desk: Desk, edit: Edit & { do: 'describeCells' }): Refusal {
  const trouble = placesProblem(desk, edit.sheet, edit.cells);
  if (trouble !== undefined) return trouble;
  const writes = edit.cells.map(({ row, column, traits }) => ({
    row,
    column,
    cell: described(desk.state.cell({ sheet: edit.sheet, row, column }), traits),
  }));
  const wrong = cellsProblem(writes.map((write) => ({ ...write, cell: write.cell ?? null })));
  if (wrong === undefined) putCells(desk, edit.sheet, writes);
  return wrong;
}

function described(cell: CellDocument | undefined, traits: CellTraits): CellDocument | undefined {
  const next: Record<string, unknown> = { ...cell };
  for (const [key, value] of Object.entries(traits)) {
    if (value === null) delete next[key];
    else if (value !== undefined) next[key] = value;
  }
  return Object.keys(next).length === 0 ? undefined : (next as CellDocument);
}

/** Places must exist: growing a sheet is an edit of its own, made beside the one that needs it. */
export function placesProblem(
  desk: Desk,
  sheetId: string,
  places: readonly Place[],
): RefusedResult | undefined {
  const sheet = desk.state.sheet(sheetId);
  if (sheet === undefined) return refuse('W1', sheetId);
  for (const { row, column } of places) {
    const known = Number.isInteger(row) && Number.isInteger(column) && row >= 0 && column >= 0;
    if (!known || row >= sheet.rows.length || column >= sheet.columns.length) {
      return refuse('W9', placeText({ row, column }));
    }
  }
  return undefined;
}

export function limitProblem(place: Place): RefusedResult | undefined {
  const whole = Number.isInteger(place.row) && Number.isInteger(place.column);
  const inside =
    place.row >= 0 && place.column >= 0 && place.row < LIMITS.rows && place.column < LIMITS.columns;
  return whole && inside ? undefined : refuse('W2', placeText(place));
}

export function placeText({ row, column }: Place): string {
  return Number.isInteger(column) && column >= 0
    ? `${columnName(column)}${row + 1}`
    : `column ${column}, row ${row}`;
}

export function cellsProblem(
  cells: readonly (Place & { cell: CellDocument | null })[],
): RefusedResult | undefined {
  for (const { cell, ...place } of cells) {
    if (cell === null) continue;
    const checked = cellSchema.safeParse(cell);
    if (checked.success) continue;
    return misfit(placeText(place), checked.error);
  }
  return undefined;
}

/** Names that arrive must be names, and must not belong to a cell that keeps its own. */
export function namesProblem(
  desk: Desk,
  sheet: string,
  cells: readonly (Place & { cell: CellDocument | null })[],
): RefusedResult | undefined {
  const leaving = new Set<string>();
  for (const { row, column } of cells) {
    const name = desk.state.cell({ sheet, row, column })?.name;
    if (name !== undefined) leaving.add(nameKey(name));
  }
  const arriving = new Set<string>();
  for (const { cell } of cells) {
    const name = cell?.name;
    if (name === undefined) continue;
    const wrong = newNameProblem(desk, name, leaving, arriving);
    if (wrong !== undefined) return wrong;
    arriving.add(nameKey(name));
  }
  return undefined;
}

/**
 * Why a cell cannot bear the name. By the rule left out it may be any name that a workbook holds, since
 * cells come back with theirs; a name that a maker gives is held to the narrower {@link nameProblem}.
 */
export function newNameProblem(
  desk: Desk,
  name: string,
  leaving: ReadonlySet<string> = new Set(),
  arriving: ReadonlySet<string> = new Set(),
  rule: (name: string) => NameProblem | undefined = keptNameProblem,
): RefusedResult | undefined {
  const problem = rule(name);
  if (problem !== undefined) {
    const offer = freeOffer(desk, problem);
    return refuse(
      'W10',
      name,
      `${problem.says}${offer === undefined ? '' : ` ${offer} would do.`}`,
    );
  }
  const key = nameKey(name);
  if (arriving.has(key)) return refuse('W3', name, 'another cell of the same change');
  const home = desk.state.named(name);
  if (home === undefined || leaving.has(key)) return undefined;
  return refuse('W3', name, `${desk.state.sheetName(home.sheet)}!${placeText(home)}`);
}

/** An offer that belongs to no cell yet. */
function freeOffer(desk: Desk, { offer }: NameProblem): string | undefined {
  const taken = (name: string): boolean => desk.state.named(name) !== undefined;
  return offer === undefined || !taken(offer) ? offer : numbered(offer, taken);
}
