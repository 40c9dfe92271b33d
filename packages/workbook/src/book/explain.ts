import {
  type At,
  type BookState,
  CHECKS_SHEET,
  cellOf,
  columnName,
  type Formula,
  formulaOf,
  functionsIn,
  textOf,
  writtenTokens,
} from '@kerfbook/document';
import { functionReference } from '@kerfbook/functions';
import type { Explanation, Neighbour } from '../api.ts';
import type { Values } from '../port.ts';
import { showValue } from '../quantities/show.ts';
import { alsoUsing } from './also-used.ts';
import { readContext } from './context.ts';
import { tableViews } from './look.ts';
import { isWithin, ownAreasOf } from './own-tables.ts';
import { type Evaluate, tableValues } from './table-values.ts';
import { viewCell } from './view.ts';

interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

interface Explaining extends Sources {
  /** Works a formula out as if it stood on a sheet; not there while values are still to be worked out. */
  readonly evaluate: Evaluate | undefined;
}

/** Cells listed at the most: an explanation is read, not searched. */
const MOST = 200;

/** Why a cell has the value it has: in words, in numbers, and down to the inputs (rule X1). */
export function explainCell(sources: Explaining, at: At): Explanation {
  const { state, evaluate } = sources;
  const cell = viewCell(sources, at);
  const formula = formulaOf(state.cell(at) ?? {});
  const calculated = formula !== undefined;
  const before = calculated ? cellsBefore(sources, at) : { roots: [], between: [] };
  const near = (places: readonly At[]) =>
    inOrder(state, places)
      .slice(0, MOST)
      .map((one) => neighbour(sources, one));
  return {
    at,
    address: `${state.sheetName(at.sheet) ?? ''}!${cell.address}`,
    uses: calculated ? near(precedentsOf(sources, at)) : [],
    usedBy: near(sources.values.dependents(at)),
    alsoUsedBy: alsoUsing(sources, at),
    rests: calculated ? near(before.roots) : [],
    functions: calculated ? ownFunctions(formula) : [],
    ...tableValues(state, evaluate, calculated ? [at, ...before.between] : []),
    looksIn: calculated ? looksIn(state, at, formula) : [],
    ...(cell.name === undefined ? {} : { name: cell.name }),
    ...(cell.formula === undefined || !calculated
      ? {}
      : { formula: cell.formula, withNumbers: inNumbers(sources, formula, at.sheet) }),
    ...(cell.value.kind === 'error' ? { error: cell.value.error } : {}),
  };
}

/** Cells whose formulas use a cell, in the order of the workbook. */
export function usersOf(sources: Sources, at: At): readonly Neighbour[] {
  return inOrder(sources.state, sources.values.dependents(at)).map((one) =>
    neighbour(sources, one),
  );
}

function neighbour({ state, values }: Sources, at: At): Neighbour {
  const context = readContext({ state }, at.sheet, at);
  return {
    at,
    address: addressOf(state, at),
    label: state.cell(at)?.name ?? labelAt(state, at),
    shown: showValue(values.value(at), context).text,
  };
}

const addressOf = (state: BookState, { sheet, row, column }: At): string =>
  `${state.sheetName(sheet) ?? ''}!${columnName(column)}${row + 1}`;

/** What a cell is called beside its name: where it stands in a table, or what stands at the left of it. */
export const labelAt = (state: BookState, at: At): string =>
  tableLabel(state, at) ?? besideLabel(state, at) ?? addressOf(state, at);

/** In a table a cell is called by its row's first words and its column's head: `Leg, length`. */
function tableLabel(state: BookState, at: At): string | undefined {
  const table = tableViews(state).find(
    ({ sheet, header, last }) => sheet === at.sheet && at.row > header && at.row <= last,
  );
  if (table === undefined) return undefined;
  const head = wordsIn(state, { ...at, row: table.header });
  for (let column = 0; column < at.column; column += 1) {
    const row = wordsIn(state, { ...at, column });
    if (row !== undefined) return head === undefined ? row : `${row}, ${head}`;
  }
  return undefined;
}

/**
 * The words in front of a cell in its row: what a maker calls it. Words right behind a number are that
 * number's unit, and no name of the next one.
 */
function besideLabel(state: BookState, at: At): string | undefined {
  for (let column = at.column - 1; column >= 0; column -= 1) {
    const words = wordsIn(state, { ...at, column });
    if (words !== undefined && !isNumber(state, { ...at, column: column - 1 })) return words;
  }
  return undefined;
}

function wordsIn(state: BookState, at: At): string | undefined {
  const value = state.cell(at)?.value;
  return typeof value === 'string' && value.trim() !== '' ? value : undefined;
}

function isNumber(state: BookState, at: At): boolean {
  const cell = at.column < 0 ? undefined : state.cell(at);
  return cell?.formula !== undefined || typeof cell?.value === 'number';
}

/** What a cell's formula names; own tables that its functions look in are told by their sheet. */
function precedentsOf({ state, values }: Sources, at: At): readonly At[] {
  const found = values.precedents(at);
  const formula = formulaOf(state.cell(at) ?? {});
  const areas = formula === undefined ? [] : ownAreasOf(formula, at.sheet, state);
  if (areas.length === 0) return found;
  return found.filter((one) => !areas.some((area) => isWithin(one, area)));
}

function looksIn(state: BookState, at: At, formula: Formula): readonly string[] {
  return ownAreasOf(formula, at.sheet, state).map(({ sheet }) => state.sheetName(sheet) ?? '');
}

interface Before {
  /** Cells without a formula of their own, or overridden, that the cell finally rests on. */
  readonly roots: readonly At[];
  /** Those on the way there. */
  readonly between: readonly At[];
}

function cellsBefore(sources: Sources, start: At): Before {
  const { state } = sources;
  const key = (at: At): string => `${at.sheet} ${at.row} ${at.column}`;
  const seen = new Set([key(start)]);
  const roots: At[] = [];
  const between: At[] = [];
  let edge = precedentsOf(sources, start);
  while (edge.length > 0 && roots.length < MOST) {
    const next: At[] = [];
    for (const at of edge) {
      if (seen.has(key(at))) continue;
      seen.add(key(at));
      const cell = state.cell(at);
      if (cell === undefined) continue;
      if (cell.formula === undefined || cell.override !== undefined) roots.push(at);
      else {
        between.push(at);
        next.push(...precedentsOf(sources, at));
      }
    }
    edge = next;
  }
  return { roots, between };
}

function inOrder(state: BookState, places: readonly At[]): readonly At[] {
  const order = new Map(state.sheets.map((sheet, index) => [sheet.id, index]));
  return places
    .filter((at) => at.sheet !== CHECKS_SHEET)
    .sort(
      (a, b) =>
        (order.get(a.sheet) ?? 0) - (order.get(b.sheet) ?? 0) ||
        a.row - b.row ||
        a.column - b.column,
    );
}

function ownFunctions(formula: Formula): readonly string[] {
  const used = new Set(functionsIn(formula));
  return functionReference()
    .map(({ name }) => name)
    .filter((name) => used.has(name));
}

/** The formula with every single cell replaced by what it shows; ranges stay addresses. */
function inNumbers(sources: Sources, formula: Formula, sheet: string): string {
  const { state } = sources;
  const written = writtenTokens(formula, sheet, state);
  const tokens = formula.tokens.map(({ type, value, reference }, i) => {
    const at =
      reference === undefined
        ? type === 'range_named' && state.named(value)
        : reference.to === undefined && cellOf(reference.from, reference.sheet ?? sheet, state);
    const shown = at ? { type, value: neighbour(sources, at).shown } : written[i];
    return shown ?? { type, value };
  });
  return textOf(tokens);
}
