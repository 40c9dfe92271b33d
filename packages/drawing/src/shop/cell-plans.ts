import { type AskedPlan, plansAskedIn, timesAsked } from '@kerfbook/cutting';
import { type At, type OpenWorkbook, PLANNERS } from '@kerfbook/workbook';

/** A plan of boards that formulas of a workbook answer with, and the cells they stand in. */
export interface CellPlan {
  /** What was asked and answered. */
  readonly asked: AskedPlan;
  /** Cells whose own formula asks for it. */
  readonly cells: readonly At[];
}

/** Formulas beyond these answer with the plans that are found quickly: looking at all would hold up the page. */
const MOST_LOOKED_AT = 300;

const ASKS = new RegExp(`\\b(?:${PLANNERS.join('|')})\\s*\\(`, 'i');

/**
 * The plans of boards that a workbook's cells answer with as they stand now, each once. The workbook is
 * not changed; what is left to be worked out is worked out first.
 */
export function cellPlans(
  book: Pick<OpenWorkbook, 'document' | 'cell' | 'evaluate'>,
): readonly CellPlan[] {
  const plans = new Map<string, { asked: AskedPlan; cells: At[] }>();
  if (timesAsked() === 0) return [];
  let looked = 0;
  for (const sheet of book.document().sheets) {
    for (const [row, { cells = {} }] of sheet.rows.entries()) {
      for (const [column, { id }] of sheet.columns.entries()) {
        const cell = cells[id];
        if (cell?.formula === undefined || !ASKS.test(cell.formula)) continue;
        const at = { sheet: sheet.id, row, column };
        const { formula, override } = book.cell(at);
        if (formula === undefined || override !== undefined || looked === MOST_LOOKED_AT) continue;
        looked += 1;
        for (const asked of plansAskedIn(() => book.evaluate(formula, sheet.id))) {
          const key = JSON.stringify(asked.job);
          const known = plans.get(key) ?? { asked, cells: [] };
          known.cells.push(at);
          plans.set(key, known);
        }
      }
    }
  }
  return [...plans.values()];
}

/** One word for a cell, to look for it in a set. */
export const keyOfCell = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** These cells and all whose values rest on them. */
export function restingOn(
  book: Pick<OpenWorkbook, 'usedBy'>,
  cells: readonly At[],
): ReadonlyMap<string, At> {
  const found = new Map<string, At>();
  const waiting = [...cells];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (found.has(keyOfCell(at))) continue;
    found.set(keyOfCell(at), at);
    waiting.push(...book.usedBy(at).map((one) => one.at));
  }
  return found;
}
