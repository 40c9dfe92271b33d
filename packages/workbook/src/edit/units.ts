import {
  type At,
  type CellChange,
  CHECKS_SHEET,
  type CheckDocument,
  type Edit,
  formulaOf,
  listChanges,
  refuse,
  type SheetState,
} from '@kerfbook/document';
import { contextOf } from '../book/context.ts';
import { Meanings } from '../meaning/book.ts';
import { unitShown } from '../quantities/show.ts';
import type { Desk, Refusal } from './desk.ts';
import { cellInOther, formulaInOther, keptInOther, type Turning } from './other-units.ts';

const WORDS = { us: 'inches and pounds', metric: 'millimeters and kilograms' } as const;

/** `changeUnits`: the workbook counts in other units, and all it holds is turned into them (rule N7). */
export function changeUnits(desk: Desk, { to }: Edit & { do: 'changeUnits' }): Refusal {
  const { state } = desk;
  if (!Object.hasOwn(WORDS, to)) return refuse('W14', `changeUnits to ${String(to)}`);
  if (state.head.units === to) return refuse('W29', WORDS[to]);
  const turning: Turning = { meanings: new Meanings({ state }), head: state.head, to };
  for (const sheet of state.sheets) {
    const cells = [...cellsInOther(sheet, turning)];
    if (cells.length > 0) desk.change({ change: 'cells', sheet: sheet.id, cells });
  }
  const home = state.sheets[0]?.id ?? CHECKS_SHEET;
  const checks = state.checks.map((check) => checkInOther(check, home, turning));
  desk.change(...listChanges({ list: 'checks' }, state.checks, checks));
  desk.change({ change: 'head', set: { units: to } });
  return undefined;
}

function* cellsInOther(sheet: SheetState, turning: Turning): Generator<CellChange> {
  for (const [row, line] of sheet.rows.entries()) {
    for (const [column, cell] of line.cells) {
      const next = cellInOther(cell, sheet.id, turning);
      const at = { sheet: sheet.id, row, column: sheet.columnIndex(column) ?? 0 };
      const unit = unitInOther(sheet, at, turning);
      const made = unit === undefined ? next : { ...next, value: unit };
      if (JSON.stringify(made) !== JSON.stringify(cell)) yield { row: line.id, column, cell: made };
    }
  }
}

/** Words right behind a number that are its unit become the unit it is shown in then. */
function unitInOther(sheet: SheetState, { row, column }: At, turning: Turning): string | undefined {
  const words = sheet.cell(row, column)?.value;
  const before = sheet.cell(row, column - 1);
  if (typeof words !== 'string' || before?.quantity === undefined) return undefined;
  const unit = unitShown(contextOf(before, turning.head));
  if (unit === '' || words !== unit) return undefined;
  const after = cellInOther(before, sheet.id, turning);
  return unitShown(contextOf(after, { ...turning.head, units: turning.to }));
}

function checkInOther(check: CheckDocument, home: string, turning: Turning): CheckDocument {
  const back: Turning = { ...turning, to: turning.to === 'metric' ? 'us' : 'metric' };
  const { other, ...now } = check;
  if (other !== undefined && keptInOther(other, home, undefined, back) === now.formula) {
    return { ...now, formula: other };
  }
  const formula = formulaInOther(formulaOf(check), home, undefined, turning);
  if (formula === now.formula) return check;
  const isBack = keptInOther(formula, home, undefined, back) === now.formula;
  return { ...now, formula, ...(isBack ? {} : { other: now.formula }) };
}
