import {
  type Edit,
  type Formula,
  type FormulaCell,
  formulaLetters,
  formulaOf,
  keptOf,
  LIMITS,
  listChanges,
  nameKey,
  nameProblem,
  namesInColumn,
  type RefusedResult,
  refuse,
  renamed,
  renamedListed,
  renamedSentence,
  usersOfName,
  usesName,
  withFormula,
} from '@kerfbook/document';
import { newNameProblem, placesProblem, placeText, putCells, type Write } from './cells.ts';
import type { Desk, Refusal } from './desk.ts';

/** `nameCell`: a cell gets a name, another name (formulas follow), or none. */
export function nameCell(desk: Desk, edit: Edit & { do: 'nameCell' }): Refusal {
  const { at } = edit;
  const name = edit.name?.normalize('NFC') ?? null;
  const trouble = placesProblem(desk, at.sheet, [at]);
  if (trouble !== undefined) return trouble;
  const old = desk.state.cell(at);
  if (name === null) return unname(desk, edit);
  if (old?.name !== undefined)
    return renameName(desk, { do: 'renameName', from: old.name, to: name });
  const wrong = newNameProblem(desk, name, undefined, undefined, nameProblem);
  if (wrong !== undefined) return wrong;
  putCells(desk, at.sheet, [{ row: at.row, column: at.column, cell: { ...old, name } }]);
  return undefined;
}

function unname(desk: Desk, { at }: Edit & { do: 'nameCell' }): Refusal {
  const { name, ...kept } = desk.state.cell(at) ?? {};
  if (name === undefined) return refuse('W5', `at ${placeText(at)}`);
  const users = [
    ...usersOfName(desk.state, name).map(
      (user) => `${desk.state.sheetName(user.at.sheet)}!${placeText(user.at)}`,
    ),
    ...desk.state.checks
      .filter((check) => usesName(formulaOf(check), nameKey(name)))
      .map((check) => `the check "${check.name}"`),
  ];
  if (users.length > 0) return refuse('W4', name, listed(users));
  const cell = Object.keys(kept).length === 0 ? undefined : kept;
  putCells(desk, at.sheet, [{ row: at.row, column: at.column, cell }]);
  return undefined;
}

function listed(words: readonly string[]): string {
  const shown = words.slice(0, 5).join(', ');
  return words.length > 5 ? `${shown} and ${words.length - 5} more` : shown;
}

/** `renameName`: the cell's name, and the word in every formula and check sentence. */
export function renameName(desk: Desk, edit: Edit & { do: 'renameName' }): Refusal {
  const { from } = edit;
  // One way to put an accent on a letter, so that files compare.
  const to = edit.to.normalize('NFC');
  const home = desk.state.named(from);
  if (home === undefined) return refuse('W5', from);
  const wrong = newNameProblem(desk, to, new Set([nameKey(from)]), undefined, nameProblem);
  if (wrong !== undefined) return wrong;
  const writes = new Map<string, Write[]>();
  const write = (sheet: string, one: Write): void => {
    writes.set(sheet, [...(writes.get(sheet) ?? []), one]);
  };
  const users = usersOfName(desk.state, from);
  const outgrown = outgrownProblem(desk, users, from, to);
  if (outgrown !== undefined) return outgrown;
  // The name first: a formula told before it would find nothing under the new word.
  const cell = { ...desk.state.cell(home), name: to };
  putCells(desk, home.sheet, [{ row: home.row, column: home.column, cell }]);
  for (const { at } of users) {
    const now = desk.state.cell(at);
    if (now === undefined) continue;
    const formula = formulaOf(now);
    if (formula === undefined) continue;
    const cell = withFormula(now, renamed(formula, from, to));
    write(at.sheet, { row: at.row, column: at.column, cell });
  }
  for (const [sheet, cells] of writes) putCells(desk, sheet, cells);
  renameInChecks(desk, from, to);
  renameInTables(desk, from, to);
  renameInHead(desk, from, to);
  return undefined;
}

/** A formula that computes must not become too long for it by a longer name (rule L3). */
function outgrownProblem(
  { state }: Desk,
  users: readonly FormulaCell[],
  from: string,
  to: string,
): RefusedResult | undefined {
  const checks = state.checks.map((check) => ({
    formula: formulaOf(check),
    where: `the check "${check.name}"`,
  }));
  const cells = users.map(({ at, cell }) => ({
    formula: formulaOf(cell),
    where: `${state.sheetName(at.sheet)}!${placeText(at)}`,
  }));
  for (const { formula, where } of [...cells, ...checks]) {
    const letters = ({ tokens }: Formula): number => formulaLetters(tokens);
    const after = letters(renamed(formula, from, to));
    if (after > LIMITS.formula && letters(formula) <= LIMITS.formula) {
      return refuse('W23', to, where, after);
    }
  }
  return undefined;
}

function renameInChecks(desk: Desk, from: string, to: string): void {
  const before = desk.state.checks;
  const after = before.map((check) => {
    const formula = renamed(formulaOf(check), from, to);
    const says = renamedSentence(check.says, from, to);
    return keptOf(formula) === check.formula && says === check.says
      ? check
      : withFormula({ ...check, says }, formula);
  });
  desk.change(...listChanges({ list: 'checks' }, before, after));
}

/** Tables whose texts hold names of cells. */
const NAMING: ReadonlySet<string> = new Set(['steps', 'words', 'studies', 'variants']);

/**
 * Texts of steps, and what they are called in a second language, show cells by name as the sentences of checks do; studies
 * and variants list names.
 */
function renameInTables(desk: Desk, from: string, to: string): void {
  for (const { kind, sheet, header, last } of desk.state.tables) {
    const first = desk.state.rowIndex(sheet, header);
    const end = desk.state.rowIndex(sheet, last);
    if (!NAMING.has(kind) || first === undefined || end === undefined) continue;
    const writes: Write[] = [];
    const columns = desk.state.sheet(sheet)?.columns.length ?? 0;
    const heads = Array.from({ length: columns }, (_, column) =>
      String(desk.state.cell({ sheet, row: first, column })?.value ?? ''),
    );
    for (let row = first; row <= end; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const cell = desk.state.cell({ sheet, row, column });
        if (typeof cell?.value !== 'string') continue;
        const how = namesInColumn(kind, heads[column] ?? '');
        // A variant's name may be that of a cell, and stays; so does every other head.
        const listed = how !== undefined && (how === 'head') === (row === first);
        if (row === first && !listed) continue;
        const said = renamedSentence(cell.value, from, to);
        const value = listed ? renamedListed(said, how, from, to) : said;
        if (value === cell.value) continue;
        const { typed: _typed, ...rest } = cell;
        writes.push({ row, column, cell: { ...rest, value } });
      }
    }
    if (writes.length > 0) putCells(desk, sheet, writes);
  }
}

/** Lists of names that are said of the whole: the results told first, the inputs opened to readers. */
function renameInHead(desk: Desk, from: string, to: string): void {
  const { results, guide } = desk.state.head;
  const isIt = (name: string): boolean => nameKey(name) === nameKey(from);
  const then = (names: readonly string[]): string[] =>
    names.map((name) => (isIt(name) ? to : name));
  const set = {
    ...(results?.some(isIt) === true ? { results: then(results) } : {}),
    ...(guide?.inputs?.some(isIt) === true
      ? { guide: { ...guide, inputs: then(guide.inputs) } }
      : {}),
  };
  if (Object.keys(set).length > 0) desk.change({ change: 'head', set });
}
