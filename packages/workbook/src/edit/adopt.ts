import { CHECKS_SHEET, type Edit, formulaCells, hasLoose, LIMITS, toIds } from '@kerfbook/document';
import { putCells, type Write } from './cells.ts';
import type { Desk, Done } from './desk.ts';
import { tellChecks } from './formulas.ts';

/**
 * Turns references by address that an edit brought, or whose sheet, row or column it made, into ids
 * (rule F7): opened again, they would be. What that changed, as parts of the edit.
 */
export function adoptLoose(desk: Desk, done: Edit): Done[] {
  const parts = partsOf(done);
  if (parts.some(({ do: kind }) => MAKES.has(kind))) {
    return [...adoptEverywhere(desk), ...adoptInChecks(desk)];
  }
  const cells = parts.flatMap((part) => {
    if (part.do !== 'setCells') return [];
    const places = part.cells.filter(({ cell }) => hasLoose(cell?.formula ?? ''));
    return adopted(desk, part.sheet, places);
  });
  return parts.some(({ do: kind }) => kind === 'setChecks')
    ? [...cells, ...adoptInChecks(desk)]
    : cells;
}

/** What makes something be there that a reference may have waited for. */
const MAKES = new Set<Edit['do']>(['insertRows', 'insertColumns', 'addSheet', 'renameSheet']);

const partsOf = (edit: Edit): readonly Edit[] =>
  edit.do === 'several' ? edit.edits.flatMap(partsOf) : [edit];

function adoptEverywhere(desk: Desk): Done[] {
  const bySheet = new Map<string, { row: number; column: number }[]>();
  for (const { at, cell } of formulaCells(desk.state)) {
    if (!hasLoose(cell.formula)) continue;
    const places = bySheet.get(at.sheet) ?? [];
    places.push(at);
    bySheet.set(at.sheet, places);
  }
  return [...bySheet].flatMap(([sheet, places]) => adopted(desk, sheet, places));
}

function adopted(
  desk: Desk,
  sheet: string,
  places: readonly { readonly row: number; readonly column: number }[],
): Done[] {
  const writes = places.flatMap(({ row, column }): Write[] => {
    const cell = desk.state.cell({ sheet, row, column });
    if (cell?.formula === undefined) return [];
    const formula = toIds(cell.formula, sheet, desk.state);
    const stays = formula === cell.formula || formula.length > LIMITS.kept;
    return stays ? [] : [{ row, column, cell: { ...cell, formula } }];
  });
  return writes.length === 0 ? [] : [putCells(desk, sheet, writes)];
}

function adoptInChecks(desk: Desk): Done[] {
  const before = desk.state.checks;
  const after = before.map((check) => {
    if (!hasLoose(check.formula)) return check;
    const formula = toIds(check.formula, CHECKS_SHEET, desk.state);
    const stays = formula === check.formula || formula.length > LIMITS.kept;
    return stays ? check : { ...check, formula };
  });
  if (after.every((check, i) => check === before[i])) return [];
  desk.state.checks = after;
  tellChecks(desk, before.length);
  return [
    {
      ok: true,
      edit: { do: 'setChecks', checks: after },
      inverse: { do: 'setChecks', checks: before },
    },
  ];
}
