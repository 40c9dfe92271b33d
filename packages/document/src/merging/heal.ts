import type { BookDocument, CellDocument, CheckDocument, TableDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';
import { addressOf, type Gone, type SheetIndex, shrunkReference } from '../formula/references.ts';
import { carryRead, type Formula, formulaOf, keptOf, withFormula } from '../formula/tree/read.ts';
import { renamed, rereferred, writtenTokens } from '../formula/tree/turns.ts';
import { turnedCheck } from '../state/check-formulas.ts';
import { namesInSentence, renamedSentence } from '../state/check-sentences.ts';
import { BookState } from '../state/state.ts';
import { mergeComplaint } from './sentences.ts';
import { cellPlace, type Merging, memberPlace, type Side, tell } from './sides.ts';
import type { Lines, Wanted } from './wanted.ts';

/**
 * What one log says of rows, columns and names that the other one took away without knowing of it: ends
 * of ranges and of tables move to what is left, names follow their cells, as each would have done in one
 * workbook (rules S2, S3). Told each time, and also where a formula is left without what it uses.
 */
export function healed(merging: Merging, { document, full }: Wanted): BookDocument {
  const sources: Sources = { merging, state: BookState.of(document), full, gone: [] };
  for (const [sheet, lines] of full) sources.gone.push(goneOf(sources, sheet, lines));
  const sheets = document.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => {
      const entries = Object.entries(row.cells ?? {});
      const cells = entries.map(([column, cell]): [string, CellDocument] => [
        column,
        healedCell(sources, { sheet: sheet.id, row: row.id, column }, cell),
      ]);
      const alike = cells.every(([, cell], i) => cell === entries[i]?.[1]);
      return alike ? row : { ...row, cells: Object.fromEntries(cells) };
    }),
  }));
  return {
    ...document,
    sheets,
    checks: document.checks.map((check) => healedCheck(sources, check)),
    tables: document.tables.map((table) => healedTable(sources, table)),
  };
}

interface Sources {
  readonly merging: Merging;
  /** What both want, before it is healed. */
  readonly state: BookState;
  readonly full: ReadonlyMap<string, Lines>;
  readonly gone: Gone[];
}

function goneOf({ state }: Sources, sheet: string, { rows, columns }: Lines): Gone {
  return {
    sheet,
    rows: rows.filter((id) => state.rowIndex(sheet, id) === undefined),
    columns: columns.filter((id) => state.columnIndex(sheet, id) === undefined),
  };
}

interface Place {
  readonly sheet: string;
  readonly row: string;
  readonly column: string;
}

function healedCell(sources: Sources, place: Place, cell: CellDocument): CellDocument {
  if (cell.formula === undefined) return cell;
  const { first, second } = sources.merging;
  const { sheet, row, column } = place;
  const [one, other] = [first, second].map(({ state }) => {
    const found = state.sheet(sheet);
    return found?.rows[found.rowIndex(row) ?? -1]?.cells.get(column)?.formula;
  });
  const where = (): string => `the formula of ${cellPlace([sources.state], sheet, row, column)}`;
  const holder = cell as CellDocument & { formula: string };
  const before = formulaOf(holder);
  const after = healedFormula(sources, before, [one, other], { home: sheet, where });
  return after === before ? cell : withFormula(cell, after);
}

function healedCheck(sources: Sources, check: CheckDocument): CheckDocument {
  const { first, second } = sources.merging;
  const [one, other] = [first, second].map(({ state }) =>
    state.checks.find(({ id }) => id === check.id),
  );
  const where = (): string => memberPlace([sources.state], { list: 'checks' }, check.id);
  const turned = turnedCheck(check, (formula, home) => {
    const isCells = keptOf(formula) !== check.formula;
    const texts = [one, other].map((of) => (isCells ? of?.cells : of?.formula));
    return healedFormula(sources, formula, texts, { home, where });
  });
  const says = healedSentence(sources, check.says, [one?.says, other?.says], where);
  return says === check.says ? turned : carryRead(turned, { ...turned, says });
}

/** A check's sentence that only one log knows: names in it follow their cells as those in formulas do. */
function healedSentence(
  sources: Sources,
  says: string,
  [one, other]: readonly (string | undefined)[],
  check: () => string,
): string {
  if (one === other) return says;
  const tellOf = {
    sources,
    ...sidesOf(sources, says === one),
    where: () => `the sentence of ${check()}`,
  };
  return followNames(tellOf, namesInSentence(says), 'X15').reduce(
    (now, { from, to }) => renamedSentence(now, from, to),
    says,
  );
}

/** Who wrote something, and the other one. */
function sidesOf({ merging: { first, second } }: Sources, isOfFirst: boolean) {
  const [author, remover] = isOfFirst ? [first, second] : [second, first];
  return { author, remover };
}

interface Where {
  readonly home: string;
  readonly where: () => string;
}

/** A formula that only one log knows: what the other one took away meanwhile is told and mended. */
function healedFormula(
  sources: Sources,
  formula: Formula,
  [one, other]: readonly (string | undefined)[],
  { home, where }: Where,
): Formula {
  if (one === other) return formula;
  const { author, remover } = sidesOf(sources, keptOf(formula) === one);
  const tellOf = { sources, author, remover, where };
  const shrunk = shrunkFormula(tellOf, formula, home);
  const words = shrunk.tokens.filter(({ type }) => type === 'range_named');
  const names = words.map(({ value }) => value);
  const named = followNames(tellOf, names, 'X11').reduce(
    (now, { from, to }) => renamed(now, from, to),
    shrunk,
  );
  const lost = (index: SheetIndex): number =>
    writtenTokens(named, home, index).filter(({ value }) => value === '#REF!').length;
  if (lost(sources.state) > lost(author.state)) {
    tell(sources.merging, mergeComplaint('X9', where(), author.name, remover.name));
  }
  return named;
}

interface Telling {
  readonly sources: Sources;
  readonly author: Side;
  readonly remover: Side;
  readonly where: () => string;
}

function shrunkFormula(
  { sources, author, remover, where }: Telling,
  formula: Formula,
  home: string,
): Formula {
  const index = fullIndex(sources);
  // What its own log left without a place stays so.
  const shrunk = sources.gone.reduce(
    (now, gone) =>
      rereferred(now, (reference) =>
        addressOf(reference, home, author.state) === undefined
          ? undefined
          : shrunkReference(reference, home, gone, index),
      ),
    formula,
  );
  if (shrunk === formula) return formula;
  tell(sources.merging, mergeComplaint('X10', where(), author.name, remover.name));
  return shrunk;
}

/** What names that the other log changed are now; those and the ones that it took away are told. */
function followNames(
  { sources, author, remover, where }: Telling,
  names: readonly string[],
  gone: 'X11' | 'X15',
): readonly { readonly from: string; readonly to: string }[] {
  const { merging, state } = sources;
  const changed: { from: string; to: string }[] = [];
  const seen = new Set<string>();
  for (const value of names) {
    const key = nameKey(value);
    if (seen.has(key) || state.homes.has(key)) continue;
    seen.add(key);
    const home = author.state.homes.get(key);
    if (home === undefined) continue;
    const sheet = state.sheet(home.sheet);
    const name = sheet?.rows[sheet.rowIndex(home.row) ?? -1]?.cells.get(home.column)?.name;
    const words = [where(), author.name, value, remover.name] as const;
    if (name === undefined) tell(merging, mergeComplaint(gone, ...words));
    else {
      tell(merging, mergeComplaint('X12', ...words, name));
      changed.push({ from: value, to: name });
    }
  }
  return changed;
}

/** Where rows and columns stand while those that go are still there. */
function fullIndex({ state, full }: Sources): SheetIndex {
  const at = (all: readonly string[] | undefined, id: string): number | undefined => {
    const found = all?.indexOf(id) ?? -1;
    return found < 0 ? undefined : found;
  };
  return {
    sheetId: (name) => state.sheetId(name),
    sheetName: (id) => state.sheetName(id),
    columnId: (sheet, index) => full.get(sheet)?.columns[index],
    columnIndex: (sheet, id) => at(full.get(sheet)?.columns, id),
    rowId: (sheet, index) => full.get(sheet)?.rows[index],
    rowIndex: (sheet, id) => at(full.get(sheet)?.rows, id),
  };
}

/** A table whose last row went ends higher; one without its head row is none, which is told later. */
function healedTable({ merging, state, full }: Sources, table: TableDocument): TableDocument {
  const there = (id: string): boolean => state.rowIndex(table.sheet, id) !== undefined;
  const rows = full.get(table.sheet)?.rows;
  if (rows === undefined || there(table.last) || !there(table.header)) return table;
  const last = rows
    .slice(rows.indexOf(table.header), rows.indexOf(table.last) + 1)
    .findLast((id) => there(id));
  if (last === undefined) return table;
  const remover = [merging.first, merging.second].find(
    (side) => side.state.rowIndex(table.sheet, table.last) === undefined,
  );
  const where = memberPlace([state], { list: 'tables' }, table.id);
  tell(merging, mergeComplaint('X13', where, remover?.name ?? ''));
  return { ...table, last };
}
