import {
  type At,
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
import { contentOf } from '../book/content.ts';
import type { Content } from '../engine/calculator.ts';
import type { Desk, Done, Outcome } from './desk.ts';

export interface Write extends Place {
  readonly cell: CellDocument | undefined;
}

/** Puts whole cells in place and tells the engine. Everything was checked before. */
export function putCells(desk: Desk, sheetId: string, writes: readonly Write[]): Done {
  const { state, calculator, changes } = desk;
  const sheet = state.sheet(sheetId);
  if (sheet === undefined) throw new RangeError('the sheet was checked before');
  const before: (Place & { cell: CellDocument | null })[] = [];
  const contents: (At & { content: Content })[] = [];
  const touched: At[] = [];
  const names: { at: At; old: string | undefined; name: string | undefined }[] = [];
  const last = lastOfEach(writes);
  for (const { row, column, cell } of last) {
    const old = sheet.cell(row, column);
    const at = { sheet: sheetId, row, column };
    before.push({ row, column, cell: old ?? null });
    sheet.setCell(row, column, cell);
    touched.push(at);
    if (old?.name !== cell?.name) names.push({ at, old: old?.name, name: cell?.name });
    const content = contentOf(cell, sheetId, state);
    if (!sameContent(content, contentOf(old, sheetId, state))) contents.push({ ...at, content });
  }
  moveNames(desk, names);
  if (contents.length > 0) changes.add(calculator.setCells(contents));
  changes.add(touched);
  return {
    ok: true,
    edit: {
      do: 'setCells',
      sheet: sheetId,
      cells: last.map(({ row, column, cell }) => ({ row, column, cell: cell ?? null })),
    },
    inverse: { do: 'setCells', sheet: sheetId, cells: before },
  };
}

/** One write a place, the last one: an edit may name a cell twice. */
function lastOfEach(writes: readonly Write[]): readonly Write[] {
  if (writes.length < 2) return writes;
  const byPlace = new Map(writes.map((write) => [`${write.row} ${write.column}`, write]));
  return byPlace.size === writes.length ? writes : [...byPlace.values()];
}

function moveNames(
  desk: Desk,
  names: readonly { at: At; old: string | undefined; name: string | undefined }[],
): void {
  if (names.length === 0) return;
  desk.changes.structure = true;
  const arriving = new Set(names.map(({ name }) => name && nameKey(name)));
  for (const { old } of names) {
    if (old === undefined) continue;
    desk.state.dropName(old);
    if (!arriving.has(nameKey(old))) desk.changes.add(desk.calculator.setName(old, null));
  }
  for (const { at, name } of names) {
    if (name === undefined) continue;
    desk.state.noteName(at, name);
    desk.changes.add(desk.calculator.setName(name, at));
  }
}

function sameContent(a: Content, b: Content): boolean {
  if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object') return a === b;
  if ('text' in a) return 'text' in b && a.text === b.text;
  return 'formula' in b && a.formula === b.formula;
}

/** `setCells`: whole cells in saved form, from a log, a paste or an undo. */
export function setCells(desk: Desk, edit: Edit & { do: 'setCells' }): Outcome {
  const trouble = placesProblem(desk, edit.sheet, edit.cells) ?? cellsProblem(edit.cells);
  if (trouble !== undefined) return trouble;
  const names = namesProblem(desk, edit.sheet, edit.cells);
  if (names !== undefined) return names;
  return putCells(
    desk,
    edit.sheet,
    edit.cells.map(({ row, column, cell }) => ({ row, column, cell: cell ?? undefined })),
  );
}

/** `clear`: takes out what cells hold; an overridden cell gets its formula back (rule O3). */
export function clearCells(desk: Desk, edit: Edit & { do: 'clear' }): Outcome {
  const inside = edit.cells.filter((place) => desk.state.cell({ sheet: edit.sheet, ...place }));
  const trouble = placesProblem(desk, edit.sheet, inside);
  if (trouble !== undefined) return trouble;
  const writes = inside.map((place) => ({
    ...place,
    cell: emptied(desk.state.cell({ sheet: edit.sheet, ...place })),
  }));
  return putCells(desk, edit.sheet, writes);
}

/** The cell without what it holds; `undefined` when nothing else is said of it. */
export function emptied(cell: CellDocument | undefined): CellDocument | undefined {
  if (cell === undefined) return undefined;
  const { override, ...kept } = cell;
  if (override !== undefined) return kept;
  const { value: _value, typed: _typed, formula: _formula, ...traits } = cell;
  return Object.keys(traits).length === 0 ? undefined : traits;
}

/** `lift`: the formula's own result shows again. */
export function liftCells(desk: Desk, edit: Edit & { do: 'lift' }): Outcome {
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
  return putCells(desk, edit.sheet, writes);
}

/** `describeCells`: what is said of cells, not what they hold. */
export function describeCells(desk: Desk, edit: Edit & { do: 'describeCells' }): Outcome {
  const trouble = placesProblem(desk, edit.sheet, edit.cells);
  if (trouble !== undefined) return trouble;
  const writes = edit.cells.map(({ row, column, traits }) => ({
    row,
    column,
    cell: described(desk.state.cell({ sheet: edit.sheet, row, column }), traits),
  }));
  const wrong = cellsProblem(writes.map((write) => ({ ...write, cell: write.cell ?? null })));
  return wrong ?? putCells(desk, edit.sheet, writes);
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
